import { copyFileSync, existsSync } from 'node:fs';
import { join } from 'node:path';

/** Processes of one run share what Node has compiled. */
export const COMPILED = { NODE_COMPILE_CACHE: join('node_modules', '.cache', 'node') };

/** Makes a new database at `where` that knows the shipped flows to be proven, if there is one to copy. */
export function knowProven(where: string): void {
  const from = process.env.TEST_PROVEN_DATABASE;
  if (from !== undefined && existsSync(from) && !existsSync(where)) copyFileSync(from, where);
}
