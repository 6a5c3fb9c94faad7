/** Due timers become inbounds like everything else. */
import type { Store } from '#store/store.ts';
import type { Inbound } from './inbound.ts';

/** Takes every timer due by now; returns how many. */
export async function tick(
  store: Store,
  now: number,
  take: (inbound: Inbound) => Promise<unknown>,
): Promise<number> {
  const due = await store.dueConversations(now, 100);
  for (const { id, version, dueKind } of due) {
    if (dueKind === null) continue;
    await take({
      kind: 'timer',
      what: dueKind,
      identity: `timer:${id}:${version}:${dueKind}`,
      at: now,
      conversation: id,
    });
  }
  return due.length;
}
