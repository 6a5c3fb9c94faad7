import { createHash } from 'node:crypto';
import type { Script } from '#engine/script.ts';

/** The name of a script: SHA-256 of its JSON. The compiler makes its parts in one order, so the same files have the same name anywhere. */
export const hashOf = (script: Script): string =>
  createHash('sha256').update(JSON.stringify(script)).digest('hex');

/** JSON with keys in order. */
export function canonical(value: unknown): string {
  if (Array.isArray(value)) return `[${value.map(canonical).join(',')}]`;
  if (typeof value !== 'object' || value === null) return JSON.stringify(value);
  const fields = value as Record<string, unknown>;
  let pairs = '';
  for (const key of Object.keys(fields).sort()) {
    if (fields[key] === undefined) continue;
    pairs += `${pairs === '' ? '' : ','}${JSON.stringify(key)}:${canonical(fields[key])}`;
  }
  return `{${pairs}}`;
}
