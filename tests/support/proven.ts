import { execFileSync } from 'node:child_process';
import { copyFileSync, existsSync } from 'node:fs';
import { join } from 'node:path';

let made: string | null = null;

/**
 * Makes a new database at `where` that knows the shipped flows to be proven, for tests that start the command: each would prove
 * them anew. Nothing where they are not proven: then the command says so.
 */
export function knowProven(where: string): void {
  made ??= execFileSync(process.execPath, [join('tests', 'support', 'make-proof.ts')], {
    encoding: 'utf8',
  });
  if (made !== '' && existsSync(made) && !existsSync(where)) copyFileSync(made, where);
}
