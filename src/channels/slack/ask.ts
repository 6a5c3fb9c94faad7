/** An open question with its answers, and one that was answered. Pure. */
import type { ActionsBlock, KnownBlock, PlainTextOption } from '@slack/types';
import type { Ask, Question } from '#engine/messages.ts';
import { button, option, overflow, said, sections, smallSaid } from './blocks.ts';
import { pressValue } from './inbound.ts';
import { cut } from './text.ts';
import type { Words } from './words.ts';

/** Buttons stand side by side as long as they are few and short; a phone shows some 30 characters of one. */
const MOST_BUTTONS = 5;
const BUTTON = 40;
/** Radio buttons that Slack takes at most; beyond it a menu. */
const MOST_RADIO = 10;
const MOST_MENU = 100;
const CHOSEN = 300;

export function askBlocks(question: Question, conversation: string, words: Words): KnownBlock[] {
  const [first, ...rest] = textOf(question, words);
  return [
    ...before(question, words),
    { ...first!, accessory: standing(question, words) } as KnownBlock,
    ...rest,
    ...answers(question, conversation, words),
    smallSaid(footer(question, words)),
  ];
}

/** `chosen` null: it passed without an answer. */
export function answeredBlocks(question: Question, chosen: string | null, words: Words): KnownBlock[] {
  const [first, ...rest] = textOf(question, words);
  const change = overflow('say:change', [
    option(words.change, pressValue({ kind: 'always', what: 'back', to: question.number })),
  ]);
  return [
    ...before(question, words),
    (chosen === null ? first! : { ...first!, accessory: change }) as KnownBlock,
    ...rest,
    smallSaid(chosen === null ? words.passed : words.chose(cut(chosen.replace(/\s+/g, ' '), CHOSEN))),
  ];
}

/** A step to try stands above the question whether it worked. */
function before(question: Question, words: Words): KnownBlock[] {
  if (question.kind === 'ask') return [];
  const head = `🔧 **${words.tryThis}** (${words.minutes(question.minutes)})`;
  return [...sections(`${head}\n${question.text}`), { type: 'divider' }];
}

/** A question of the desk holds a colleague's words: nothing in it is markup. */
function textOf(question: Question, words: Words): KnownBlock[] {
  const text = question.kind === 'try' ? question.works : question.text;
  const drawn = question.step === '@desk' ? said(text) : sections(bold(text));
  return drawn.length > 0 ? drawn : said(words.choose);
}

/** A question stands out from what is said around it, unless it has marks or lines of its own. */
const bold = (text: string) => (/[*`[\n]/.test(text) ? text : `**${text}**`);

function standing({ always, help }: Question, words: Words) {
  const explain = help === null ? [] : [option(words.help, pressValue({ kind: 'words', words: '?' }))];
  const options = always.map(what => option(words.always[what], pressValue({ kind: 'always', what })));
  return overflow('say:more', [...explain, ...options].slice(0, 5));
}

function answers(question: Question, conversation: string, words: Words): KnownBlock[] {
  const { number } = question;
  const choices = question.answers.slice(0, MOST_MENU);
  const value = (answer: string) => pressValue({ kind: 'answer', conversation, question: number, answer });
  const skip =
    question.kind === 'ask' && question.optional
      ? [button('say:skip', words.skip, pressValue({ kind: 'words', words: 'skip' }))]
      : [];
  if (choices.length === 0) return skip.length === 0 ? [] : [{ type: 'actions', elements: skip }];
  if (choices.length <= MOST_BUTTONS && choices.every(({ label }) => label.length <= BUTTON)) {
    const buttons = choices.map(({ id, label }, index) => button(`say:answer:${index}`, label, value(id)));
    return [{ type: 'actions', elements: [...buttons, ...skip] }];
  }
  const options = choices.map(({ id, label }) => option(label, value(id)));
  return [{ type: 'actions', elements: [oneOf(options, words), ...skip] }];
}

function oneOf(options: PlainTextOption[], words: Words): ActionsBlock['elements'][number] {
  if (options.length <= MOST_RADIO) return { type: 'radio_buttons', action_id: 'say:one', options };
  const placeholder = { type: 'plain_text' as const, text: words.choose };
  return { type: 'static_select', action_id: 'say:one', options, placeholder };
}

/** How to answer where there is nothing to press, how far it is, and where the words that always work are. */
function footer(question: Question, words: Words): string {
  const far = question.left === null ? [] : [words.far(question.left.shortest, question.left.longest)];
  const how = question.kind === 'ask' && question.answers.length === 0 ? [howTo(question, words)] : [];
  return [...how, ...far, words.more].join(' · ');
}

function howTo({ form, unit, minimum, maximum }: Ask, words: Words): string {
  if (form === 'photo') return words.picture;
  if (form !== 'number') return words.write;
  const range = minimum === null && maximum === null ? '' : `${minimum ?? ''}–${maximum ?? ''}`;
  return words.number(unit, range);
}
