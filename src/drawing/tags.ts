/** A tag with the number of a box, or how else it goes on; from the left at `x`, its middle at `y`. */
import type { BoxExit } from './box.ts';
import { element, type Svg, words } from './svg.ts';

export const TAG = { width: 27, height: 14 };

export const paintTag = (text: string, how: BoxExit['how'], x: number, y: number): Svg =>
  element(
    'g',
    { transform: `translate(${x} ${Math.round(y - TAG.height / 2)})` },
    element('rect', { width: TAG.width, height: TAG.height, rx: TAG.height / 2, class: `tag-shape ${how}` }),
    element('text', { x: TAG.width / 2, y: 10.5, 'text-anchor': 'middle', class: 'tag' }, words(text)),
  );
