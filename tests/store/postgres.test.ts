/** What holds on PostgreSQL alone. */
import pg from 'pg';
import { expect, inject, test } from 'vitest';
import { openStore } from '#store/open.ts';
import { freshDatabase } from '../support/postgres.ts';
import { at } from './databases.ts';

test('connections lost in the middle of a turn: it may be tried again, and then succeeds', async () => {
  const where = await freshDatabase(inject('postgres'));
  const store = await openStore(where);
  const client = new pg.Client(where);
  await client.connect();
  const turn = (cut: boolean) =>
    store.transaction(async tx => {
      expect(await store.remember(tx, 'press:1', 1)).toBe(true);
      if (cut)
        await client.query(
          'select pg_terminate_backend(pid) from pg_stat_activity where datname = current_database() and pid <> pg_backend_pid()',
        );
      return await store.openChat(tx, at('fake:a'), 'c1', 1);
    });
  const lost: unknown = await turn(true).catch(error => error);
  expect(store.isTransient(lost), String(lost)).toBe(true);
  expect(await turn(false)).toMatchObject({ id: 'c1', version: 1 });
  await client.end();
  await store.close();
});

test('two turns that wait for each other: one goes through, the other may be tried again', async () => {
  const store = await openStore(await freshDatabase(inject('postgres')));
  for (const id of ['c1', 'c2']) await store.transaction(tx => store.openChat(tx, at(`fake:${id}`), id, 1));
  let held = 0;
  let go: () => void;
  const bothHold = new Promise<void>(resolve => {
    go = resolve;
  });
  const lock = (one: string, then: string) =>
    store.transaction(async tx => {
      await store.lockConversation(tx, one);
      held += 1;
      if (held === 2) go();
      await bothHold;
      return await store.lockConversation(tx, then);
    });
  const ends = await Promise.allSettled([lock('c1', 'c2'), lock('c2', 'c1')]);
  const failed = ends.flatMap(end => (end.status === 'rejected' ? [end.reason] : []));
  expect(failed).toHaveLength(1);
  expect(store.isTransient(failed[0])).toBe(true);
  await store.close();
});

test('trying again does not help against what is wrong', async () => {
  const store = await openStore(await freshDatabase(inject('postgres')));
  await store.transaction(tx => store.openChat(tx, at('fake:a'), 'c1', 1));
  const refused: unknown = await store
    .transaction(tx => store.begin(tx, at('fake:a'), 'c2', 1))
    .catch(error => error);
  // 23505 is unique_violation (PostgreSQL manual, appendix A).
  expect(refused).toMatchObject({ code: '23505' });
  expect(store.isTransient(refused)).toBe(false);
  await store.close();
});
