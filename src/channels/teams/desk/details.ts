/** All of a ticket, as pages of a dialog: nothing is cut, whatever Teams takes at once. Pure. */
import type { TicketRow } from '#store/store.ts';
import { reference } from '#tickets/schema.ts';
import { type Line, type Section, sectionsOf } from '#tickets/sections.ts';
import { small } from '../question.ts';
import { LARGEST, sizeOf } from '../render.ts';
import type { Element } from '../rich.ts';
import { cardWith, cut, line, lines, run, sends } from './draw.ts';

/** Bytes of a page, with room for its buttons. */
const PAGE = LARGEST - 5 * 1024;
/** Characters of one element; a longer text goes on in the next. */
const PIECE = 1500;

export function detailsPage(row: TicketRow, wanted: number): Element {
  const pages = pagesOf(sectionsOf(row.ticket, row.life));
  const page = Math.min(Math.max(0, Math.trunc(wanted) || 0), pages.length - 1);
  const turn = (title: string, to: number) => sends(title, { v: 'desk:details', n: row.number, p: to });
  const name = reference(row.number);
  return cardWith(
    [...pages[page]!, ...(pages.length === 1 ? [] : [small(`Page ${page + 1} of ${pages.length}`)])],
    [
      ...(page === 0 ? [] : [turn('Page before', page - 1)]),
      ...(page === pages.length - 1 ? [] : [turn('Next page', page + 1)]),
    ],
    `All details of ${name}`,
  );
}

function pagesOf(sections: Section[]): Element[][] {
  const pages: Element[][] = [[]];
  let size = 0;
  for (const element of sections.flatMap(elementsOf)) {
    const more = sizeOf(element);
    if (size + more > PAGE && pages.at(-1)!.length > 0) {
      pages.push([]);
      size = 0;
    }
    pages.at(-1)!.push(element);
    size += more;
  }
  return pages;
}

const elementsOf = ({ heading, lines: all }: Section): Element[] => [
  line([run(heading, { weight: 'Bolder', size: 'Medium' })], { separator: true }),
  ...all.flatMap(drawn),
];

function drawn(each: Line): Element[] {
  const head = 'label' in each ? run(`${each.label}: `, { weight: 'Bolder' }) : run(leadOf(each.lead));
  const [first = '', ...rest] = parted(each.text).match(new RegExp(`[^]{1,${PIECE}}`, 'gu')) ?? [''];
  return [
    ...lines(first, head.text === '' ? [] : [head], { spacing: 'Small' }),
    ...rest.flatMap(piece => lines(piece, [], { spacing: 'None' })),
  ];
}

/** A checksum may go on in the next line. */
const parted = (text: string): string =>
  text.replace(/\b[0-9a-f]{48,}\b/g, sum => sum.replace(/.{16}(?=.)/g, '$&\u200b'));

/** Indents survive only as characters that are no plain spaces. */
const leadOf = (lead: string): string =>
  `${'\u2003'.repeat(Math.floor(lead.search(/\S|$/) / 3))}${cut(lead.trimStart().replace(/^- /, '• '), 200)}`;
