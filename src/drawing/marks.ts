/** Small drawings that stand beside words, from the left at `x`, their middle at `y`. */
import type { Mark } from './box.ts';
import { element, type Svg } from './svg.ts';

export function paintMark(mark: Mark): Svg {
  const { x, y } = mark;
  switch (mark.kind) {
    case 'sign':
    case 'cleared':
      return element('path', {
        d: `M${x + 1} ${y + 6}V${y - 5}L${x + 9} ${y - 2}L${x + 1} ${y + 1}`,
        class: mark.kind === 'sign' ? 'pennant' : 'pennant open',
      });
    case 'care':
      return element('path', {
        d: `M${x + 5} ${y - 5}L${x + 10.5} ${y + 4.5}H${x - 0.5}ZM${x + 5} ${y - 2}V${y + 1.2}M${x + 5} ${y + 2.6}V${y + 3.4}`,
        class: 'warning',
      });
    case 'fixed':
      return element('path', { d: `M${x} ${y}L${x + 3.5} ${y + 3.5}L${x + 9.5} ${y - 4}`, class: 'tick' });
    case 'effect':
      return element('g', {}, ...[0, 1, 2].map(bar => effectBar(x, y, bar, mark.level)));
  }
}

/** Three bars of growing height; as many are full as the step acts on the drive: none, start, read, write. */
function effectBar(x: number, y: number, bar: number, level: number): Svg {
  const height = 4 + bar * 2.5;
  return element('rect', {
    x: x + bar * 6.5,
    y: y + 4 - height,
    width: 4.5,
    height,
    class: bar < level ? 'bar full' : 'bar',
  });
}
