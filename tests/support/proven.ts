import { copyFileSync, existsSync } from 'node:fs';

/** Makes a new database at `where` that knows the shipped flows to be proven, if there is one to copy. */
export function knowProven(where: string): void {
  const from = process.env.TEST_PROVEN_DATABASE;
  if (from !== undefined && existsSync(from) && !existsSync(where)) copyFileSync(from, where);
}
