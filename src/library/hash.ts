import { createHash } from 'node:crypto';
import type { Script } from '#engine/script.ts';

/** The name of a script: SHA-256 of its JSON with keys in order, so that the same script has the same name anywhere. */
export const hashOf = (script: Script): string =>
  createHash('sha256').update(canonical(script)).digest('hex');

/** JSON with keys in order. */
export function canonical(value: unknown): string {
  if (Array.isArray(value)) return `[${value.map(canonical).join(',')}]`;
  if (typeof value === 'object' && value !== null) {
    const pairs = Object.entries(value)
      .filter(([, inner]) => inner !== undefined)
      .sort(([a], [b]) => (a < b ? -1 : 1))
      .map(([key, inner]) => `${JSON.stringify(key)}:${canonical(inner)}`);
    return `{${pairs.join(',')}}`;
  }
  return JSON.stringify(value);
}
