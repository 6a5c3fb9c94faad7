/** Proves what was loaded, away from the main thread. What is proven once need not be again: see `subjectOf`. */
import { createHash } from 'node:crypto';
import { readdirSync, readFileSync } from 'node:fs';
import { Worker } from 'node:worker_threads';
import type { Catalogue } from '#engine/catalogue.ts';
import type { Compiled, Problem } from '#engine/compile.ts';
import { canonical } from './hash.ts';
import type { Library } from './load.ts';

export interface ToProve {
  compiled: Compiled[];
  catalogue: Catalogue;
}

export interface Verdict {
  /** Questions of the longest conversation, by flow. */
  longest: Record<string, number>;
  /** What was found first, or null: every rule holds on every path. */
  broken: Pick<Problem, 'unit' | 'path' | 'message'> | null;
}

/** Rejects when the checker itself fails, as it would in the main thread. */
export function prove(library: Library): Promise<Verdict> {
  const workerData: ToProve = {
    compiled: Object.values(library.flows).map(({ compiled }) => compiled),
    catalogue: library.catalogue,
  };
  return new Promise((resolve, reject) => {
    const worker = new Worker(new URL('./prove-worker.ts', import.meta.url), { workerData });
    worker.once('message', resolve);
    worker.once('error', reject);
    worker.once('exit', () => reject(new Error('the proof ended without a verdict')));
  });
}

/** Everything that a verdict depends on, in 64 hexadecimal digits: the scripts, the catalogue, and the code of engine and checker. */
export function subjectOf({ flows, catalogue }: Library): string {
  const hash = createHash('sha256');
  for (const { hash: script } of Object.values(flows)) hash.update(script);
  hash.update(canonical(catalogue));
  const engine = new URL('../engine/', import.meta.url);
  for (const file of readdirSync(engine, { recursive: true, encoding: 'utf8' }).sort()) {
    if (file.endsWith('.ts'))
      hash.update(file).update(readFileSync(new URL(file.replaceAll('\\', '/'), engine)));
  }
  return hash.digest('hex');
}
