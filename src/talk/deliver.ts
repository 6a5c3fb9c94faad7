/** After the commit: what is to go out goes out, lane by lane, in order, at least once. */
import type { Channel, Sent } from '#channels/channel.ts';
import type { Outgoing, Store } from '#store/store.ts';
import type { Inbound } from './inbound.ts';

export interface Delivering {
  store: Store;
  /** Channels of this process. Lanes of others wait for theirs. */
  channels: Channel[];
  /** Takes an inbound for another conversation. */
  take(inbound: Inbound): Promise<unknown>;
  now(): number;
  /** Names this process on the leases that it holds. */
  owner: string;
  /** Lanes beginning so are this process's; one prefix per channel unless given. */
  lanes?: string[];
  /** Milliseconds that a lane is held; longer than a sending can take. */
  lease?: number;
  log(event: string, details: Record<string, unknown>): void;
}

const SEND_TIMEOUT = 10_000;
/** Longer than one sending can take: a lane whose process died is free again after this. */
const LEASE = 15_000;
const AT_ONCE = 16;
/** After so many unclear ends a row is marked and lets the next pass. */
const MOST_ATTEMPTS = 12;

/** Sends what is due now and returns how many rows went out. Call again until it returns 0 to drain. */
export async function deliver(on: Delivering): Promise<number> {
  const prefixes = [...(on.lanes ?? on.channels.map(channel => `${channel.id}:`)), 'relay:'];
  const lanes = await on.store.dueLanes(on.now(), AT_ONCE, prefixes);
  const counts = await Promise.all(lanes.map(lane => drainLane(on, lane)));
  return counts.reduce((sum, count) => sum + count, 0);
}

async function drainLane(on: Delivering, lane: string): Promise<number> {
  const { store, owner } = on;
  const { lease = LEASE } = on;
  let sent = 0;
  if (!(await store.lease(lane, owner, on.now(), on.now() + lease))) return 0;
  try {
    for (;;) {
      const row = await store.firstWaiting(lane);
      if (row === null || row.dueAt > on.now()) break;
      // Renewed before every row, so that a slow lane is never taken over in the middle of a sending.
      if (!(await store.lease(lane, owner, on.now(), on.now() + lease))) break;
      if (!(await sendRow(on, row))) break;
      sent += 1;
    }
  } finally {
    await store.release(lane, owner);
  }
  return sent;
}

/** True when the row is out of the way. */
async function sendRow(on: Delivering, row: Outgoing): Promise<boolean> {
  const { store, log } = on;
  const tried = await store.attempt(row, on.now());
  const ended = await attempt(on, row);
  if (ended.ok) {
    await store.sent(tried, ended.ref, ended.at);
    return true;
  }
  if (ended.again && row.attempts + 1 < MOST_ATTEMPTS) {
    await store.postpone(
      tried,
      on.now() + ended.after,
      ended.error,
      ended.unclear ? 'perhaps' : 'surely-not',
    );
    return false;
  }
  log('undeliverable', { row: row.id, lane: row.lane, error: ended.error });
  await store.giveUp(row.id, ended.error, on.now());
  return true;
}

/** `unclear`: it may have gone all the same. */
async function attempt(on: Delivering, row: Outgoing): Promise<Sent & { unclear?: true }> {
  const backOff = Math.min(60_000, 500 * 2 ** row.attempts);
  try {
    if (row.kind === 'relay') {
      await on.take(row.inbound);
      return { ok: true, ref: null, at: on.now() };
    }
    const conversation = await on.store.conversation(row.conversation);
    const channel = on.channels.find(each => each.id === conversation?.address.channel);
    if (conversation === null || channel === undefined) {
      return { ok: false, again: false, error: 'the conversation or its channel is gone' };
    }
    const parcel = {
      row: row.id,
      conversation: row.conversation,
      address: conversation.address,
      messages: row.messages,
    };
    return await channel.send(parcel, AbortSignal.timeout(SEND_TIMEOUT));
  } catch (error) {
    return { ok: false, again: true, after: backOff, error: String(error), unclear: true };
  }
}
