/** What holds on SQLite alone. */
import { mkdtempSync, rmSync, statSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import Sqlite from 'better-sqlite3';
import { sql } from 'kysely';
import { afterEach, beforeEach, expect, test } from 'vitest';
import { openStore } from '#store/open.ts';
import { openSqlite } from '#store/sqlite.ts';
import { at } from './databases.ts';

let folder: string;
let file: string;
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'reseat-sqlite-'));
  file = join(folder, 'data', 'reseat.db');
});
afterEach(() => rmSync(folder, { recursive: true }));

test('every commit is on the disk before it counts, and readers do not wait for writers', async () => {
  const { db } = await openSqlite(file);
  const read = async (name: string) => (await sql.raw(`pragma ${name}`).execute(db)).rows[0];
  expect(await read('journal_mode')).toEqual({ journal_mode: 'wal' });
  // 2 is FULL (SQLite manual, "PRAGMA synchronous").
  expect(await read('synchronous')).toEqual({ synchronous: 2 });
  await db.destroy();
});

test('a new folder is for its owner only', async () => {
  const store = await openStore(file);
  expect(statSync(join(folder, 'data')).mode & 0o777).toBe(0o700);
  await store.close();
});

test('a turn waits for another process that is writing', async () => {
  const store = await openStore(file);
  const other = new Sqlite(file);
  other.exec('begin immediate');
  const conversation = store.transaction(tx => store.openChat(tx, at('fake:a'), 'c1', 1));
  await new Promise(resolve => setImmediate(resolve));
  other.exec('commit');
  expect(await conversation).toMatchObject({ id: 'c1', version: 1 });
  other.close();
  await store.close();
});

test('a turn that waited too long is told that trying again may help', async () => {
  const store = await openStore(file);
  const other = new Sqlite(file);
  other.exec('begin immediate');
  const refused: unknown = await store.transaction(async () => 'never').catch(error => error);
  expect(refused).toMatchObject({ code: 'SQLITE_BUSY' });
  expect(store.isTransient(refused)).toBe(true);
  other.exec('commit');
  expect(await store.transaction(async () => 'now')).toBe('now');
  other.close();
  await store.close();
});

test('trying again does not help against what is wrong', async () => {
  const store = await openStore(file);
  await store.transaction(tx => store.openChat(tx, at('fake:a'), 'c1', 1));
  const refused: unknown = await store
    .transaction(tx => store.begin(tx, at('fake:a'), 'c2', 1))
    .catch(error => error);
  expect(refused).toMatchObject({ code: 'SQLITE_CONSTRAINT_UNIQUE' });
  expect(store.isTransient(refused)).toBe(false);
  await store.close();
});

test('a database in memory works like a file', async () => {
  const store = await openStore(':memory:');
  expect(await store.transaction(tx => store.nextNumber(tx))).toBe(1001);
  await store.close();
});
