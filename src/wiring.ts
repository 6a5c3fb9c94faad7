/** Wires everything; the only file that does. */
import { randomBytes } from 'node:crypto';
import { setTimeout as sleep } from 'node:timers/promises';
import { loadKept } from '#library/kept.ts';
import { type Library, type Loaded, mistakeText } from '#library/load.ts';
import { prove, subjectOf } from '#library/prove.ts';
import { screenReader } from '#reading/screens/reader.ts';
import { openStore } from '#store/open.ts';
import type { Store } from '#store/store.ts';
import type { Inbound } from '#talk/inbound.ts';
import { type Turning, turn } from '#talk/turn.ts';
import type { Wired } from './commands/wired.ts';
import { readConfig } from './config.ts';
import { UserError } from './errors.ts';
import { gather } from './gather.ts';
import { look } from './look.ts';

const now = () => Date.now();
const id = () => randomBytes(9).toString('base64url');

/** `starts`: conversations go on from here, so the flows are proven and what no longer passes is handed over. */
export async function wire(starts: boolean): Promise<Wired> {
  const config = readConfig(process.env);
  const loaded = read(config.flows);
  const store = await openStore(config.database);
  const library = starts ? await proven(loaded, store).catch(closing(store)) : loaded.library;
  const { nudgeAfter, leftAfter, boards } = config;
  const gathering = await gather(library, store, { nudgeAfter, leftAfter, boards }, now);
  const listeners: (() => void)[] = [];
  const turning: Turning = {
    store,
    knowledge: gathering.knowledge,
    now,
    id,
    wake: () => {
      for (const listener of listeners) listener();
    },
    sleep: milliseconds => sleep(milliseconds),
  };
  const take = (inbound: Inbound) => turn(turning, inbound);
  if (starts) await gathering.retire(take);
  const reader = screenReader({ log });
  const owner = `${process.pid}-${id()}`;
  const reload = async () => {
    gathering.replace(await proven(read(config.flows), store));
    await gathering.retire(take);
  };
  return {
    config,
    store,
    turning,
    knowledge: gathering.knowledge,
    take,
    delivering: (channels, lanes) => ({ store, channels, lanes, take, now, owner, log }),
    onCommit: listener => listeners.push(listener),
    refresh: gathering.refresh,
    reload,
    look: look(reader, gathering.knowledge),
    log,
    now,
    id,
    close: async () => {
      await reader.close();
      await store.close();
    },
  };
}

/** Today's flows, or one message about what is wrong with them. */
function read(folder: string): Loaded & { library: Library } {
  const loaded = loadKept(folder);
  const { library, mistakes } = loaded;
  if (library === null || mistakes.length > 0)
    throw new UserError(
      `The flows have mistakes, so they are not used:\n${mistakes.map(mistakeText).join('\n')}`,
    );
  return { ...loaded, library };
}

/** Broken flows are refused, at start and at every reload. */
async function proven({ library, place }: Loaded & { library: Library }, store: Store): Promise<Library> {
  const subject = subjectOf(library);
  let longest = await store.proof(subject);
  if (longest === null) {
    const verdict = await prove(library);
    if (verdict.broken !== null) {
      const { file, line } = place(verdict.broken);
      throw new UserError(
        `The flows are not safe, so they are not used: ${file}:${line}: ${verdict.broken.message}. See: reseat check`,
      );
    }
    longest = verdict.longest;
    await store.keepProof(subject, longest, now());
  }
  for (const [flow, most] of Object.entries(longest)) library.flows[flow]!.longest = most;
  return library;
}

/** A database that was opened in vain is closed again. */
const closing = (store: Store) => async (error: unknown) => {
  await store.close();
  throw error;
};

function log(event: string, details: Record<string, unknown>): void {
  process.stderr.write(`${JSON.stringify({ at: new Date(now()).toISOString(), event, ...details })}\n`);
}
