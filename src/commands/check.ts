/** `reseat check`: proves the flows. Exit 1 when a rule is broken; mistakes of the files come first, with exit 2. */
import { check as prove } from '#engine/check/check.ts';
import { reportText } from '#engine/check/report.ts';
import { mistakeText } from '#library/load.ts';
import { UserError } from '../errors.ts';
import type { Shell } from './wired.ts';

export function check(shell: Shell, { json }: { json: boolean }): void {
  const started = shell.now();
  const { library, mistakes, place } = shell.load();
  if (library === null || mistakes.length > 0) throw new UserError(mistakes.map(mistakeText).join('\n'));
  const report = prove(
    Object.values(library.flows).map(({ compiled }) => compiled),
    library.catalogue,
  );
  const milliseconds = Math.round(shell.now() - started);
  if (json) {
    const broken = report.broken.map(each => ({ ...each, ...place(each) }));
    // Paths outgrow what a JSON number holds exactly, so they are written as text.
    shell.output.write(
      `${JSON.stringify({ ...report, broken, milliseconds }, (_, value) => (typeof value === 'bigint' ? value.toString() : value))}\n`,
    );
  } else {
    shell.output.write(`${reportText(report, place, milliseconds)}\n`);
  }
  shell.exit(report.broken.length === 0 ? 0 : 1);
}
