/** The real wiring with a channel, a clock and ids of one's own. */
import { setTimeout as sleep } from 'node:timers/promises';
import type { Channel } from '#channels/channel.ts';
import { loadKept } from '#library/kept.ts';
import { loadLibrary, mistakeText } from '#library/load.ts';
import { openStore } from '#store/open.ts';
import type { Store } from '#store/store.ts';
import { type Delivering, deliver } from '#talk/deliver.ts';
import type { Inbound } from '#talk/inbound.ts';
import { tick } from '#talk/timers.ts';
import { type Turned, type Turning, turn } from '#talk/turn.ts';
import { type Gathering, gather } from '../../src/gather.ts';

export const HOUR = 3_600_000;

export interface Wiring {
  store: Store;
  turning: Turning;
  gathering: Gathering;
  take(inbound: Inbound): Promise<Turned>;
  /** Sends everything that is due; returns how many rows went out. */
  drain(): Promise<number>;
  /** Takes every timer due by now. */
  tick(): Promise<number>;
  close(): Promise<void>;
}

export interface Given {
  database: string;
  channels: Channel[];
  now(): number;
  id(): string;
  flows?: string;
  wake?(): void;
  owner?: string;
  lease?: number;
  /** Places where the desk sees its tickets; none unless given. */
  boards?: string[];
  log?: Delivering['log'];
}

export async function wiring(given: Given): Promise<Wiring> {
  const { library, mistakes } = given.flows === undefined ? loadKept('flows') : loadLibrary(given.flows);
  if (library === null || mistakes.length > 0) throw new Error(mistakes.map(mistakeText).join('\n'));
  const store = await openStore(given.database);
  const { now, id, channels, boards = [] } = given;
  const settings = { nudgeAfter: 4 * HOUR, leftAfter: 72 * HOUR, boards };
  const gathering = await gather(library, store, settings, now);
  const turning: Turning = {
    store,
    knowledge: gathering.knowledge,
    now,
    id,
    wake: given.wake ?? (() => undefined),
    sleep: milliseconds => sleep(milliseconds),
  };
  const take = (inbound: Inbound) => turn(turning, inbound);
  const log = given.log ?? ((event, details) => console.error(event, details));
  const delivering: Delivering = {
    store,
    channels,
    take,
    now,
    owner: given.owner ?? id(),
    lease: given.lease,
    log,
  };
  return {
    store,
    turning,
    gathering,
    take,
    async drain() {
      let sum = 0;
      for (;;) {
        const sent = await deliver(delivering);
        if (sent === 0) return sum;
        sum += sent;
      }
    },
    tick: () => tick(store, now(), take),
    close: () => store.close(),
  };
}
