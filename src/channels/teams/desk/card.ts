/** A ticket's card in the desk's place. Pure. */
import type { TicketRow } from '#store/store.ts';
import type { CardAct, CardLine, TicketCard } from '#tickets/card.ts';
import { ACT_LABELS } from '#tickets/forms.ts';
import { small } from '../question.ts';
import type { Element } from '../rich.ts';
import { acts, alarm, buttons, cardWith, clock, cut, fitted, line, opens, run } from './draw.ts';

/** Characters of one text, so generous as all of them fit; all of it is in the details. */
const TEXTS = [400, 200, 100, 50] as const;
const STATUS = 600;
const TITLE = 200;
/** Facts that stand in one line of the card, behind all that has to be read. */
const SHORT: readonly string[] = ['Person', 'Where', 'Call back', 'Answer due', 'Part of outage'];
/** Teams' own look of what is urgent; shape and word say the same. */
const STYLES = { critical: 'attention', high: 'warning', medium: 'emphasis', low: 'emphasis' } as const;

/** `doubt`: another card of this ticket may be there. */
export const ticketCard = (card: TicketCard, row: TicketRow, doubt: boolean): Element =>
  fitted(TEXTS, most => drawnCard(card, row, doubt, most));

export const headOf = ({ priority, shape, reference, title }: TicketCard): string =>
  `${shape} ${priority.toUpperCase()} · ${reference} · ${cut(title, TITLE)}`;

function drawnCard(card: TicketCard, row: TicketRow, doubt: boolean, most: number): Element {
  const { priority, shape, reference, title, alarms, status, until, over } = card;
  const told = over ? [] : card.lines;
  const long = told.filter(({ label }) => !SHORT.includes(label));
  const short = told.filter(({ label }) => SHORT.includes(label));
  const body: Element[] = [
    {
      type: 'Container',
      style: over ? 'emphasis' : STYLES[priority],
      bleed: true,
      items: [
        line([run(`${shape} ${priority.toUpperCase()} · ${reference}`, { weight: 'Bolder' })]),
        line([run(cut(title, TITLE), { weight: 'Bolder', size: 'Medium' })], { spacing: 'Small' }),
      ],
    },
    ...alarms.map(alarm),
    line([run(cut(status, STATUS), { weight: 'Bolder' })]),
    small(`${until === null ? '' : `Until ${clock(until)} · `}Opened ${clock(row.openedAt)}`),
    ...long.flatMap(each => lineOf(each, most)),
    ...short.map((each, at) => shortOf(each, most, at === 0)),
    ...(doubt
      ? [small('This ticket may be here twice: it was not clear whether it had been shown before.')]
      : []),
  ];
  return cardWith([...body, ...actionSets(card, row)], [], spoken(card));
}

/** On one line, however it was written. */
const shortened = (text: string, most: number): Element => run(cut(text.replace(/\s+/g, ' '), most));

function lineOf({ label, texts }: CardLine, most: number): Element[] {
  const head = run(`${label}: `, { weight: 'Bolder' });
  if (texts.length === 1) return [line([head, shortened(texts[0]!, most)])];
  return [
    line([run(label, { weight: 'Bolder' })]),
    ...texts.map(text =>
      line([...(/^\d+\. /.test(text) ? [] : [run('• ')]), shortened(text, most)], { spacing: 'Small' }),
    ),
  ];
}

const shortOf = ({ label, texts }: CardLine, most: number, first: boolean): Element =>
  line(
    [run(`${label}: `, { weight: 'Bolder' }), shortened(texts.join(', '), most)],
    first ? { separator: true } : { spacing: 'Small' },
  );

/** So many side by side that a phone shows their words. */
const ABREAST = 3;

export function actionSets(card: TicketCard, row: TicketRow): Element[] {
  const all = actionsOf(card, row);
  const rows = Array.from({ length: Math.ceil(all.length / ABREAST) }, (_, at) =>
    all.slice(at * ABREAST, (at + 1) * ABREAST),
  );
  return rows.map(buttons);
}

/** The others are behind one button: Teams shows six at most. */
const IN_SIGHT: readonly CardAct[] = ['ask', 'note', 'close', 'reopen'];

export function actionsOf({ number, acts: all }: TicketCard, { life }: TicketRow): Element[] {
  // A press on a later drawing of the same card is another press.
  const about = { n: number, k: life.length };
  const form = (act: CardAct) => opens(ACT_LABELS[act], { v: 'desk:form', a: act, ...about });
  return [
    ...(all.includes('take') ? [acts(ACT_LABELS.take, { v: 'desk:take', ...about })] : []),
    ...all.filter(act => IN_SIGHT.includes(act)).map(form),
    opens('All details', { v: 'desk:details', ...about }),
    moreOf(all).length > 0
      ? opens('More', { v: 'desk:more', ...about })
      : opens('Bench', { v: 'desk:bench', ...about }),
  ];
}

/** What stands behind *More*. */
export const moreOf = (all: readonly CardAct[]): CardAct[] =>
  all.filter(act => act !== 'take' && !IN_SIGHT.includes(act));

/** For clients that draw no cards. */
const spoken = (card: TicketCard): string =>
  [
    headOf(card),
    `${card.status}.`,
    ...card.alarms,
    ...card.lines.map(({ label, texts }) => `${label}: ${texts.join('; ')}`),
  ].join('\n');

/** The card that is no longer the one that shows the ticket, after a doubled sending. */
export const movedCard = (reference: string): Element => {
  const text = `${reference} is shown in another message here.`;
  return cardWith([small(text)], [], text);
};
