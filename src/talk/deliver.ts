/** After the commit: what is to go out goes out, lane by lane, in order, at least once. */
import type { Channel, Drawn, Sent } from '#channels/channel.ts';
import type { PictureRead } from '#engine/entries.ts';
import type { Conversation, NewFile, Outgoing, Store } from '#store/store.ts';
import type { Address, Inbound } from './inbound.ts';

export interface Delivering {
  store: Store;
  /** Channels of this process. Lanes of others wait for theirs. */
  channels: Channel[];
  /** Takes an inbound for another conversation. */
  take(inbound: Inbound): Promise<unknown>;
  now(): number;
  /** Names this process on the leases that it holds. */
  owner: string;
  /** This process's, as `Store.dueLanes` takes them; those of its channels and the relays unless given. */
  lanes?: string[];
  /** Milliseconds that a lane is held; longer than a sending can take. */
  lease?: number;
  /** Looks at pictures. Without it their rows wait for a process that does. */
  look?: Look;
  log(event: string, details: Record<string, unknown>): void;
}

export interface Look {
  /** What a picture shows, and the picture anew where something on it had to be covered. */
  (picture: Pick<NewFile, 'type' | 'content'>): Promise<Looked>;
  /** Breaks off what is being looked at: its row goes out again. */
  stop(): Promise<void>;
}
export interface Looked {
  seen: PictureRead['seen'];
  covered: Pick<NewFile, 'type' | 'content'> | null;
}

const SEND_TIMEOUT = 10_000;
/** Longer than one sending can take: a lane whose process died is free again after this. */
const LEASE = 15_000;
const AT_ONCE = 16;
/** After so many unclear ends a row is marked and lets the next pass. */
const MOST_ATTEMPTS = 12;

/** Sends what is due now and returns how many rows went out. Call again until it returns 0 to drain. */
export async function deliver(on: Delivering): Promise<number> {
  const lanes = await dueLanes(on, AT_ONCE);
  const counts = await Promise.all(lanes.map(lane => drainLane(on, lane)));
  return counts.reduce((sum, count) => sum + count, 0);
}

const dueLanes = (on: Delivering, most: number): Promise<string[]> => {
  const lanes = on.lanes ?? [...on.channels.map(channel => `${channel.id}:`), 'relay:'];
  return on.store.dueLanes(on.now(), most, lanes);
};

/** Lanes on their way, each for itself: one that hangs holds no other up. */
export interface Lanes {
  /** Sets out with what is due now; resolves when it is on its way. */
  look(): Promise<void>;
  /** Resolves when what was on its way by now has gone, or has failed to. */
  settled(): Promise<void>;
  /** Grows with every lane set out with, and where there was no room to look. */
  begun(): number;
}

/** @param ended called after every lane: there is room for another. */
export function lanes(on: Delivering, ended: () => void, failed: (error: unknown) => void): Lanes {
  const going = new Map<string, Promise<void>>();
  let begun = 0;
  const go = async (lane: string) => {
    try {
      await drainLane(on, lane);
    } catch (error) {
      failed(error);
    }
    going.delete(lane);
    ended();
  };
  return {
    async look() {
      if (going.size >= AT_ONCE) {
        begun += 1;
        return;
      }
      for (const lane of await dueLanes(on, AT_ONCE - going.size)) {
        if (going.has(lane)) continue;
        going.set(lane, go(lane));
        begun += 1;
      }
    },
    settled: async () => {
      await Promise.all(going.values());
    },
    begun: () => begun,
  };
}

async function drainLane(on: Delivering, lane: string): Promise<number> {
  const { store, owner } = on;
  const { lease = LEASE } = on;
  let sent = 0;
  let since = on.now();
  if (!(await store.lease(lane, owner, since, since + lease))) return 0;
  try {
    for (;;) {
      const row = await store.firstWaiting(lane);
      if (row === null || row.dueAt > on.now()) break;
      // Renewed in good time, so that a slow lane is never taken over in the middle of a sending.
      if (on.now() - since > (lease - SEND_TIMEOUT) / 2) {
        since = on.now();
        if (!(await store.lease(lane, owner, since, since + lease))) break;
      }
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
  if (ended.again && (ended.patient || row.attempts + 1 < MOST_ATTEMPTS)) {
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
    if (row.kind === 'read') return await readPicture(on, row);
    const signal = AbortSignal.timeout(SEND_TIMEOUT);
    if (row.kind === 'ticket') return await showTicket(on, row, signal);
    const conversation = await on.store.conversation(row.conversation);
    const channel = on.channels.find(each => each.id === conversation?.address.channel);
    if (conversation === null || channel === undefined) {
      return { ok: false, again: false, error: 'the conversation or its channel is gone' };
    }
    if (row.kind === 'fetch') return await fetchFile(on, row, conversation.address, channel, signal);
    const drawn = await drawnBefore(on, row, conversation);
    const { address } = conversation;
    const parcel = {
      row: row.id,
      conversation: row.conversation,
      address,
      messages: row.messages,
      before: drawn,
    };
    const sent = await channel.send(parcel, signal);
    if (sent.ok && drawn !== null) await on.store.redrawn(drawn.id);
    return sent;
  } catch (error) {
    return { ok: false, again: true, after: backOff, error: String(error), unclear: true };
  }
}

/** The question before, once it is over: answered, followed by another, or its conversation has ended. */
async function drawnBefore(
  { store }: Delivering,
  row: Extract<Outgoing, { kind: 'messages' }>,
  { entries, outcome }: Conversation,
): Promise<(Drawn & { id: number }) | null> {
  const drawn = await store.drawn(row.conversation, row.id);
  if (drawn === null) return null;
  const answer = entries.findLast(entry => entry.kind === 'answer' && entry.question === drawn.question);
  const chosen = answer?.kind === 'answer' ? answer.words : null;
  return chosen === null && row.question === null && outcome === null ? null : { ...drawn, chosen };
}

/** What was fetched, or cannot be, comes back as an inbound. */
async function fetchFile(
  on: Delivering,
  { file, identity, attempts }: Extract<Outgoing, { kind: 'fetch' }>,
  address: Address,
  channel: Channel,
  signal: AbortSignal,
): Promise<Sent> {
  const { name } = file;
  const fetched = (await channel.fetch?.(file, address, signal)) ?? UNFETCHED;
  const base = { identity, at: on.now(), address };
  if (fetched.ok)
    await on.take({ ...base, kind: 'file', name, type: fetched.type, content: fetched.content });
  else if ('again' in fetched && attempts + 1 < MOST_ATTEMPTS) return fetched;
  else
    await on.take({
      ...base,
      kind: 'file-refused',
      name,
      why: 'again' in fetched ? UNFETCHED.refused : fetched.refused,
    });
  return { ok: true, ref: null, at: on.now() };
}

const UNFETCHED = { ok: false, refused: 'I could not fetch that. Please send it again.' } as const;

/** One that shows nothing is met with silence. */
async function readPicture(
  on: Delivering,
  { conversation, file }: Extract<Outgoing, { kind: 'read' }>,
): Promise<Sent> {
  const kept = await on.store.file(file);
  if (kept === null || on.look === undefined)
    return { ok: false, again: false, error: 'the picture or whoever looks at it is gone' };
  const { seen, covered } = await on.look(kept);
  const about = covered && { type: covered.type, bytes: covered.content.byteLength };
  const identity = `read:${file}`;
  if (seen !== null || about !== null)
    await on.take({ kind: 'read', identity, at: on.now(), conversation, file, seen, covered: about });
  // After the turn, and again if it fails: looked at once it is covered, it would show no secret, and nobody would be told.
  if (covered !== null) await on.store.coverFile(file, covered);
  return { ok: true, ref: null, at: on.now() };
}

async function showTicket(
  on: Delivering,
  row: Extract<Outgoing, { kind: 'ticket' }>,
  signal: AbortSignal,
): Promise<Sent> {
  const { id, lane, conversation: of, from, to } = row;
  const number = (await on.store.conversation(of))?.number ?? null;
  const ticket = number === null ? null : await on.store.ticket(number);
  const channel = on.channels.find(each => lane.startsWith(`${each.id}:`));
  if (ticket === null || channel?.show === undefined)
    return { ok: false, again: false, error: 'the ticket or the place that shows it is gone' };
  const fresh = ticket.life.slice(from, to);
  const ref = await on.store.cardRef(lane, of);
  const again = row.attempts > 0;
  return channel.show({ row: id, lane, conversation: of, ticket, ref, fresh, again }, signal);
}
