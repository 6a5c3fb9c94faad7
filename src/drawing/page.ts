/** The picture: title, columns and key, as SVG text. */
import { css } from './css.ts';
import { COLOURS, FAMILIES, STYLES } from './look.ts';
import { paintBox, paintWords } from './paint.ts';
import { leaving, lineOf, origins } from './rails.ts';
import { PAGE, type PlacedColumn, type Sheet } from './sheet.ts';
import { element, type Svg, words } from './svg.ts';
import { type Measure, shortened } from './text.ts';
import type { Subject } from './written.ts';

export function page(subject: Subject, sheet: Sheet, measure: Measure): string {
  const { width, height, columns, key, keyTop } = sheet;
  return element(
    'svg',
    {
      xmlns: 'http://www.w3.org/2000/svg',
      width,
      height,
      viewBox: `0 0 ${width} ${height}`,
      'font-family': FAMILIES,
    },
    element('title', {}, words(`${subject.id}: ${subject.about}`)),
    element('style', {}, words(css())),
    element('defs', {}, head()),
    element('rect', { width, height, fill: COLOURS.paper }),
    ...title(subject, width - 2 * PAGE.margin, measure),
    ...drawn(columns, measure),
    ...key.draw(PAGE.margin, keyTop),
  ).svg;
}

/** Lines lie under the boxes, tags on them. */
function drawn(columns: PlacedColumn[], measure: Measure): Svg[] {
  const out = columns.map((column, index) => leaving(column, columns[index + 1]));
  return [
    ...columns.flatMap(({ lines, x: left, y: top }) =>
      lines.map(({ points, exit }) =>
        lineOf(
          points.map(({ x, y }) => ({ x: x + left, y: y + top })),
          exit.how,
        ),
      ),
    ),
    ...out.flatMap(({ lines }) => lines),
    ...columns.flatMap(column =>
      column.boxes.map(({ box, x, y }) => paintBox(box, column.x + x, column.y + y)),
    ),
    ...out.flatMap(({ tags }) => tags),
    ...origins(columns, measure),
  ];
}

function title({ kind, id, about }: Subject, width: number, measure: Measure): Svg[] {
  const name = shortened(kind === 'block' ? `Block ${id}` : id, STYLES.title, width / 2, measure);
  const nameWidth = measure(name, STYLES.title);
  const text = shortened(about, STYLES.about, width - nameWidth - 12, measure);
  const y = 28;
  return [
    paintWords({ text: name, full: id, x: PAGE.margin, y, width: nameWidth, style: 'title' }),
    paintWords({
      text,
      full: about,
      x: PAGE.margin + nameWidth + 12,
      y,
      width: measure(text, STYLES.about),
      style: 'about',
    }),
  ];
}

const head = (): Svg =>
  element(
    'marker',
    {
      id: 'head',
      viewBox: '0 0 8 8',
      refX: 7,
      refY: 4,
      markerWidth: 8,
      markerHeight: 8,
      markerUnits: 'userSpaceOnUse',
      orient: 'auto',
    },
    element('path', { d: 'M0 0.5L8 4L0 7.5Z', fill: COLOURS.line }),
  );
