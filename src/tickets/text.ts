/** A ticket as plain text for a terminal: every field, nothing cut, 80 columns. */
import type { TicketRow } from '#store/store.ts';
import { foldLife } from './life.ts';
import { COLUMNS, printable, widthOf, wrapped } from './plain.ts';
import type { LifeEntry, Ticket } from './schema.ts';
import { reference } from './schema.ts';
import { type Line, sectionsOf, timeOf } from './sections.ts';

export function ticketText(ticket: Ticket, life: readonly LifeEntry[]): string {
  const head = `${ticket.reference}  ${printable(ticket.title)}`;
  const body = sectionsOf(ticket, life).map(({ heading, lines }) =>
    [`\n${heading.toUpperCase()}`, ...lines.flatMap(drawn)].join('\n'),
  );
  return `${wrapped('', head).join('\n')}\n${'='.repeat(Math.min(COLUMNS, widthOf(head)))}\n${body.join('\n')}\n`;
}

/** One line of a list: number, priority, status, what, where, whose, since when. */
export function ticketLine(row: TicketRow): string {
  const holder = row.takenBy ?? foldLife(row.life).handedTo;
  const parts = [
    reference(row.number).padEnd(7),
    row.priority.padEnd(8),
    row.status.padEnd(7),
    timeOf(row.openedAt),
    oneLine(row.ticket.title),
    oneLine(row.ticket.person.name ?? row.ticket.person.id),
    row.site === null ? null : `at ${oneLine(row.site)}`,
    holder === null ? null : `with ${oneLine(holder)}`,
    row.fault === null ? `“${short(oneLine(row.ticket.opening))}”` : `was ${oneLine(row.fault)}`,
  ];
  return parts.filter(part => part !== null).join('  ');
}

/** So many characters of the person's first words are enough to tell one ticket from the next. */
const WORDS = 60;
const short = (text: string): string =>
  [...text].length > WORDS ? `${[...text].slice(0, WORDS - 1).join('')}…` : text;

const oneLine = (text: string): string => printable(text).replaceAll('\n', ' ');

/** The label's column is as wide as the longest label that still leaves room. */
const LABEL = 22;
function drawn(line: Line): string[] {
  if ('lead' in line) return wrapped(line.lead, line.text);
  const { label, text } = line;
  return label.length < LABEL
    ? wrapped(label.padEnd(LABEL), text)
    : [`${label}:`, ...wrapped(' '.repeat(LABEL), text)];
}
