/** A ticket as plain text for a terminal: every field, nothing cut, 80 columns. */
import { FIELD_TABLE, FIELDS } from '#engine/fields.ts';
import type { TicketRow } from '#store/store.ts';
import { foldLife, priorityNow } from './life.ts';
import { COLUMNS, printable, widthOf, wrapped } from './plain.ts';
import type { FieldValue, LifeEntry, NotAsked, PlannedCheck, Ticket } from './schema.ts';
import { reference } from './schema.ts';
import { statusInWords } from './words.ts';

export function ticketText(ticket: Ticket, life: readonly LifeEntry[]): string {
  const sections: [string, string[]][] = [
    ['Now', nowLines(ticket, life)],
    ['Reported', reportLines(ticket)],
    ['What is known', fieldLines(ticket)],
    ['Suspected', suspectLines(ticket)],
    ['Bench plan', planLines(ticket)],
    ['Worked out', workedLines(ticket)],
    ['Done so far', triedLines(ticket)],
    ['Cautions given', ticket.cautions.flatMap(({ text }) => wrapped('- ', unmarked(text)))],
    ['Asked and answered', answerLines(ticket)],
    ['Findings', findingLines(ticket)],
    ['Life', life.flatMap(lifeLines)],
  ];
  const head = `${ticket.reference}  ${printable(ticket.title)}`;
  const body = sections
    .filter(([, lines]) => lines.length > 0)
    .map(([heading, lines]) => [`\n${heading.toUpperCase()}`, ...lines].join('\n'));
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
    row.site === null ? null : `at ${oneLine(row.site)}`,
    holder === null ? null : `with ${oneLine(holder)}`,
    row.fault === null ? null : `was ${oneLine(row.fault)}`,
  ];
  return parts.filter(part => part !== null).join('  ');
}

const workedLines = ({ worked }: Ticket): string[] =>
  worked.flatMap(({ working, verdict, says }) => [
    ...row(working, verdict.replaceAll('-', ' ')),
    ...says.flatMap(line => wrapped('  ', line)),
  ]);

/** A flow's text without its marks for bold and code. */
const unmarked = (text: string): string => text.replace(/\*\*|`/g, '');

const oneLine = (text: string): string => printable(text).replaceAll('\n', ' ');

const timeOf = (at: number): string => `${new Date(at).toISOString().slice(0, 16).replace('T', ' ')} UTC`;

/** A label and its value; the label's column is as wide as the longest label that still leaves room. */
const LABEL = 22;
const row = (label: string, value: string): string[] =>
  label.length < LABEL
    ? wrapped(label.padEnd(LABEL), value)
    : [`${label}:`, ...wrapped(' '.repeat(LABEL), value)];

function nowLines(ticket: Ticket, entries: readonly LifeEntry[]): string[] {
  const life = foldLife(entries);
  const set = life.setPriority;
  const { handedOverAt } = ticket;
  return [
    ...row(
      'Priority',
      `${priorityNow(life, ticket.priority)} (impact: ${ticket.impact}, urgency: ${ticket.urgency})`,
    ),
    ...row('Why', ticket.why),
    ...(set ? row('Priority set by hand', `${set.priority} by ${set.by}. ${set.reason}`) : []),
    ...row('Status', `${life.status}: ${statusInWords(life)}`),
    ...(life.waitingUntil === null ? [] : row('Waits until', timeOf(life.waitingUntil))),
    ...(life.mergedInto === null ? [] : row('Merged into', reference(life.mergedInto))),
    ...(life.confirmedFault === null ? [] : row('Confirmed fault', life.confirmedFault)),
    ...row('Signs', ticket.signs.join(', ') || 'none'),
    ...row(
      'Power until then',
      ticket.keep === null ? 'no matter' : `keep it ${ticket.keep.replaceAll('-', ' ')}`,
    ),
    ...row('Is it hardware?', ticket.isHardware),
    ...(ticket.outage === null ? [] : row('Part of outage', ticket.outage)),
    ...row('Opened', timeOf(ticket.openedAt)),
    ...row('Handed over', handedOverAt === null ? 'questions are still being asked' : timeOf(handedOverAt)),
    ...row('Last change', timeOf(ticket.updatedAt)),
    ...row('Questions ended', endOf(ticket)),
  ];
}

function endOf({ endedAs, endedBecause, endedWith }: Ticket): string {
  if (endedAs === null) return 'not yet';
  const how = `${endedAs}${endedBecause === null ? '' : ` (${endedBecause.replaceAll('-', ' ')})`}`;
  return endedWith === null ? how : `${how}: ${endedWith}`;
}

function reportLines(ticket: Ticket): string[] {
  const { name, id, mail, channel } = ticket.person;
  return [
    ...row(
      'Person',
      [name === id ? null : name, mail, `${id} on ${channel}`].filter(each => each !== null).join(', '),
    ),
    ...row('Symptom', ticket.symptom ?? 'not told yet'),
    ...row('In their words', ticket.opening),
    ...(ticket.screen === null
      ? []
      : row('On the screen', `${ticket.screen.verbatim} (${ticket.screen.id})`)),
    ...ticket.attachments.flatMap(({ name: file, id: key, type, bytes }) =>
      row('Attachment', `${file}, ${key}, ${type}, ${bytes} bytes`),
    ),
    ...row('Flow', ticket.flow === null ? 'none' : `${ticket.flow.symptom} ${ticket.flow.hash}`),
  ];
}

function fieldLines({ fields }: Ticket): string[] {
  const needless = FIELDS.filter(field => fields[field].state === 'not-needed');
  const lines = FIELDS.filter(field => !needless.includes(field)).flatMap(field =>
    row(FIELD_TABLE[field].label, fieldWords(fields[field])),
  );
  return needless.length === 0
    ? lines
    : [...lines, ...row('Not needed here', needless.map(field => FIELD_TABLE[field].label).join('; '))];
}

const NOT_ASKED_WORDS: Record<NotAsked, string> = {
  danger: 'somebody may be in danger',
  attack: 'it may be an attack',
  'asked-for-a-person': 'they asked for a person',
  left: 'they left',
  stopped: 'they stopped',
  withdrawn: 'the questions were broken off',
  sign: 'the device must not wait',
};

function fieldWords(field: FieldValue): string {
  switch (field.state) {
    case 'known':
      return field.words === '' || sameWords(field.words, field.value)
        ? field.value
        : `${field.value} ("${field.words}")`;
    case 'unknown':
      return 'not known to the person';
    case 'not-asked':
      return `not asked: ${NOT_ASKED_WORDS[field.why]}`;
    case 'not-needed':
      return 'not needed';
  }
}

const sameWords = (one: string, other: string) => one.trim().toLowerCase() === other.trim().toLowerCase();

const suspectLines = ({ suspects }: Ticket): string[] =>
  suspects.flatMap(({ fault, name, share, hardware, for: speaksFor, against }) => [
    ...wrapped(
      `${`${Math.round(share * 100)}%`.padStart(4)}  `,
      `${name} (${fault}${hardware ? ', hardware' : ''})`,
    ),
    ...speaksFor.flatMap(words => wrapped('      for: ', unmarked(words))),
    ...against.flatMap(words => wrapped('      against: ', unmarked(words))),
  ]);

function planLines({ plan, parts }: Ticket): string[] {
  const minutes = plan.expectedMinutes;
  return [
    ...plan.checks.flatMap((check, index) => checkLines(`${String(index + 1).padStart(2)}. `, check)),
    ...(minutes === null ? [] : wrapped('', `On average ${Math.round(minutes)} minutes until it is found.`)),
    ...(plan.held.length === 0 ? [] : wrapped('', `Kept back. ${plan.heldBecause ?? ''}`)),
    ...plan.held.flatMap(check => checkLines('  - ', check)),
    ...(parts.length === 0 ? [] : row('Parts at hand', parts.join('; '))),
  ];
}

function checkLines(lead: string, { check, minutes, open, effect, looksFor }: PlannedCheck): string[] {
  const facts = [
    `${minutes} min`,
    open ? 'case open' : null,
    effect === 'none' ? null : `on the drive: ${effect}`,
    looksFor.length === 0 ? null : `for: ${looksFor.map(({ fault }) => fault).join(', ')}`,
  ];
  return wrapped(lead, `${check} [${facts.filter(fact => fact !== null).join('; ')}]`);
}

const triedLines = ({ tried }: Ticket): string[] =>
  tried.flatMap(({ text, effect, shown, result }) =>
    wrapped(
      '- ',
      `${unmarked(text)} -> ${shown || result}${effect === 'none' ? '' : ` [on the drive: ${effect}]`}`,
    ),
  );

const answerLines = ({ answers }: Ticket): string[] =>
  answers.flatMap(({ question, answer, words, at, withdrawn }) => [
    ...wrapped('- ', `${unmarked(question)} (${timeOf(at)})`),
    ...wrapped(
      withdrawn ? '    taken back: ' : '    ',
      words === '' || sameWords(words, answer) ? answer : `${answer} ("${words}")`,
    ),
  ]);

const findingLines = ({ findings }: Ticket): string[] =>
  Object.keys(findings).length === 0
    ? []
    : wrapped(
        '',
        Object.entries(findings)
          .map(([finding, value]) => `${finding}: ${value}`)
          .join('; '),
      );

function lifeLines(entry: LifeEntry): string[] {
  return wrapped(`${timeOf(entry.at)}  `, `${entry.by}: ${lifeWords(entry)}`);
}

function lifeWords(entry: LifeEntry): string {
  switch (entry.kind) {
    case 'opened':
      return 'opened it';
    case 'taken':
      return 'took it';
    case 'handed':
      return `handed it to ${entry.to}`;
    case 'asked':
      return `asked the person: ${entry.text}`;
    case 'answered':
      return `answered: ${entry.text}`;
    case 'note':
      return `noted: ${entry.text}`;
    case 'priority':
      return `set the priority to ${entry.priority}${entry.reason === '' ? '' : `: ${entry.reason}`}`;
    case 'merged':
      return `merged it into ${reference(entry.into)}`;
    case 'waiting':
      return `lets it wait until ${timeOf(entry.until)}${entry.reason === '' ? '' : `: ${entry.reason}`}`;
    case 'closed':
      return `closed it: ${[entry.fault, entry.words].filter(Boolean).join('. ')}`;
    case 'reopened':
      return `opened it again: ${entry.reason}`;
    case 'changed':
      return 'went on; what is above has changed';
  }
}
