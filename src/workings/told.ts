/** What a working tells, as plain text: cautions first, the answer, its table, what it assumes. */
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
