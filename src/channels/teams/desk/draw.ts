/** Pieces of the desk's cards. What people said goes into runs of text, which nobody's client reads as marks. Pure. */
import { LARGEST, sizeOf } from '../render.ts';
import { type Element, type Style, visible } from '../rich.ts';

/** What a button or form of the desk carries. `v`: what it is. */
export type Data = { v: string } & Record<string, unknown>;

export const run = (text: string, style: Style = {}): Element => ({
  type: 'TextRun',
  text: visible(text),
  ...style,
});

export const line = (inlines: Element[], more: Record<string, unknown> = {}): Element => ({
  type: 'RichTextBlock',
  ...more,
  inlines,
});

/** As somebody wrote it, each of its lines on one of its own. `head` leads in the first. */
export function lines(text: string, head: Element[] = [], more: Record<string, unknown> = {}): Element[] {
  const parts = text.split(/\r?\n/).filter((part, at) => at === 0 || part.trim() !== '');
  return parts.map((part, at) =>
    line(at === 0 ? [...head, run(part)] : [run(part)], at === 0 ? more : { spacing: 'None' }),
  );
}

export const alarm = (text: string): Element => ({
  type: 'Container',
  style: 'attention',
  items: [line([run(`⚠ ${text}`, { weight: 'Bolder' })])],
});

/** Each reader sees it by their own clock. @param at epoch milliseconds */
export function clock(at: number): string {
  const moment = `${new Date(at).toISOString().slice(0, 19)}Z`;
  return `{{DATE(${moment},SHORT)}} {{TIME(${moment})}}`;
}

export const cut = (text: string, most: number): string =>
  text.length <= most ? text : `${text.slice(0, most - 1).toWellFormed()}…`;

/** Opens a dialog. */
export const opens = (title: string, data: Data, more: Record<string, unknown> = {}): Element => ({
  type: 'Action.Submit',
  title,
  ...more,
  data: { ...data, msteams: { type: 'task/fetch' } },
});

/** Within a dialog: what comes next. `inputs`: what was filled in goes with it. */
export const sends = (title: string, data: Data, inputs = true): Element => ({
  type: 'Action.Submit',
  title,
  ...(inputs ? {} : { associatedInputs: 'none' }),
  data,
});

/** Acts at once; a client that does not know how sends the same as a form. */
export const acts = (title: string, data: Data): Element => ({
  type: 'Action.Execute',
  title,
  verb: data.v,
  data,
  fallback: { type: 'Action.Submit', title, data },
});

export const buttons = (actions: Element[]): Element => ({ type: 'ActionSet', spacing: 'Small', actions });

export const cardWith = (body: Element[], actions: Element[], fallbackText: string): Element => ({
  type: 'AdaptiveCard',
  $schema: 'http://adaptivecards.io/schemas/adaptive-card.json',
  version: '1.5',
  fallbackText: visible(cut(fallbackText, 1500)),
  body,
  ...(actions.length === 0 ? {} : { actions }),
});

/** Room for what stands around a card in its message. */
const AROUND = 1024;
export const fits = (card: Element): boolean => sizeOf(card) <= LARGEST - AROUND;

/** The first of what `draw` makes for each of `sizes`, generous ones first, that Teams takes; else the last. */
export function fitted(sizes: readonly number[], draw: (most: number) => Element): Element {
  let card = draw(sizes[0]!);
  for (const most of sizes.slice(1)) {
    if (fits(card)) return card;
    card = draw(most);
  }
  return card;
}

/** Id of an input of ours; nothing that a button carries begins so. */
export const inputId = (id: string): string => `i-${id}`;
/** As it was filled in; empty where nothing was. */
export const filledIn = (data: Record<string, unknown>, id: string): string => {
  const value = data[inputId(id)];
  return typeof value === 'string' ? value : typeof value === 'number' ? String(value) : '';
};
