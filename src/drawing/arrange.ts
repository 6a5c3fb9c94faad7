/** Places the boxes of one column and routes the arrows between them; the layout library does the work. */
import elkjs, { type ElkNode } from 'elkjs/lib/elk.bundled.js';
import type { Box, BoxExit } from './box.ts';
import { graphOf, type Inner } from './graph.ts';

export interface Point {
  x: number;
  y: number;
}

export interface Line {
  from: number;
  exit: BoxExit;
  points: Point[];
}

export interface Column {
  width: number;
  height: number;
  boxes: { box: Box; x: number; y: number }[];
  lines: Line[];
  /** Exits whose target stands in another column, or is none. */
  tags: { from: number; exit: BoxExit }[];
}

const elk = new elkjs.default();
/** The library sweeps from an order by chance; another seed now and then keeps every line on its side. */
const SEEDS = [1, 2, 3, 4, 5, 6, 7, 8];

export async function arrange(boxes: Box[]): Promise<Column> {
  const here = new Set<BoxExit['to']>(boxes.map(({ index }) => index));
  const inner: Inner[] = [];
  const tags: Column['tags'] = [];
  for (const box of boxes) {
    for (const exit of box.exits) {
      if (here.has(exit.to)) inner.push({ from: box, exit: exit as Inner['exit'] });
      else tags.push({ from: box.index, exit });
    }
  }
  let best: Column | undefined;
  for (const seed of SEEDS) {
    const laid = await elk.layout(graphOf(boxes, inner, seed));
    const column = { ...placed(boxes, laid), lines: linesOf(inner, laid), tags };
    if (best === undefined || strayed(column) < strayed(best)) best = column;
    if (strayed(best) === 0) break;
  }
  return best!;
}

const placed = (boxes: Box[], { width = 0, height = 0, children = [] }: ElkNode) => ({
  width,
  height,
  boxes: boxes.map((box, index) => {
    const { x = 0, y = 0 } = children[index] ?? {};
    return { box, x: Math.round(x), y: Math.round(y) };
  }),
});

const linesOf = (inner: Inner[], { edges = [] }: ElkNode): Line[] =>
  inner.map(({ from, exit }, index) => ({
    from: from.index,
    exit,
    points: (edges[index]?.sections ?? []).flatMap(({ startPoint, bendPoints = [], endPoint }) => [
      startPoint,
      ...bendPoints,
      endPoint,
    ]),
  }));

/** Lines past a step belong on the left, all others on the right. */
function strayed({ boxes, lines }: Column): number {
  const left = Math.min(...boxes.map(({ x }) => x));
  const right = Math.max(...boxes.map(({ box, x }) => x + box.width));
  const stray = ({ exit, points }: Line) =>
    points.some(({ x }) => (exit.how === 'past' ? x > right : x < left));
  return lines.filter(stray).length;
}
