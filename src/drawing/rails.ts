/** Exits that leave their column: a line to the top of the next column, a tag with a number to anywhere else. */
import type { Point } from './arrange.ts';
import type { Box, BoxExit } from './box.ts';
import { STYLES } from './look.ts';
import { paintWords } from './paint.ts';
import { PAGE, type PlacedColumn } from './sheet.ts';
import { element, type Svg } from './svg.ts';
import { paintTag, TAG } from './tags.ts';
import { type Measure, shortened } from './text.ts';

/** How far above a column its first box is entered from. */
const ABOVE = 13;

export function lineOf(points: Point[], how: BoxExit['how']): Svg {
  const d = points.map(({ x, y }, index) => `${index === 0 ? 'M' : 'L'}${half(x)} ${half(y)}`).join('');
  return element('path', { d, class: `line ${how}`, 'marker-end': 'url(#head)' });
}

/** Lines stand on half pixels, so that a screen draws them sharp. */
const half = (at: number): number => Math.round(at) + 0.5;

export function leaving(column: PlacedColumn, next: PlacedColumn | undefined): { lines: Svg[]; tags: Svg[] } {
  const lines: Svg[] = [];
  const tags: Svg[] = [];
  const first = next?.boxes[0];
  for (const { from, exit } of column.tags) {
    const { box, x, y } = column.boxes.find(each => each.box.index === from)!;
    const at = { x: column.x + x, y: column.y + y };
    if (first !== undefined && next !== undefined && exit.to === first.box.index) {
      const rail = next.x - PAGE.gutter / 2;
      const goal = { x: next.x + first.x + first.box.width / 2, y: next.y + first.y };
      const lowest = box === column.boxes.at(-1)?.box;
      const start =
        exit.how === 'on' && lowest
          ? [
              { x: at.x + box.width / 2, y: at.y + box.height },
              { x: at.x + box.width / 2, y: at.y + box.height + 10 },
            ]
          : [{ x: at.x + box.width, y: at.y + Math.min(exit.y, box.height - 8) }];
      const from = start.at(-1)!.y;
      lines.push(
        lineOf(
          [
            ...start,
            { x: rail, y: from },
            { x: rail, y: goal.y - ABOVE },
            { x: goal.x, y: goal.y - ABOVE },
            goal,
          ],
          exit.how,
        ),
      );
    } else {
      tags.push(tagOf(box, exit, at));
    }
  }
  return { lines, tags };
}

/** Beside the last line of an answer or a condition; where a box goes on, in the middle under it. */
function tagOf(box: Box, exit: BoxExit, at: Point): Svg {
  const text = typeof exit.to === 'number' ? `${exit.to + 1}` : exit.to === 'out' ? 'back' : 'desk';
  const tag =
    exit.how === 'on'
      ? paintTag(text, exit.how, at.x + (box.width - TAG.width) / 2, at.y + box.height + 4)
      : paintTag(text, exit.how, at.x + box.width - TAG.width - 6, at.y + exit.y);
  return typeof exit.to === 'number' ? element('a', { href: `#step-${text}` }, tag) : tag;
}

/** Over a box that is reached from other columns: from which boxes. */
export function origins(columns: PlacedColumn[], measure: Measure): Svg[] {
  return columns.flatMap((column, index) =>
    column.boxes.flatMap(({ box, x, y }, place) => {
      const linked = (other: number) => other === index || (other === index - 1 && place === 0);
      const from = columns.flatMap((other, number) =>
        linked(number) ? [] : other.tags.filter(({ exit }) => exit.to === box.index).map(tag => tag.from + 1),
      );
      if (from.length === 0) return [];
      const full = `from ${[...new Set(from)].join(', ')}`;
      const room = middleTaken(columns, index, place) ? box.width / 2 - 48 : box.width - 70;
      const text = shortened(full, STYLES.origin, room, measure);
      const width = measure(text, STYLES.origin);
      return [paintWords({ text, full, x: column.x + x + 34, y: column.y + y - 4, width, style: 'origin' })];
    }),
  );
}

/** Does an arrow come in from straight above, or does the box above have its tag there? */
function middleTaken(columns: PlacedColumn[], index: number, place: number): boolean {
  const { boxes, lines, tags } = columns[index]!;
  const { box } = boxes[place]!;
  if (place === 0) return columns[index - 1]?.tags.some(({ exit }) => exit.to === box.index) ?? false;
  return [...lines, ...tags].some(
    ({ from, exit }) =>
      from === box.index - 1 &&
      exit.how !== 'past' &&
      (exit.to === box.index || (exit.how === 'on' && tags.some(tag => tag.exit === exit))),
  );
}
