/**
 * Who turns to us where others read along is answered there with a line, and asked in their own chat: it is about somebody's machine
 * and files, and a number to ring. Where Teams lets us have no chat with them, the questions stay in the thread.
 */
import type { Store } from '#store/store.ts';
import type { Adapter } from './adapter.ts';
import { chatOf, personOf } from './inbound.ts';
import type { Incoming } from './incoming.ts';

/** Milliseconds. Teams waits for its answer meanwhile. */
const PATIENCE = 3000;
/** People whose own chat is remembered; it stays the same for ever. */
const MOST = 5000;

/** The same as if it had been said in their own chat; null: it stays where it is. */
export type OwnChats = (incoming: Incoming) => Promise<Incoming | null>;

export function ownChats(
  store: Pick<Store, 'history'>,
  adapter: Pick<Adapter, 'own'>,
  log: (event: string, details: Record<string, unknown>) => void,
): OwnChats {
  const known = new Map<string, string>();
  return async incoming => {
    const { reference } = incoming;
    if (reference.kind === 'personal') return null;
    // What was begun in the thread goes on there.
    const { conversations } = await store.history(chatOf(reference), 1);
    const newest = conversations.at(-1);
    if (newest !== undefined && newest.outcome === null && newest.entries.length > 0) return null;
    const name = `${reference.tenant}:${personOf(reference)}`;
    try {
      const own = known.get(name) ?? (await adapter.own(reference, AbortSignal.timeout(PATIENCE)));
      if (known.size >= MOST) known.clear();
      known.set(name, own);
      return { ...incoming, reference: { ...reference, conversation: own, kind: 'personal', channel: null } };
    } catch (error) {
      log('teams-no-own-chat', { error: String(error) });
      return null;
    }
  };
}
