/** What runs beside the requests of a serving process: deliveries, timers, fresh knowledge. The same for every channel. */
import type { Channel } from '#channels/channel.ts';
import type { Store } from '#store/store.ts';
import { type Delivering, deliver, type Lanes, type Look, lanes } from '#talk/deliver.ts';
import type { Inbound } from '#talk/inbound.ts';
import { tick } from '#talk/timers.ts';
import { type Pump, pump } from './pump.ts';

export interface Looping {
  store: Store;
  delivering(channels: Channel[], lanes?: string[]): Delivering;
  /** Looks at pictures. Without it they wait for a process that does. */
  look?: Look;
  take(inbound: Inbound): Promise<unknown>;
  /** Figures and outages anew. */
  refresh(): Promise<void>;
  now(): number;
  log(event: string, details: Record<string, unknown>): void;
}

export interface Loop {
  /** After a commit: what it sends goes out now. */
  wake(): void;
  /** Resolves when what is committed by now has been sent on this channel, or has failed to. */
  delivered(channel: string): Promise<void>;
  /** Lets what is being sent end. */
  stop(): Promise<void>;
}

/** Milliseconds between looks at the database for what other processes committed. */
const LOOK = 500;
const REFRESH = 5000;
/** Longer than one picture can take, with some that wait before it. */
const LOOKING = 300_000;

/** A pump whose work goes on after a look. */
const sending = (looking: Pump, going: Lanes): Pump => ({
  wake: looking.wake,
  async pass() {
    for (let before = -1; before !== going.begun(); ) {
      before = going.begun();
      await looking.pass();
      await going.settled();
    }
  },
  async stop() {
    await looking.stop();
    await going.settled();
  },
});

/** One pump a channel, so that a slow platform holds nobody else up. */
export function loop(on: Looping, channels: Channel[]): Loop {
  const failing = (what: string) => (error: unknown) => on.log(`${what}-failed`, { error: String(error) });
  const deliveries = new Map<string, Pump>(
    channels.map(channel => {
      const failed = failing('delivery');
      const going: Lanes = lanes(on.delivering([channel]), () => looking.wake(), failed);
      const looking = pump(going.look, LOOK, failed);
      return [channel.id, sending(looking, going)];
    }),
  );
  if (on.look !== undefined) {
    // Beside the channels, so that a picture holds nobody up.
    const reading = { ...on.delivering([], ['read:']), look: on.look, lease: LOOKING };
    const work = async () => {
      while ((await deliver(reading)) > 0);
    };
    deliveries.set('read', pump(work, LOOK, failing('reading')));
  }
  const timers = pump(() => tick(on.store, on.now(), on.take), LOOK, failing('timers'));
  const knowledge = pump(on.refresh, REFRESH, failing('refresh'));
  const all = [...deliveries.values(), timers, knowledge];
  return {
    wake: () => {
      for (const delivery of deliveries.values()) delivery.wake();
    },
    delivered: async channel => deliveries.get(channel)?.pass(),
    stop: async () => {
      await on.look?.stop();
      await Promise.all(all.map(each => each.stop()));
    },
  };
}
