/** The hand-over on a card: the number, what happens next, what to do and not do. Pure. */
import type { HandOver } from '#engine/messages.ts';
import type { Look } from './look.ts';
import { heading, small } from './question.ts';
import { type Element, rich, runs } from './rich.ts';
import { when } from './words.ts';

export function handOverElement(card: HandOver, look: Look): Element {
  const { words, locale, zone, now } = look;
  return {
    type: 'Container',
    style: 'emphasis',
    items: [
      small(words.ticket),
      {
        type: 'RichTextBlock',
        spacing: 'None',
        inlines: runs(card.ticket, { weight: 'Bolder', size: 'ExtraLarge' }),
      },
      { type: 'RichTextBlock', spacing: 'Small', inlines: runs(card.priority, { weight: 'Bolder' }) },
      small(`${words.since} ${when(now, locale, zone)}`),
      ...rich(card.text),
      heading(words.next),
      ...rich(card.next),
      ...list(words.do, '✓', card.do),
      ...list(words.dont, '✕', card.dont),
    ],
  };
}

/** Marks beside words that say the same. */
function list(title: string, mark: string, lines: string[]): Element[] {
  if (lines.length === 0) return [];
  return [
    heading(title),
    ...lines.map(
      (line): Element => ({
        type: 'ColumnSet',
        spacing: 'Small',
        columns: [
          { type: 'Column', width: 'auto', items: [{ type: 'TextBlock', text: mark, weight: 'Bolder' }] },
          { type: 'Column', width: 'stretch', spacing: 'Small', items: rich(line) },
        ],
      }),
    ),
  ];
}
