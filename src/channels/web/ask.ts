/** The open question: how far along one is, the question, its answers as buttons, and the words that always work. */
import type { Always } from '#engine/entries.ts';
import type { Ask, Question, Remaining, Try } from '#engine/messages.ts';
import { LARGEST_FILE } from '#reading/pictures/clean.ts';
import { type Look, saying } from './form.ts';
import { type Html, html } from './html.ts';
import { marked, markedLine } from './marked.ts';
import { camera, tool } from './marks.ts';
import type { Open, Thread } from './thread.ts';

export function askCard(open: Open, look: Look): Html {
  const { question, answered } = open;
  const { words } = look;
  const step = question.kind === 'try' ? tryBody(question, look) : null;
  const text = question.kind === 'try' ? question.works : question.text;
  return html`<section id="now" class="card${question.kind === 'try' ? ' card-try' : ''}" aria-labelledby="question">
${question.left === null ? null : far(answered, question.left, look)}
${step}
<h2 id="question" tabindex="-1" lang="en">${markedLine(text)}</h2>
${
  question.help === null
    ? null
    : html`<details class="help"><summary>${words.help}</summary><div lang="en">${marked(question.help)}</div></details>`
}
${answersOf(open, look)}
</section>`;
}

function tryBody({ text, minutes }: Try, { words }: Look): Html {
  return html`<div class="try"><p class="try-head">${tool}<strong>${words.tryThis}</strong> <span>${words.minutes(minutes)}</span></p><div lang="en">${marked(text)}</div></div>`;
}

const MOST_TICKS = 30;

/** Solid: answered. Open: sure to come. Faint: may come. */
function far(answered: number, { shortest, longest }: Remaining, { words }: Look): Html {
  const total = answered + longest;
  const ticks =
    total > MOST_TICKS
      ? null
      : Array.from(
          { length: total },
          (_, index) =>
            html`<i class="${index < answered ? 'done' : index < answered + shortest ? 'sure' : 'maybe'}"></i>`,
        );
  return html`<p class="far"><span class="ticks" aria-hidden="true">${ticks}</span> <span>${words.far(shortest, longest)}</span></p>`;
}

function answersOf({ conversation, question }: Open, look: Look): Html {
  const { words } = look;
  const choices =
    question.answers.length === 0
      ? null
      : html`<form method="post" action="/answer" class="answers" data-say>
${saying(look)}<input type="hidden" name="conversation" value="${conversation}"><input type="hidden" name="question" value="${question.number}">
${question.answers.map(
  ({ id, label }, index) =>
    html`<button name="answer" value="${id}" lang="en"><span class="nth" aria-hidden="true">${index + 1}</span><span>${label}</span></button>`,
)}
</form>`;
  if (question.kind === 'try') return html`${choices}`;
  return html`${choices}${question.form === 'number' ? numberForm(question, look) : null}${
    question.form === 'photo' ? pictureForm(look, 'card') : null
  }${
    question.optional
      ? html`<form method="post" action="/say" class="skip-form" data-say>${saying(look)}<button name="text" value="skip" class="quiet">${words.skip}</button></form>`
      : null
  }`;
}

function numberForm({ unit, minimum, maximum }: Ask, look: Look): Html {
  const { words } = look;
  const label = unit === null ? words.plainNumber : words.number(unit);
  return html`<form method="post" action="/say" class="number" data-say>${saying(look)}
<label for="number">${label}</label>
<span class="number-row"><input id="number" name="text" type="text" inputmode="decimal" required autocomplete="off"${
    minimum === null && maximum === null ? null : html` placeholder="${minimum ?? ''}–${maximum ?? ''}"`
  }><button class="go">${words.enter}</button></span></form>`;
}

/** Besides pictures, where they are not what is asked for: a drive's reading as whatever wrote it may have called it. */
const TEXT_FILES = ',text/plain,application/json,.txt,.json,.log,.bin';

/** `where`: a question for a picture has a large one of its own. */
export function pictureForm(look: Look, where: 'card' | 'box'): Html {
  const { words } = look;
  const id = `picture-${where}`;
  return html`<form method="post" action="/picture" enctype="multipart/form-data" class="picture picture-${where}" data-picture data-most="${LARGEST_FILE}" data-large="${words.refused['too-large']}">${saying(look)}
<input id="${id}" name="picture" type="file" accept="image/png,image/jpeg,image/webp${where === 'box' ? TEXT_FILES : null}" required>
<label for="${id}"${where === 'card' ? null : html` title="${words.picture}"`}>${camera}<span>${where === 'card' ? words.takePicture : words.picture}</span></label>
${where === 'card' ? html`<p class="fine">${words.pictureKinds}</p>` : null}
<noscript><button class="go">${words.sendPicture}</button></noscript></form>`;
}

/** Back, start again, a person, stop: where the question allows them. */
export function standingRow(open: Open | null, thread: Pick<Thread, 'answers'>, look: Look): Html {
  const { words } = look;
  const always: Always[] = open?.question.always ?? (thread.answers.length === 0 ? ['person'] : []);
  if (always.length === 0) return html`<div id="standing" class="standing"></div>`;
  const last = thread.answers.at(-1);
  const button = (what: Always, label: string, title?: string) =>
    always.includes(what) &&
    html`<button name="what" value="${what}"${title === undefined ? null : html` title="${title}" aria-label="${title}"`}>${label}</button>`;
  return html`<div id="standing" class="standing">
<form method="post" action="/always" data-say>${saying(look)}
${button('back', words.back, last === undefined ? undefined : words.backUndoes(short(last.shown)))}
${button('person', words.person)}
${button('stop', words.stop)}
</form>
${
  always.includes('again')
    ? html`<details class="again"><summary>${words.again}</summary><form method="post" action="/always" class="confirm" data-say>${saying(look)}<p>${words.againAsk}</p><button name="what" value="again">${words.againYes}</button></form></details>`
    : null
}
</div>`;
}

export const short = (text: string): string => (text.length > 40 ? `${text.slice(0, 39)}…` : text);

/** What stands above the text box. */
export function boxLabel(question: Question | null, begun: boolean, look: Look): string {
  const { words } = look;
  if (question === null) return begun ? words.boxEnded : words.firstBox;
  if (question.step === '@opening') return words.boxOpening;
  return question.answers.length > 0 ? words.boxChoice : words.boxText;
}
