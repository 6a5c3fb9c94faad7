/** The picture of a flow or a block: the file in, SVG text out. */
import { arrange, type Column } from './arrange.ts';
import { passageOf } from './arrows.ts';
import type { Box } from './box.ts';
import { boxesOf } from './boxes.ts';
import { DETAILS, fitting, type Size } from './fitting.ts';
import { beginning } from './known.ts';
import { page } from './page.ts';
import { type Sheet, sheetOf } from './sheet.ts';
import type { Measure } from './text.ts';
import type { Subject, Written } from './written.ts';

/** The screen that a picture is made to be read on, in px. */
export const SCREEN: Size = { width: 1440, height: 900 };
const MOST_ROUNDS = 4;

/** `measure` gives the widths of the picture's font. The layout library takes a moment to load: import this file only to draw. */
export const draw = async (subject: Subject, written: Written, measure: Measure): Promise<string> =>
  page(subject, await layOut(subject, written, measure), measure);

/** Where everything stands. What lines really take is known once they are laid; the next round leaves that much more room. */
export async function layOut(subject: Subject, written: Written, measure: Measure): Promise<Sheet> {
  const start = [beginning(subject.steps, written, subject.kind === 'block')];
  const passage = passageOf(subject.steps, start, written);
  const known = new Map<number, Box[][]>();
  const sets = (width: number): Box[][] => {
    const found =
      known.get(width) ?? DETAILS.map(detail => boxesOf(subject, passage, written, width, detail, measure));
    known.set(width, found);
    return found;
  };
  const room = { ...SCREEN };
  let best: Sheet | undefined;
  for (let round = 0; round < MOST_ROUNDS; round++) {
    const columns: Column[] = [];
    for (const boxes of fitting(sets, room)) columns.push(await arrange(boxes));
    const sheet = sheetOf(subject, columns, measure);
    if (best === undefined || scaleOf(sheet) > scaleOf(best)) best = sheet;
    if (scaleOf(best) >= 1) break;
    room.width -= Math.max(0, sheet.width - SCREEN.width);
    room.height -= Math.max(0, sheet.height - SCREEN.height);
  }
  return best!;
}

const scaleOf = ({ width, height }: Size): number => Math.min(SCREEN.width / width, SCREEN.height / height);
