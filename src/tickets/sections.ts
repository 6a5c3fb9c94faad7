/** A ticket as headings and lines: every field, nothing cut. Each place draws them as it draws text. */
import { FIELD_TABLE, FIELDS } from '#engine/fields.ts';
import { foldLife, priorityNow } from './life.ts';
import type { FieldValue, LifeEntry, NotAsked, PlannedCheck, Ticket } from './schema.ts';
import { reference } from './schema.ts';
import { statusInWords } from './words.ts';

/** A value with its label, or a line of a list with what leads it in, such as "- ". */
export type Line = { label: string; text: string } | { lead: string; text: string };
export interface Section {
  heading: string;
  lines: Line[];
}

/** Sections with nothing in them are left out. */
export function sectionsOf(ticket: Ticket, life: readonly LifeEntry[]): Section[] {
  const sections: [string, Line[]][] = [
    ['Now', nowLines(ticket, life)],
    ['Reported', reportLines(ticket)],
    ['What is known', fieldLines(ticket)],
    ['Suspected', suspectLines(ticket)],
    ['Bench plan', planLines(ticket)],
    ['Worked out', workedLines(ticket)],
    ['Done so far', triedLines(ticket)],
    ['Cautions given', ticket.cautions.flatMap(({ text }) => item('- ', unmarked(text)))],
    ['Asked and answered', answerLines(ticket)],
    ['Findings', findingLines(ticket)],
    ['Life', life.flatMap(lifeLines)],
  ];
  return sections.flatMap(([heading, lines]) => (lines.length === 0 ? [] : [{ heading, lines }]));
}

const row = (label: string, text: string): Line[] => [{ label, text }];
const item = (lead: string, text: string): Line[] => [{ lead, text }];

const workedLines = ({ worked }: Ticket): Line[] =>
  worked.flatMap(({ working, verdict, says }) => [
    ...row(working, verdict.replaceAll('-', ' ')),
    ...says.flatMap(line => item('  ', line)),
  ]);

/** A flow's text without its marks for bold, slanted and code. */
export const unmarked = (text: string): string => text.replace(/\*+|`/g, '');

export const timeOf = (at: number): string =>
  `${new Date(at).toISOString().slice(0, 16).replace('T', ' ')} UTC`;

function nowLines(ticket: Ticket, entries: readonly LifeEntry[]): Line[] {
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

function reportLines(ticket: Ticket): Line[] {
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

function fieldLines({ fields }: Ticket): Line[] {
  const needless = FIELDS.filter(field => fields[field].state === 'not-needed');
  const lines = told(fields).flatMap(([labels, words]) => row(labels.join('; '), words));
  return needless.length === 0
    ? lines
    : [...lines, ...row('Not needed here', needless.map(field => FIELD_TABLE[field].label).join('; '))];
}

/** One story that fills several fields is told once, under all of their labels. */
function told(fields: Ticket['fields']): [labels: string[], words: string][] {
  const all: [string[], string][] = [];
  for (const field of FIELDS) {
    if (fields[field].state === 'not-needed') continue;
    const words = fieldWords(fields[field]);
    const same = all.find(([, other]) => other === words && fields[field].state === 'known');
    if (same === undefined) all.push([[FIELD_TABLE[field].label], words]);
    else same[0].push(FIELD_TABLE[field].label);
  }
  return all;
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

export function fieldWords(field: FieldValue): string {
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

/** Less than this of the whole is not worth a line of its own. */
const FAINT = 0.05;
/** So many are shown however faint they are. */
const LIKELIEST = 3;

const likely = ({ suspects }: Ticket) =>
  suspects.filter(({ share }, index) => share >= FAINT || index < LIKELIEST);

function suspectLines(ticket: Ticket): Line[] {
  const shown = likely(ticket);
  const faint = ticket.suspects.slice(shown.length).map(({ name }) => name);
  return [
    ...shown.flatMap(suspectLine),
    ...(faint.length === 0 ? [] : item('      ', `Under ${FAINT * 100}% each: ${faint.join('; ')}`)),
  ];
}

const suspectLine = ({
  fault,
  name,
  share,
  hardware,
  for: speaksFor,
  against,
}: Ticket['suspects'][number]) => [
  ...item(
    `${`${Math.round(share * 100)}%`.padStart(4)}  `,
    `${name} (${fault}${hardware ? ', hardware' : ''})`,
  ),
  ...speaksFor.flatMap(words => item('      for: ', unmarked(words))),
  ...against.flatMap(words => item('      against: ', unmarked(words))),
];

function planLines(ticket: Ticket): Line[] {
  const { plan, parts } = ticket;
  const minutes = plan.expectedMinutes;
  const names = likely(ticket).map(({ fault }) => fault);
  // Checks in the order worked out, up to the last that looks for a likely fault; what comes behind is said in one line.
  const last = plan.checks.findLastIndex(
    ({ looksFor }) => looksFor.length === 0 || looksFor.some(({ fault }) => names.includes(fault)),
  );
  const [first, then] = [plan.checks.slice(0, last + 1), plan.checks.slice(last + 1)];
  return [
    ...first.flatMap((check, index) => checkLines(`${String(index + 1).padStart(2)}. `, check)),
    ...(then.length === 0
      ? []
      : item('    ', `Not found yet? Then: ${then.map(({ check }) => check).join(' ')}`)),
    ...(minutes === null ? [] : item('', `On average ${Math.round(minutes)} minutes until it is found.`)),
    ...(plan.held.length === 0 ? [] : item('', `Kept back. ${plan.heldBecause ?? ''}`)),
    ...plan.held.flatMap(check => checkLines('  - ', check)),
    ...(parts.length === 0 ? [] : row('Parts at hand', parts.join('; '))),
  ];
}

function checkLines(lead: string, { check, minutes, open, effect, looksFor }: PlannedCheck): Line[] {
  const facts = [
    `${minutes} min`,
    open ? 'case open' : null,
    effect === 'none' ? null : `on the drive: ${effect}`,
    looksFor.length === 0 ? null : `for: ${looksFor.map(({ fault }) => fault).join(', ')}`,
  ];
  return item(lead, `${check} [${facts.filter(fact => fact !== null).join('; ')}]`);
}

const triedLines = ({ tried }: Ticket): Line[] =>
  tried.flatMap(({ text, effect, shown, result }) =>
    item(
      '- ',
      `${unmarked(text)} -> ${shown || result}${effect === 'none' ? '' : ` [on the drive: ${effect}]`}`,
    ),
  );

const answerLines = ({ answers }: Ticket): Line[] =>
  answers.flatMap(({ question, answer, words, at, withdrawn }) => [
    ...item('- ', `${unmarked(question)} (${timeOf(at)})`),
    ...item(
      withdrawn ? '    taken back: ' : '    ',
      words === '' || sameWords(words, answer) ? answer : `${answer} ("${words}")`,
    ),
  ]);

const findingLines = ({ findings }: Ticket): Line[] =>
  Object.keys(findings).length === 0
    ? []
    : item(
        '',
        Object.entries(findings)
          .map(([finding, value]) => `${finding}: ${value}`)
          .join('; '),
      );

function lifeLines(entry: LifeEntry): Line[] {
  return item(`${timeOf(entry.at)}  `, `${entry.by}: ${lifeWords(entry)}`);
}

export function lifeWords(entry: LifeEntry): string {
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
