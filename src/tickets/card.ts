/** What a desk's message shows of a ticket, whatever the platform: plain text, to be escaped and drawn where it goes. */
import type { Faults, Site } from '#engine/catalogue.ts';
import type { TicketRow } from '#store/store.ts';
import type { DeskAction } from '#talk/inbound.ts';
import { foldLife, type Life } from './life.ts';
import { onlyCopy } from './priority.ts';
import { type LifeEntry, type Priority, reference, type Ticket } from './schema.ts';
import { fieldWords, lifeWords, unmarked } from './sections.ts';
import { statusInWords } from './words.ts';

/** What a technician can do to a ticket from its message. */
export type CardAct = Exclude<DeskAction['do'], 'merge'>;

export interface TicketCard {
  number: number;
  reference: string;
  priority: Priority;
  /** Told apart without colour: a sign of its own shape for each priority, beside the word. */
  shape: string;
  title: string;
  /** What cannot wait, such as a danger; none for most tickets. */
  alarms: string[];
  lines: CardLine[];
  status: string;
  /** Epoch milliseconds until which it waits; each place shows times in its own way. */
  until: number | null;
  /** Who has it, or to whom it was handed. */
  holder: string | null;
  over: boolean;
  /** What makes sense now, in the order in which it is offered. */
  acts: CardAct[];
}

/** Several texts are a list. */
export interface CardLine {
  label: string;
  texts: string[];
}

const SHAPES: Record<Priority, string> = { critical: '◆', high: '▲', medium: '■', low: '●' };

const ALARMS: Partial<Record<Ticket['signs'][number], string>> = {
  danger: 'Somebody may be in danger.',
  attack: 'It may be an attack: tell security, change nothing on the machine.',
  mechanical: 'The drive makes a noise of failing: nothing starts it again.',
};

/** `site` and `faults` as they are today. */
export function cardOf(row: TicketRow, { site, faults }: { site: Site; faults: Faults }): TicketCard {
  const { ticket } = row;
  const life = foldLife(row.life);
  return {
    number: row.number,
    reference: reference(row.number),
    priority: row.priority,
    shape: SHAPES[row.priority],
    title: ticket.title,
    alarms: ticket.signs.flatMap(sign => ALARMS[sign] ?? []),
    lines: linesOf(row, life, site).filter(({ texts }) => texts.length > 0),
    status: statusOf(life, faults),
    until: life.waitingUntil,
    holder: life.takenBy ?? life.handedTo,
    over: isOver(life),
    acts: actsOf(life),
  };
}

const isOver = ({ status }: Life): boolean => status === 'closed' || status === 'merged';

function actsOf(life: Life): CardAct[] {
  if (isOver(life)) return ['reopen', 'note'];
  const free = life.takenBy === null || life.status === 'waiting';
  return [...(free ? (['take'] as const) : []), 'ask', 'note', 'priority', 'hand', 'wait', 'close'];
}

function statusOf(life: Life, faults: Faults): string {
  switch (life.status) {
    case 'open':
      return life.handedTo === null ? 'Nobody has it yet' : `Handed to ${life.handedTo}`;
    case 'taken':
      return `${life.takenBy} has it`;
    case 'waiting':
      if (life.takenBy !== null) return `${life.takenBy} has it, and it waits`;
      return life.handedTo === null ? 'It waits' : `Handed to ${life.handedTo}, and it waits`;
    case 'closed':
      return `Closed. It was: ${causeOf(life, faults)}`;
    case 'merged':
      return `${sentence(statusInWords(life))}: ${reference(life.mergedInto ?? 0)}`;
  }
}

function causeOf({ confirmedFault, closedWith }: Life, faults: Faults): string {
  const name = confirmedFault === null ? null : (faults[confirmedFault]?.name ?? confirmedFault);
  return [name, closedWith].filter(each => each !== null && each !== '').join('. ');
}

const sentence = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

/** Suspects below this share are left to the details. Common practice, no source. */
const WORTH_SHOWING = 0.05;
const MOST_SUSPECTS = 3;
const MOST_CHECKS = 4;

function linesOf({ ticket, priority }: TicketRow, life: Life, site: Site): CardLine[] {
  return [
    {
      label: 'Reported',
      texts: [...(ticket.screen ? [`On the screen: ${ticket.screen.verbatim}`] : []), ticket.opening],
    },
    { label: 'Suspected', texts: suspectTexts(ticket) },
    { label: 'Data at risk', texts: dataTexts(ticket) },
    { label: 'Power', texts: powerTexts(ticket) },
    { label: 'Tried', texts: triedTexts(ticket) },
    { label: 'Bench plan', texts: planTexts(ticket) },
    {
      label: 'Why this priority',
      texts: [life.setPriority === null ? ticket.why : setWords(life.setPriority)],
    },
    { label: 'Person', texts: [personText(ticket)] },
    { label: 'Where', texts: known(ticket, 'place.site', 'place.room') },
    { label: 'Call back', texts: known(ticket, 'contact.way', 'contact.when') },
    { label: 'Part of outage', texts: ticket.outage === null ? [] : [ticket.outage] },
    {
      label: 'Answer due',
      texts: life.status === 'open' && life.handedTo === null ? [site.desk.answers[priority]] : [],
    },
  ];
}

const setWords = ({ by, reason, priority }: NonNullable<Life['setPriority']>): string =>
  `${by} set it to ${priority}${reason === '' ? '' : `: ${reason}`}`;

function suspectTexts({ suspects }: Ticket): string[] {
  if (suspects.every(each => each.for.length + each.against.length === 0))
    return suspects.length === 0 ? [] : [`Nothing points to one fault yet; ${suspects.length} are possible.`];
  const shown = suspects
    .filter(({ share }, place) => place === 0 || share >= WORTH_SHOWING)
    .slice(0, MOST_SUSPECTS);
  return shown.map(({ share, name, hardware, for: speaksFor, against }) => {
    const told = [
      ...speaksFor.slice(0, 2).map(words => `for it: ${unmarked(words)}`),
      ...against.slice(0, 1).map(words => `against: ${unmarked(words)}`),
    ];
    const head = `${Math.round(share * 100)}% ${name}${hardware ? ' (hardware)' : ''}`;
    return told.length === 0 ? `${head}: nothing said for or against it yet` : `${head}; ${told.join('; ')}`;
  });
}

function dataTexts(ticket: Ticket): string[] {
  const { fields } = ticket;
  const only = onlyCopy(ticket.findings) ? ['The only copy may be on this device.'] : [];
  const told = new Map<string, string[]>();
  for (const field of DATA_FIELDS) {
    if (fields[field].state === 'not-needed') continue;
    const words = fieldWords(fields[field]);
    told.set(words, [...(told.get(words) ?? []), DATA_LABELS[field]]);
  }
  return [...only, ...[...told].map(([words, labels]) => `${labels.join(', ')}: ${words}`)];
}
const DATA_FIELDS = ['data.missed', 'data.copy', 'data.deadline', 'encryption.key'] as const;
const DATA_LABELS = {
  'data.missed': 'would be missed',
  'data.copy': 'copy elsewhere',
  'data.deadline': 'needed by',
  'encryption.key': 'recovery key kept',
};

const KEEP_WORDS: Record<NonNullable<Ticket['keep']>, string> = {
  off: 'Keep it OFF: do not switch it on, not even to test it.',
  on: 'Keep it ON: no restart, no shutdown, no sleep.',
  'as-it-is': 'Leave it as it is: switch, restart and unplug nothing.',
};

const powerTexts = ({ keep, fields }: Ticket): string[] => [
  ...(keep === null ? [] : [KEEP_WORDS[keep]]),
  ...(fields['power.now'].state === 'known' ? [`Now: ${fieldWords(fields['power.now'])}`] : []),
];

const triedTexts = (ticket: Ticket): string[] => [
  ...known(ticket, 'history.tried'),
  ...ticket.tried.map(({ text, shown, result }) => `${unmarked(text)} Result: ${shown || result}`),
];

function planTexts({ plan: { checks, expectedMinutes, held, heldBecause } }: Ticket): string[] {
  const shown = checks
    .slice(0, MOST_CHECKS)
    .map(({ check, minutes }, place) => `${place + 1}. ${unmarked(check)} (${minutes} min)`);
  const more = checks.length - shown.length;
  const rest = [
    more > 0 ? `${more} more in the details` : null,
    expectedMinutes === null ? null : `${Math.round(expectedMinutes)} minutes on average until it is found`,
  ].filter(each => each !== null);
  return [
    ...shown,
    ...(rest.length === 0 ? [] : [`${sentence(rest.join('; '))}.`]),
    ...(held.length === 0 ? [] : [`Kept back: ${held.length}. ${heldBecause ?? ''}`.trim()]),
  ];
}

function personText({ person: { name, id, mail } }: Ticket): string {
  return [name ?? id, mail].filter(each => each !== null).join(', ');
}

const known = ({ fields }: Ticket, ...names: (keyof Ticket['fields'])[]): string[] =>
  names.flatMap(name => (fields[name].state === 'known' ? [fieldWords(fields[name])] : []));

/** One thing that happened to a ticket, as a line of news: "Ada answered: blue". */
export const newsOf = (entry: LifeEntry): string => `${entry.by} ${lifeWords(entry)}`;

/** Whom it concerns, by the name they act under: who asked is told the answer, and to whom it was handed, that it was. */
export function concerned(entry: LifeEntry, life: readonly LifeEntry[]): string | null {
  if (entry.kind === 'handed') return entry.to;
  if (entry.kind !== 'answered') return null;
  return life.find(each => each.kind === 'asked' && each.ask === entry.ask)?.by ?? null;
}

/** For closing: the ticket's suspects first, likeliest first; then the faults of its symptom; then all others by name. */
export function causesFor(
  { suspects, symptom }: Ticket,
  faults: Faults,
): { heading: 'Suspected' | 'Also causes this' | 'Others'; faults: { id: string; name: string }[] }[] {
  const suspected = suspects.map(({ fault, name }) => ({ id: fault, name: faults[fault]?.name ?? name }));
  const left = Object.entries(faults)
    .filter(([id]) => !suspected.some(each => each.id === id))
    .map(([id, { name, symptoms }]) => ({ id, name, fits: symptom !== null && symptoms.includes(symptom) }))
    .toSorted((one, other) => (one.name < other.name ? -1 : 1));
  const plain = (fits: boolean) =>
    left.filter(each => each.fits === fits).map(({ id, name }) => ({ id, name }));
  return [
    // A suspect that the catalogue has lost cannot be closed with.
    { heading: 'Suspected' as const, faults: suspected.filter(({ id }) => id in faults) },
    { heading: 'Also causes this' as const, faults: plain(true) },
    { heading: 'Others' as const, faults: plain(false) },
  ].filter(group => group.faults.length > 0);
}
