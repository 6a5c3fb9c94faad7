/** One box, drawn: its shape tells its kind, its words and marks stand where setting.ts put them. */
import type { Box, Words } from './box.ts';
import { paintMark } from './marks.ts';
import { outlineOf, strip } from './shapes.ts';
import { element, type Svg, words } from './svg.ts';

export function paintBox(box: Box, x: number, y: number): Svg {
  return element(
    'g',
    { id: `step-${box.index + 1}`, class: `box ${box.kind}`, transform: `translate(${x} ${y})` },
    element('title', {}, words(box.full)),
    ...shape(box),
    ...box.rules.map(at => element('path', { d: `M8 ${at}H${box.width - 8}`, class: 'hair' })),
    ...number(box),
    ...box.marks.map(paintMark),
    ...box.words.map(paintWords),
  );
}

/** The measured width goes with the text, so that a viewer with another font fits it into the same place. */
export function paintWords({ text, full, x, y, width, style }: Words): Svg {
  const fit = width > 0 ? { textLength: width, lengthAdjust: 'spacingAndGlyphs' } : {};
  const title = full === text ? [] : [element('title', {}, words(full))];
  return element('text', { x, y, class: style, ...fit }, ...title, words(text));
}

function shape(box: Box): Svg[] {
  const { kind, width, height, strip: above } = box;
  const down = above > 0 ? `translate(0 ${above})` : undefined;
  const body = outlineOf(kind, width, height - above, above === 0);
  const whole = outlineOf(kind, width, height, true);
  const dash = box.unreached ? '4 3' : undefined;
  return [
    ...(kind === 'visit'
      ? [element('path', { d: whole, class: 'outline', transform: 'translate(3 3)' })]
      : []),
    ...(above > 0 ? [element('path', { d: strip(kind, width, above), class: 'strip' })] : []),
    element('path', { d: body, class: 'outline', transform: down, 'stroke-dasharray': dash }),
    ...(kind === 'caution' || kind === 'say'
      ? [element('path', { d: `M2 ${above + 3}V${height - 3}`, class: 'edge' })]
      : []),
    ...(box.level === 3
      ? [
          element('path', {
            d: outlineOf(kind, width - 6, height - above - 6, above === 0),
            class: 'inner',
            transform: `translate(3 ${above + 3})`,
          }),
        ]
      : []),
  ];
}

function number({ index, strip: above }: Box): Svg[] {
  const y = above + 14;
  return [
    element('circle', { cx: 17, cy: y, r: 8.5, class: 'disc' }),
    element('text', { x: 17, y: y + 3.5, class: 'number', 'text-anchor': 'middle' }, words(`${index + 1}`)),
  ];
}
