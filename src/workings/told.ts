/** What a working tells, as plain text: cautions first, the answer, its table, what it assumes. */
import type { Values } from './form.ts';
import type { Told } from './working.ts';

export function toldText({ says, table, limits, cautions = [] }: Told): string {
  return [
    ...cautions.map(caution => `! ${caution}`),
    ...says,
    ...(table === undefined ? [] : ['', columns(table), '']),
    'This assumes:',
    ...limits.map(limit => `- ${limit}`),
  ].join('\n');
}

/** Cells under each other; every column as wide as its widest cell. */
export function columns(rows: string[][]): string {
  const widths = rows[0]!.map((_, column) => Math.max(...rows.map(row => row[column]?.length ?? 0)));
  return rows
    .map(row =>
      row
        .map((cell, column) => cell.padEnd(widths[column]!))
        .join('  ')
        .trimEnd(),
    )
    .join('\n');
}

/** The answer with what it was worked out from, so that anybody can do it again. @param most characters */
export function noteOf(
  { id }: { id: string },
  { says, cautions = [] }: Told,
  values: Values,
  most: number,
): string {
  const from = Object.entries(values).flatMap(([name, value]) =>
    value == null || value.trim() === '' ? [] : [`${name}: ${shortened(value.replace(/\s+/g, ' '), 100)}`],
  );
  const note = [`Worked out, ${id}:`, ...says, ...cautions, `From ${from.join('; ')}`].join('\n');
  return shortened(note, most);
}

const shortened = (text: string, most: number): string =>
  text.length <= most ? text : `${text.slice(0, most - 1).toWellFormed()}…`;
