/** What one turn says as one message of Teams: plain words where nothing is asked, else a card. Pure. */
import { isQuestion, type Message, type Question } from '#engine/messages.ts';
import { plain, unmarked } from '../plain.ts';
import type { Outgoing } from './adapter.ts';
import { CARD } from './answers.ts';
import { handOverElement } from './hand-over.ts';
import type { Look } from './look.ts';
import { markdown } from './markdown.ts';
import { alwaysActions, answerElements, heading, questionElements, small } from './question.ts';
import { type Element, rich, runs, visible } from './rich.ts';

/** The question is over: `chosen` is what was answered, null when it passed without. */
export interface Over {
  question: number;
  chosen: string | null;
}

/** Characters as UTF-16, which is how Teams counts, with room to spare: it refuses from some 28 KB on in some places. */
export const LARGEST = 25 * 1024;
/** Of an answer shown on its card. */
const CHOSEN = 300;

export function drawn(messages: Message[], look: Look, over: Over | null = null): Outgoing {
  const card = messages.some(
    ({ kind }) => kind === 'ask' || kind === 'try' || kind === 'hand-over' || kind === 'caution',
  );
  if (!card && look.owner === null) {
    const text = messages.map(each => markdown('text' in each ? each.text : plain(each))).join('\n\n');
    return {
      type: 'message',
      textFormat: 'markdown',
      text: shortened(text, LARGEST / 4),
      summary: oneLine(messages),
    };
  }
  return message(cardOf(messages, look, over), oneLine(messages));
}

export const message = (card: unknown, summary: string): Outgoing => ({
  type: 'message',
  ...(summary === '' ? {} : { summary }),
  attachments: [{ contentType: CARD, content: card }],
});

export function cardOf(messages: Message[], look: Look, over: Over | null = null): Element {
  const question = messages.findLast(isQuestion);
  const open = question !== undefined && over?.question !== question.number ? question : null;
  const card = {
    type: 'AdaptiveCard',
    $schema: 'http://adaptivecards.io/schemas/adaptive-card.json',
    version: '1.5',
    fallbackText: shortened(visible(unmarked(messages.map(plain).join('\n'))), 1500),
    body: [
      ...(look.name === null
        ? []
        : [{ type: 'RichTextBlock', inlines: runs(look.name, { weight: 'Bolder' }) }]),
      ...messages.flatMap(each => elementsOf(each, look, each === open)),
      ...(open === null ? [] : answerElements(open, look)),
      ...(question !== undefined && open === null ? overElements(question, over!, look) : []),
      ...(open === null || look.owner === null ? [] : [small(look.words.openHere)]),
    ],
    ...(open === null ? {} : { actions: alwaysActions(open, look) }),
  };
  return fitting(card);
}

function elementsOf(each: Message, look: Look, open: boolean): Element[] {
  switch (each.kind) {
    case 'say':
    case 'outage-notice':
    case 'ending':
      return rich(each.text);
    case 'caution':
      return [
        {
          type: 'Container',
          style: 'warning',
          items: [heading(`⚠ ${look.words.careful}`), ...rich(each.text)],
        },
      ];
    case 'ask':
    case 'try':
      return questionElements(each, look, open);
    case 'hand-over':
      return [handOverElement(each, look)];
  }
}

function overElements(question: Question, { chosen }: Over, look: Look): Element[] {
  const typed = question.kind === 'ask' && (question.form === 'text' || question.form === 'number');
  if (chosen !== null) return [answered(chosen, typed, look)];
  return question.answers.length === 0 ? [] : [small(look.words.passed)];
}

/** What takes the place of the answers. Words typed into a card among others stay out of what the others see. */
function answered(chosen: string, typed: boolean, { words, owner }: Look): Element {
  const shown = typed && owner !== null ? words.privately : chosen.replace(/\s+/g, ' ').trim();
  return {
    type: 'Container',
    style: 'emphasis',
    items: [
      {
        type: 'RichTextBlock',
        inlines: [
          { type: 'TextRun', text: `✓ ${words.answered}: `, isSubtle: true },
          { type: 'TextRun', text: visible(shortened(shown, CHOSEN)), weight: 'Bolder' },
        ],
      },
    ],
  };
}

/** What a notification shows. */
function oneLine(messages: Message[]): string {
  const question = messages.findLast(isQuestion);
  const first = question === undefined ? messages[0] : question;
  const text = first === undefined ? '' : first.kind === 'try' ? first.works : first.text;
  return shortened(visible(unmarked(text)).replace(/\s+/g, ' ').trim(), 200);
}

const shortened = (text: string, most: number): string =>
  text.length > most ? `${text.slice(0, most - 1).toWellFormed()}…` : text;

/** Bytes of the activity, as Teams counts. */
export const sizeOf = (value: unknown): number => JSON.stringify(value).length * 2;

/** Texts are cut until the card fits: the whole is on the ticket and in the chat's other messages. */
function fitting(card: Element): Element {
  let fits = card;
  for (const most of [4000, 2000, 1000, 500, 250]) {
    if (sizeOf(fits) < LARGEST - 2048) return fits;
    fits = cut(card, most) as Element;
  }
  return fits;
}

function cut(value: unknown, most: number): unknown {
  if (Array.isArray(value)) return value.map(each => cut(each, most));
  if (typeof value !== 'object' || value === null) return value;
  return Object.fromEntries(
    Object.entries(value).map(([name, inner]) => [
      name,
      typeof inner === 'string' && (name === 'text' || name === 'fallbackText')
        ? shortened(inner, most)
        : cut(inner, most),
    ]),
  );
}
