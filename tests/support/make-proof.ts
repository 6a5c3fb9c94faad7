/**
 * Makes the database in which the shipped flows are known to be proven, and prints where it is. Run as a process of its own,
 * because it takes seconds and whoever waits for it waits without a turn of the loop.
 * Kept between runs under a hash of everything that the proof depends on. That the flows are proven has a test of its own.
 */
import { existsSync, mkdirSync, readdirSync, renameSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { setTimeout as sleep } from 'node:timers/promises';
import { loadKept } from '#library/kept.ts';
import { prove, subjectOf } from '#library/prove.ts';
import { openStore } from '#store/open.ts';

const KEPT = join('node_modules', '.cache', 'reseat-proofs');
/** Milliseconds after which whoever holds the lock is taken to have died. */
const PATIENCE = 60_000;

const { library } = loadKept('flows');
if (library !== null) {
  const subject = subjectOf(library);
  const kept = join(KEPT, `${subject}.db`);
  const lock = `${kept}.lock`;
  mkdirSync(KEPT, { recursive: true });
  const since = Date.now();
  while (!existsSync(kept) && !first(lock) && Date.now() - since < PATIENCE) await sleep(100);
  if (!existsSync(kept)) {
    const { longest, broken } = await prove(library);
    if (broken === null) {
      for (const old of readdirSync(KEPT).filter(name => !name.startsWith(subject)))
        rmSync(join(KEPT, old), { recursive: true, force: true });
      const made = `${kept}.${process.pid}`;
      const store = await openStore(made);
      await store.keepProof(subject, longest, 0);
      await store.close();
      renameSync(made, kept);
    }
    rmSync(lock, { recursive: true, force: true });
  }
  if (existsSync(kept)) process.stdout.write(kept);
}

function first(path: string): boolean {
  try {
    mkdirSync(path);
    return true;
  } catch {
    return false;
  }
}
