/** Chooses how wide the boxes are, in how many columns they stand and how much they say, so that all can be read on one screen. */
import type { Box } from './box.ts';
import type { Detail } from './boxes.ts';
import { columnsOf } from './columns.ts';
import { GAP } from './graph.ts';
import { PAGE } from './sheet.ts';

export interface Size {
  width: number;
  height: number;
}

const WIDTHS = [200, 212, 224, 236, 248, 264, 280, 300, 320, 340];
const MOST_COLUMNS = 8;
/** From the most words to the fewest. */
export const DETAILS: Detail[] = [
  { words: 7, condition: 5 },
  { words: 5, condition: 4 },
  { words: 4, condition: 3 },
  { words: 3, condition: 3 },
  { words: 3, condition: 2 },
  { words: 2, condition: 2 },
  { words: 2, condition: 1 },
  { words: 1, condition: 1 },
];
/** What a column needs beside its boxes, for its lines: a guess, which the layout then makes exact. */
const RAILS = 13;

/** All boxes of the file in a width, once for each of DETAILS. */
export type Sets = (width: number) => Box[][];

interface Fit {
  sets: Box[][];
  starts: number[];
  /** How much of its own size the picture has when it fills the screen. */
  scale: number;
  /** Texts that had to be shortened. */
  cut: number;
}

/** The boxes of each column, for a screen of this size. */
export function fitting(setsOf: Sets, screen: Size): Box[][] {
  let best: Fit | undefined;
  for (const width of WIDTHS) {
    const sets = setsOf(width);
    for (let count = 1; count <= MOST_COLUMNS; count++) {
      for (const level of sets.keys()) {
        const fit = fitOf(sets.slice(0, level + 1), width, count, screen);
        if (best === undefined || better(fit, best)) best = fit;
      }
    }
  }
  const { sets, starts, scale } = best!;
  const room = Math.max(screen.height / Math.min(1, scale) - PAGE.head - PAGE.foot, 0);
  return starts.map((from, column) => filled(sets, from, starts[column + 1] ?? sets[0]!.length, room));
}

function fitOf(sets: Box[][], width: number, count: number, screen: Size): Fit {
  const boxes = sets.at(-1)!;
  const starts = columnsOf(
    boxes.map(({ height }) => height),
    count,
    GAP,
  );
  const high = Math.max(...starts.map((from, index) => heightOf(boxes.slice(from, starts[index + 1]))));
  const wide = starts.length * (width + RAILS + PAGE.gutter) + 2 * PAGE.margin;
  const scale = Math.min(screen.width / wide, screen.height / (high + PAGE.head + PAGE.foot));
  return { sets, starts, scale, cut: boxes.reduce((sum, box) => sum + cutIn(box), 0) };
}

/** Readable first; then with as few words left out as can be; then large, up to where more helps nobody; then in few columns. */
function better(one: Fit, other: Fit): boolean {
  const order = ({ scale, cut, starts }: Fit) => [
    -Math.min(scale, 1),
    cut,
    -Math.min(scale, 1.3),
    starts.length,
  ];
  const [a, b] = [order(one), order(other)];
  const first = a.findIndex((value, index) => value !== b[index]);
  return first !== -1 && a[first]! < b[first]!;
}

const heightOf = (boxes: Box[]) => boxes.reduce((sum, { height }) => sum + height + GAP, 0);
const cutIn = (box: Box) => box.words.filter(({ text, full }) => text.endsWith('…') && text !== full).length;

/** A column that has room to spare says more, box by box from the top. */
function filled(sets: Box[][], from: number, to: number, room: number): Box[] {
  const levels = Array.from({ length: to - from }, () => sets.length - 1);
  const boxes = () => levels.map((level, index) => sets[level]![from + index]!);
  for (let round = 1; round < sets.length; round++) {
    for (const index of levels.keys()) {
      levels[index]! -= 1;
      if (heightOf(boxes()) > room) levels[index]! += 1;
    }
  }
  return boxes();
}
