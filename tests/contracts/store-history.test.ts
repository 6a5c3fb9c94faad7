/** What a person sees of a chat, and links to it, against every database. */
import { expect, test } from 'vitest';
import type { Store } from '#store/store.ts';
import { at, inTurn, onEveryDatabase, said, sendAll } from '../store/databases.ts';

const chat = at('web:a');
const open = (store: Store, id: string, now: number) =>
  inTurn(store, tx => store.openChat(tx, chat, id, now));

async function sendOne(store: Store, lane: string) {
  const row = await store.firstWaiting(lane);
  if (row === null) throw new Error(`nothing waits in ${lane}`);
  await store.attempt(row, 9);
  await store.sent(row, null, 9);
  return row.id;
}

onEveryDatabase(given => {
  test('a chat nobody wrote in has no history', async () => {
    const store = await given.open();
    expect(await store.history('web:a', 5)).toEqual({ conversations: [], sent: [] });
    expect(await store.newestSent(['web:a'])).toEqual(new Map());
    expect(await store.newestSent([])).toEqual(new Map());
  });

  test('what was sent is shown in its order, what waits is not, and nobody else sees it', async () => {
    const store = await given.open();
    await open(store, 'c1', 1);
    await sendAll(store, [said('one', 'c1', 'web:a'), said('two', 'c1', 'web:a'), said('x', 'c9', 'web:b')]);
    expect((await store.history('web:a', 5)).sent).toEqual([]);
    const first = await sendOne(store, 'web:a');
    const { conversations, sent } = await store.history('web:a', 5);
    expect(conversations.map(({ id }) => id)).toEqual(['c1']);
    expect(sent).toEqual([
      { id: first, conversation: 'c1', messages: [{ kind: 'say', text: 'one' }], question: null, at: 5 },
    ]);
    await sendOne(store, 'web:a');
    const other = await sendOne(store, 'web:b');
    expect((await store.history('web:a', 5)).sent).toHaveLength(2);
    expect(await store.newestSent(['web:a', 'web:b', 'web:c'])).toEqual(
      new Map([
        ['web:a', first + 1],
        ['web:b', other],
      ]),
    );
  });

  test('a row on its way counts as sent: its channel has it', async () => {
    const store = await given.open();
    await open(store, 'c1', 1);
    await sendAll(store, [said('one', 'c1', 'web:a')]);
    await store.attempt((await store.firstWaiting('web:a'))!, 9);
    expect((await store.history('web:a', 5)).sent).toHaveLength(1);
  });

  test('only the newest matters, oldest first', async () => {
    const store = await given.open();
    for (const [index, id] of ['c1', 'c2', 'c3'].entries()) {
      if (index > 0) {
        await inTurn(store, async tx => {
          await store.change(tx, `c${index}`, { current: false });
          await store.begin(tx, chat, id, index + 1);
        });
      } else await open(store, id, 1);
    }
    const { conversations } = await store.history('web:a', 2);
    expect(conversations.map(({ id }) => id)).toEqual(['c2', 'c3']);
  });

  test('a link opens its chat until it expires or is withdrawn', async () => {
    const store = await given.open();
    const link = { hash: 'h1', chat: 'web:a', sealed: 's', madeAt: 10, expiresAt: 20 };
    await store.keepLink(link);
    expect(await store.link('h1', 19)).toEqual(link);
    expect(await store.link('h1', 20)).toBeNull();
    expect(await store.link('h2', 11)).toBeNull();
    await store.keepLink({ ...link, hash: 'h2', madeAt: 12, expiresAt: 40 });
    expect((await store.newestLink('web:a', 15))?.hash).toBe('h2');
    expect(await store.newestLink('web:b', 15)).toBeNull();
    await store.withdrawLinks('web:a');
    expect(await store.newestLink('web:a', 15)).toBeNull();
  });

  test('expired links are cleared away when one is made', async () => {
    const store = await given.open();
    await store.keepLink({ hash: 'h1', chat: 'web:a', sealed: 's', madeAt: 10, expiresAt: 20 });
    await store.keepLink({ hash: 'h2', chat: 'web:a', sealed: 's', madeAt: 30, expiresAt: 40 });
    expect(await store.link('h1', 15)).toBeNull();
  });

  test('what was proven is known to be, and nothing else is', async () => {
    const store = await given.open();
    expect(await store.proof('a')).toBeNull();
    await store.keepProof('a', { 'drive-noise': 12 }, 1);
    await store.keepProof('a', { 'drive-noise': 12 }, 2);
    expect(await store.proof('a')).toEqual({ 'drive-noise': 12 });
    expect(await store.proof('b')).toBeNull();
  });
});
