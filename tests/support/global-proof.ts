/**
 * A database in which the shipped flows are known to be proven, for tests that start the command: each would prove them anew.
 * Kept between runs under a hash of everything that the proof depends on. That the flows are proven has a test of its own.
 */
import { existsSync, mkdirSync, renameSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { loadLibrary } from '#library/load.ts';
import { prove, subjectOf } from '#library/prove.ts';
import { openStore } from '#store/open.ts';

const KEPT = join('node_modules', '.cache', 'reseat');

export default async function setup() {
  const { library, mistakes } = loadLibrary('flows');
  if (library === null || mistakes.length > 0) return;
  const subject = subjectOf(library);
  const kept = join(KEPT, `${subject}.db`);
  if (!existsSync(kept)) {
    const { longest, broken } = await prove(library);
    if (broken !== null) return;
    rmSync(KEPT, { recursive: true, force: true });
    mkdirSync(KEPT, { recursive: true });
    const made = `${kept}.${process.pid}`;
    const store = await openStore(made);
    await store.keepProof(subject, longest, 0);
    await store.close();
    renameSync(made, kept);
  }
  process.env.TEST_PROVEN_DATABASE = kept;
}
