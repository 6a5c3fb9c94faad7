/** `reseat check`: proves the flows. Exit 1 when a rule is broken; mistakes of the files come first, with exit 2. */
import { check as prove, type Report } from '#engine/check/check.ts';
import { reportText } from '#engine/check/report.ts';
import { mistakeText } from '#library/load.ts';
import { UserError } from '../errors.ts';
import type { Shell } from './wired.ts';

/** `only`: flows to tell about; all are proven, since they share blocks. */
export async function check(shell: Shell, only: string[], { json }: { json: boolean }): Promise<void> {
  const started = shell.now();
  const { library, mistakes, place } = await shell.load();
  if (library === null || mistakes.length > 0) throw new UserError(mistakes.map(mistakeText).join('\n'));
  const unknown = only.find(flow => !(flow in library.flows));
  if (unknown !== undefined) {
    throw new UserError(
      `There is no flow "${unknown}". There are: ${Object.keys(library.flows).join(', ')}.`,
    );
  }
  const whole = prove(
    Object.values(library.flows).map(({ compiled }) => compiled),
    library.catalogue,
  );
  const report = only.length === 0 ? whole : about(whole, only);
  const milliseconds = Math.round(shell.now() - started);
  if (json) {
    const broken = report.broken.map(each => ({ ...each, ...place(each) }));
    // Paths outgrow what a JSON number holds exactly, so they are written as text.
    shell.output.write(
      `${JSON.stringify({ ...report, broken, milliseconds }, (_, value) => (typeof value === 'bigint' ? value.toString() : value))}\n`,
    );
  } else {
    shell.output.write(`${reportText(report, place)}\n`);
  }
  shell.exit(report.broken.length === 0 ? 0 : 1);
}

/** What is wrong with a block or the catalogue concerns every flow. */
function about({ broken, each }: Report, only: string[]): Report {
  const rows = each.filter(({ flow }) => only.includes(flow));
  const sum = (of: (row: (typeof rows)[number]) => number) => rows.reduce((all, row) => all + of(row), 0);
  return {
    flows: rows.length,
    steps: sum(({ steps }) => steps),
    states: sum(({ states }) => states),
    paths: rows.reduce((all, { paths }) => all + paths, 0n),
    longest: Math.max(...rows.map(({ longest }) => longest)),
    broken: broken.filter(({ flow, unit }) => only.includes(flow) || unit.includes('/')),
    each: rows,
  };
}
