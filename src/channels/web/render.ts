/** One chat drawn: every message and every word of the person, in order, with what can be changed. Pure. */
import { isQuestion, type Message } from '#engine/messages.ts';
import { short } from './ask.ts';
import { type Look, saying, when } from './form.ts';
import { handOverCard } from './hand-over.ts';
import { type Html, html } from './html.ts';
import { marked } from './marked.ts';
import { careful, yes } from './marks.ts';
import type { Said } from './said.ts';
import type { Change, Item, Matter, Thread } from './thread.ts';

/** Longer texts of a person are folded away behind their beginning. */
const LONG = 700;

/** `link`: how to open this chat elsewhere, drawn on the hand-over card. */
export function threadHtml(thread: Thread, look: Look, link: Html | null): Html {
  const now = thread.matters.at(-1);
  const earlier = thread.matters.slice(0, -1);
  return html`<div id="thread">
${
  earlier.length === 0
    ? null
    : html`<details class="earlier" id="earlier"><summary>${look.words.earlier(earlier.length)}</summary>
${earlier.map(matter => matterHtml(matter, thread, look, null))}</details>`
}
${now === undefined ? null : matterHtml(now, thread, look, link)}
</div>`;
}

function matterHtml(matter: Matter, thread: Thread, look: Look, link: Html | null): Html {
  const { words } = look;
  const open = thread.open?.conversation === matter.conversation ? thread.open.question : null;
  const items = withoutRepeats(matter.items, open?.number ?? null);
  return html`<section class="matter" id="m-${matter.conversation}">
<p class="matter-head">${matter.number === null ? null : html`<strong>R-${matter.number}</strong> `}<span>${
    matter.outcome === null ? words.open : words.ended[matter.outcome]
  }</span> ${when(matter.openedAt)}</p>
<ol class="said">${items.map(item => itemHtml(item, look, link))}</ol></section>`;
}

/** A question that was put again stands once; the open one is in its own card. */
function withoutRepeats(items: Item[], open: number | null): Item[] {
  const asked = new Set<number>();
  return items.filter(item => {
    if (item.by === 'person' || !isQuestion(item.message)) return true;
    const { number } = item.message;
    if (number === open) return false;
    if (asked.has(number)) return false;
    asked.add(number);
    return true;
  });
}

function itemHtml(item: Item, look: Look, link: Html | null): Html {
  if (item.by === 'bot') return botHtml(item.key, item.message, look, link);
  const { said, key } = item;
  const { words } = look;
  const takenBack = said.kind === 'words' && said.takenBack;
  return html`<li id="${key}" class="person${takenBack ? ' taken-back' : ''}"><p class="unseen">${words.you}:</p>${saidHtml(said, look)}${
    takenBack ? html`<p class="fine">${words.takenBack}</p>` : null
  }${item.change === null ? null : changeHtml(item.change, key, look)}</li>`;
}

function saidHtml(said: Said, look: Look): Html {
  const { words } = look;
  if (said.kind === 'standing') return html`<p class="bubble bubble-quiet">${words.said[said.what]}</p>`;
  if (said.kind === 'picture')
    return html`<a class="shot" href="/picture/${said.id}"><img src="/picture/${said.id}" alt="${words.pictureOf(said.name)}" loading="lazy"></a>`;
  if (said.kind === 'file')
    return html`<p class="bubble"><a href="/picture/${said.id}">${words.file(said.name)}</a></p>`;
  if (said.words.length <= LONG) return html`<p class="bubble" dir="auto">${said.words}</p>`;
  const count = said.words.length.toLocaleString(words.language);
  return html`<div class="bubble" dir="auto"><p>${said.words.slice(0, LONG / 2)}…</p><details class="long"><summary>${words.showAll(count)}</summary><p>${said.words}</p></details></div>`;
}

export function changeHtml({ to, finding, undoes }: Change, key: string, look: Look): Html {
  const { words } = look;
  return html`<details class="change" id="c-${key}"><summary>${words.change}</summary>
<form method="post" action="/always" class="confirm" data-say>${saying(look)}<input type="hidden" name="to" value="${to}">${finding === null ? null : html`<input type="hidden" name="finding" value="${finding}">`}
<p>${words.changeUndoes(undoes.length)}</p><ul lang="en">${undoes.map(shown => html`<li>${short(shown)}</li>`)}</ul>
<button name="what" value="back">${words.changeYes}</button></form></details>`;
}

function botHtml(key: string, message: Message, look: Look, link: Html | null): Html {
  const { words } = look;
  const line = (kind: string, inner: Html) =>
    html`<li id="${key}" class="bot ${kind}" lang="en"><p class="unseen" lang="${words.language}">${words.bot}:</p>${inner}</li>`;
  switch (message.kind) {
    case 'say':
      return line('say', marked(message.text));
    case 'outage-notice':
      return line('notice', marked(message.text));
    case 'ending':
      return line(
        `ending ending-${message.how}`,
        html`${message.how === 'fixed' ? yes : null}<div>${marked(message.text)}</div>`,
      );
    case 'caution':
      return line(
        'caution',
        html`${careful}<div><p class="caution-head" lang="${words.language}">${words.careful}</p>${marked(message.text)}</div>`,
      );
    case 'ask':
      return line('asked', marked(message.text));
    case 'try':
      return line('asked', html`${marked(message.text)}${marked(message.works)}`);
    case 'hand-over':
      return line('hand-over-line', handOverCard(message, look, link));
  }
}
