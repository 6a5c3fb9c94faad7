/** Which damages the usual run does, when there are more than it has time for. */
import { createHash } from 'node:crypto';
import type { Damage } from './damages.ts';

/**
 * The `most` whose names come first by their hash: a fair sample over all flows and kinds, the same in every run, and for
 * the greater part the same when flows are added.
 */
export function chosen(damages: readonly Damage[], most: number): Damage[] {
  const order = new Map(damages.map(({ name }) => [name, createHash('sha256').update(name).digest('hex')]));
  const first = new Set(
    [...order]
      .sort(([, a], [, b]) => (a < b ? -1 : 1))
      .slice(0, most)
      .map(([name]) => name),
  );
  return damages.filter(({ name }) => first.has(name));
}
