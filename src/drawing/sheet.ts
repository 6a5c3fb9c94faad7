/** The columns on the sheet, under the title and over the key; all in px. */
import type { Column } from './arrange.ts';
import { type Key, keyOf } from './key.ts';
import type { Measure } from './text.ts';
import type { Subject } from './written.ts';

/** Margins and what stands above and below the columns; `foot` is what the key takes on a wide sheet. */
export const PAGE = { margin: 20, head: 52, foot: 68, gutter: 18 };
const NARROWEST = 760;
const OVER_KEY = 20;

export interface PlacedColumn extends Column {
  x: number;
  y: number;
}

export interface Sheet {
  width: number;
  height: number;
  columns: PlacedColumn[];
  key: Key;
  keyTop: number;
}

export function sheetOf(subject: Subject, columns: Column[], measure: Measure): Sheet {
  const wide = columns.reduce((sum, { width }) => sum + width, 0) + PAGE.gutter * (columns.length - 1);
  const inner = Math.ceil(Math.max(wide, NARROWEST));
  const key = keyOf(subject, inner, measure);
  const keyTop = PAGE.head + Math.ceil(Math.max(...columns.map(({ height }) => height))) + OVER_KEY;
  let x = PAGE.margin + (inner - wide) / 2;
  const placed = columns.map(column => {
    const here = { ...column, x: Math.round(x), y: PAGE.head };
    x += column.width + PAGE.gutter;
    return here;
  });
  return { width: inner + 2 * PAGE.margin, height: keyTop + key.height + 10, columns: placed, key, keyTop };
}
