/** What goes out of a serving process: every chat for itself. */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setTimeout as sleep } from 'node:timers/promises';
import { afterEach, beforeEach, expect, test } from 'vitest';
import { fake } from '#channels/fake/send.ts';
import { openStore } from '#store/open.ts';
import type { Store } from '#store/store.ts';
import { lanes } from '#talk/deliver.ts';
import { at, inTurn, said, sendAll } from '../store/databases.ts';

let folder: string;
let store: Store;
beforeEach(async () => {
  folder = mkdtempSync(join(tmpdir(), 'reseat-lanes-'));
  store = await openStore(join(folder, 'reseat.db'));
});
afterEach(async () => {
  await store.close();
  rmSync(folder, { recursive: true });
});

test('one chat whose sending hangs holds no other up, and is waited for at the end', async () => {
  const channel = fake(() => 10);
  const failures: unknown[] = [];
  let ended = 0;
  let release = () => {};
  const hang = new Promise<void>(resolve => {
    release = resolve;
  });
  for (const chat of ['c1', 'c2']) await inTurn(store, tx => store.openChat(tx, at(`fake:${chat}`), chat, 1));
  await sendAll(store, [said('hangs', 'c1')]);
  channel.next = [
    async () => {
      await hang;
      return { ok: true, ref: 'm', at: 10 };
    },
  ];
  const going = lanes(
    {
      store,
      channels: [channel],
      take: async () => undefined,
      now: () => 10,
      owner: 'us',
      log: () => undefined,
    },
    () => {
      ended += 1;
    },
    error => failures.push(error),
  );
  await going.look();
  expect(going.begun()).toBe(1);
  await sendAll(store, [said('goes', 'c2')]);
  while (channel.parcels.length === 0) {
    await going.look();
    await sleep(5);
  }
  expect(channel.parcels.map(({ conversation }) => conversation)).toEqual(['c2']);
  release();
  await going.settled();
  expect(channel.parcels.map(({ conversation }) => conversation)).toEqual(['c2', 'c1']);
  expect(ended).toBe(2);
  expect(failures).toEqual([]);
});
