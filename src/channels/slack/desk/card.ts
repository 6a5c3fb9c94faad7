/** A ticket's message in the desk's channel, and the details below it. Pure. */
import type { ActionsBlock, KnownBlock } from '@slack/types';
import type { TicketRow } from '#store/store.ts';
import { type CardAct, type CardLine, concerned, newsOf, type TicketCard } from '#tickets/card.ts';
import { ACT_LABELS } from '#tickets/forms.ts';
import type { LifeEntry } from '#tickets/schema.ts';
import { type Section, sectionsOf } from '#tickets/sections.ts';
import { button, header, named, option, overflow, small, smallSaid } from '../blocks.ts';
import { dateOf } from '../home.ts';
import { cut, escaped, literal, marked } from '../text.ts';
import { lineBlocks, literally } from './lines.ts';

export interface Drawing {
  text: string;
  blocks: KnownBlock[];
}

/** Characters of one text on the card; all of it is in the details. */
const TEXT = 400;
/** Characters of the text that notifications and screen readers get. */
const SPOKEN = 3500;
/** What Slack shows side by side; the rest of the card is under each other. */
const SHORT: readonly string[] = ['Person', 'Where', 'Call back', 'Answer due', 'Part of outage'];

/** `key` is different for every drawing. `doubt`: another message of this ticket may be there. */
export function cardMessage(card: TicketCard, row: TicketRow, key: string, doubt: boolean): Drawing {
  const { priority, shape, reference, title, alarms, lines, status, until } = card;
  const head = `${shape} ${priority.toUpperCase()} · ${reference} · ${title}`;
  const long = lines.filter(({ label }) => !SHORT.includes(label));
  const short = lines.filter(({ label }) => SHORT.includes(label));
  const blocks: KnownBlock[] = [
    header(head),
    ...alarms.map(alarm => small(`⚠️ **${alarm}**`)),
    {
      type: 'context',
      elements: [
        marked(
          `*${literally(status, 1800)}*${until === null ? '' : ` until ${dateOf(until)}`} · opened ${dateOf(row.openedAt)}`,
        ),
      ],
    },
    ...(card.over ? [] : long.flatMap(lineOf)),
    ...(card.over || short.length === 0 ? [] : [{ type: 'section' as const, fields: short.map(fieldOf) }]),
    ...(doubt
      ? [smallSaid('This ticket may be here twice: it was not clear whether it had been shown before.')]
      : []),
    actionsOf(card),
  ];
  return { text: textOf(card, head), blocks: named(blocks, key) };
}

const lineOf = ({ label, texts }: CardLine): KnownBlock[] =>
  lineBlocks(
    texts.length === 1
      ? [{ head: `*${label}:* `, text: cut(texts[0]!, TEXT) }]
      : [{ head: `*${label}*`, text: '' }, ...texts.map(text => ({ head: '• ', text: cut(text, TEXT) }))],
  );

const fieldOf = ({ label, texts }: CardLine) => marked(`*${label}*\n${literally(texts.join(', '), TEXT)}`);

/** The others are in the menu. */
const IN_SIGHT: readonly CardAct[] = ['take', 'ask', 'close', 'reopen'];

function actionsOf({ number, acts }: TicketCard): ActionsBlock {
  const value = String(number);
  const first = acts.filter(act => IN_SIGHT.includes(act));
  const rest = acts.filter(act => !IN_SIGHT.includes(act));
  return {
    type: 'actions',
    elements: [
      ...first.map(act =>
        button(
          `desk:${act}`,
          ACT_LABELS[act],
          value,
          act === 'take' || act === 'reopen' ? 'primary' : undefined,
        ),
      ),
      button('work:bench', 'Bench', value),
      button('desk:details', 'All details', value),
      overflow(
        'desk:more',
        rest.map(act => option(ACT_LABELS[act], `${act} ${value}`)),
      ),
    ],
  };
}

function textOf({ alarms, lines, status, priority, reference, title }: TicketCard, head: string): string {
  return spoken([
    head,
    `Priority ${priority}, ticket ${reference}: ${title}. ${status}.`,
    ...alarms,
    ...lines.map(({ label, texts }) => `${label}: ${texts.join('; ')}`),
  ]);
}

/** Nobody hears blocks read aloud, so all that matters is in the text. */
const spoken = (lines: string[]): string => literally(lines.join('\n'), SPOKEN);

/** What is known of the ticket, in the thread of its message and in a modal. What happens to it is told as it happens. */
const IN_THREAD: readonly string[] = ['Now', 'Life'];
/** Blocks and characters of one message that Slack takes for sure. */
const MOST_BLOCKS = 45;
const MOST_CHARACTERS = 11_000;

export function detailsMessage(row: TicketRow, key: string): Drawing {
  const sections = sectionsOf(row.ticket, row.life).filter(({ heading }) => !IN_THREAD.includes(heading));
  const all = sections.flatMap(sectionBlocks);
  let size = 0;
  const fits = all.filter((block, place) => {
    size += JSON.stringify(block).length;
    return place < MOST_BLOCKS && size <= MOST_CHARACTERS;
  });
  const rest = fits.length < all.length ? [small('The rest is under **All details**.')] : [];
  return {
    text: spoken([`Details of ${row.ticket.reference}`, ...sections.flatMap(linesOf)]),
    blocks: named([...fits, ...rest], key),
  };
}

/** Everything, as blocks of a modal. */
const MOST_IN_MODAL = 99;
export const detailBlocks = (row: TicketRow): KnownBlock[] =>
  sectionsOf(row.ticket, row.life).flatMap(sectionBlocks).slice(0, MOST_IN_MODAL);

const linesOf = ({ heading, lines }: Section): string[] => [
  heading,
  ...lines.map(line => ('label' in line ? `${line.label}: ${line.text}` : `${line.lead}${line.text}`)),
];

const sectionBlocks = ({ heading, lines }: Section): KnownBlock[] =>
  lineBlocks([
    { head: `*${heading.toUpperCase()}*`, text: '' },
    ...lines.map(line =>
      'label' in line
        ? { head: `*${escaped(line.label)}:* `, text: line.text }
        : { head: leadOf(line.lead), text: line.text },
    ),
  ]);

/** Indents survive in Slack only as characters that are no spaces. */
const leadOf = (lead: string): string =>
  `${'\u2003'.repeat(Math.floor(lead.search(/\S|$/) / 3))}${literal(lead.trimStart().replace(/^- /, '• '))}`;

/** What happened, below the card. `userOf`: whoever it is for hears of it, where their name is known. */
export function newsMessage(
  fresh: readonly LifeEntry[],
  life: readonly LifeEntry[],
  userOf: (name: string) => string | null,
): Drawing {
  const told = fresh.map(entry => ({ head: '', text: newsOf(entry) }));
  const users = fresh.flatMap(entry => {
    const name = concerned(entry, life);
    return (name === null ? null : userOf(name)) ?? [];
  });
  const called = [...new Set(users)].map(user => `<@${user}>`).join(' ');
  const words = literally(told.map(({ text }) => text).join('\n'), SPOKEN);
  return {
    text: `${called} ${words}`.trim(),
    blocks: lineBlocks([...(called === '' ? [] : [{ head: called, text: '' }]), ...told]).slice(
      0,
      MOST_BLOCKS,
    ),
  };
}
