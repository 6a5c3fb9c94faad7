/** One turn: one happening, one transaction, one conversation with its ticket. The only file that opens a transaction. */

import type { Store, Tx } from '#store/store.ts';
import { decide } from './decide.ts';
import type { Before } from './draft.ts';
import type { Inbound } from './inbound.ts';
import type { Knowledge } from './knowledge.ts';
import { beginsNew } from './route.ts';

export interface Turning {
  store: Store;
  /** Read anew for every turn, so that a reload counts from the next one. */
  knowledge(): Knowledge;
  now(): number;
  /** An id that nothing else has. */
  id(): string;
  /** Called after every commit. */
  wake(): void;
  sleep(milliseconds: number): Promise<void>;
}

/** What became of an inbound. `refused`: the desk's action made no sense, and why. */
export type Turned =
  | { kind: 'known' }
  | { kind: 'gone' }
  | { kind: 'done'; conversation: string; number: number | null }
  | { kind: 'refused'; why: string };

const ATTEMPTS = 8;

/** Takes one inbound. Returns only after the commit: acknowledge after this, never before. Rejects when it was not committed. */
export async function turn(turning: Turning, inbound: Inbound): Promise<Turned> {
  try {
    return await transact(turning, tx => inside(turning, tx, inbound));
  } catch (error) {
    if (error instanceof Refused) return { kind: 'refused', why: error.message };
    throw error;
  }
}

/** Runs `work` in one transaction, again where the database was only busy, and wakes the delivery after the commit. */
export async function transact<T>(turning: Turning, work: (tx: Tx) => Promise<T>): Promise<T> {
  for (let attempt = 1; ; attempt++) {
    try {
      const done = await turning.store.transaction(work);
      turning.wake();
      return done;
    } catch (error) {
      if (attempt === ATTEMPTS || !turning.store.isTransient(error)) throw error;
      await turning.sleep(20 * 2 ** attempt);
    }
  }
}

/** Thrown to roll back: a refused action leaves no trace, not even its identity. */
class Refused extends Error {}

async function inside(turning: Turning, tx: Tx, inbound: Inbound): Promise<Turned> {
  const { store } = turning;
  const now = turning.now();
  if (!(await store.remember(tx, inbound.identity, now))) return { kind: 'known' };
  let conversation =
    'address' in inbound
      ? await store.openChat(tx, inbound.address, turning.id(), now)
      : await store.lockConversation(tx, inbound.conversation);
  if (conversation === null) return { kind: 'gone' };
  const knowledge = turning.knowledge();
  let before = await load(store, knowledge, tx, conversation);
  if (beginsNew(knowledge, before, inbound, now)) {
    await store.change(tx, conversation.id, { current: false, dueAt: null, dueKind: null });
    conversation = await store.begin(tx, before.conversation.address, turning.id(), now);
    before = { conversation, script: null, ticket: null, openTicket: before.openTicket };
  }
  if (conversation.number === null && inbound.kind !== 'arrived') {
    conversation.number = await store.nextNumber(tx);
  }
  const decision = decide(knowledge, before, inbound, now, turning.id());
  if (decision.refused !== null) throw new Refused(decision.refused);
  if (decision.script !== null) await store.keepScript(tx, decision.script.hash, decision.script.script, now);
  await store.change(tx, conversation.id, { ...decision.change, number: conversation.number });
  if (decision.file !== null) await store.keepFile(tx, conversation.id, decision.file, now);
  if (decision.ticket !== null) await store.saveTicket(tx, decision.ticket);
  if (decision.outgoing.length > 0) await store.send(tx, decision.outgoing, now);
  return { kind: 'done', conversation: conversation.id, number: conversation.number };
}

async function load(
  store: Store,
  knowledge: Knowledge,
  tx: Tx,
  conversation: Before['conversation'],
): Promise<Before> {
  const { script: hash, ticket, number, outcome, chat, entries } = conversation;
  const todays = Object.values(knowledge.flows).find(flow => flow.hash === hash);
  return {
    conversation,
    // A script of today is in memory; an older one was kept when its conversation began.
    script: todays?.script ?? (hash === null ? null : await store.script(hash, tx)),
    ticket: ticket && number !== null ? await store.ticket(number, tx) : null,
    // Only words after an outcome, or a first hello, can concern an older ticket.
    openTicket: outcome !== null || entries.length === 0 ? await store.openTicketOf(tx, chat) : null,
  };
}
