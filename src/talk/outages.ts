/** One cause, many reports: declared and ended by the desk, told to everybody it concerns. */
import type { NewOutgoing, Outage } from '#store/store.ts';
import { type Turning, transact } from './turn.ts';

export async function declareOutage(turning: Turning, outage: Outage): Promise<number> {
  return announce(turning, outage, { kind: 'outage', outage: outage.id, text: outage.text });
}

/** Ends it and tells those who were told of it. Returns how many, or null when it is not open. */
export async function endOutage(turning: Turning, id: string, by: string): Promise<number | null> {
  const outage = (await turning.store.outages({ open: true })).find(each => each.id === id);
  if (outage === undefined) return null;
  const ended = { ...outage, endedAt: turning.now() };
  return announce(turning, ended, {
    kind: 'outage-over',
    outage: id,
    text: outage.text,
    by,
  });
}

type News =
  | { kind: 'outage'; outage: string; text: string }
  | { kind: 'outage-over'; outage: string; text: string; by: string };

/** What concerns many becomes an inbound for each, all in the transaction that makes it so. */
async function announce(turning: Turning, outage: Outage, news: News): Promise<number> {
  const { store } = turning;
  const now = turning.now();
  return transact(turning, async tx => {
    // First the outage, then who is concerned: a report that comes in between sees the one or is seen by the other.
    await store.saveOutage(tx, outage);
    const concerned = await store.conversationsFor(outage, tx);
    const rows = concerned.map(
      (conversation): NewOutgoing => ({
        kind: 'relay',
        lane: `relay:${conversation}`,
        conversation,
        dueAt: now,
        inbound: { ...news, identity: `${news.kind}:${outage.id}:${conversation}`, at: now, conversation },
      }),
    );
    if (rows.length > 0) await store.send(tx, rows, now);
    return concerned.length;
  });
}
