/** A database that cannot be opened: one message that says what to do, and gives no secret away. */
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { sql } from 'kysely';
import { afterEach, beforeEach, expect, inject, test } from 'vitest';
import { UserError } from '#errors.ts';
import { openStore } from '#store/open.ts';
import { openSqlite } from '#store/sqlite.ts';

let folder: string;
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'reseat-open-'));
});
afterEach(() => rmSync(folder, { recursive: true }));

async function refusal(where: string): Promise<string> {
  const error: unknown = await openStore(where).catch(cause => cause);
  expect(error).toBeInstanceOf(UserError);
  return (error as Error).message;
}

test.each(['', ' ', 'mysql://host/name'])('neither a path nor an address: "%s"', async where => {
  expect(await refusal(where)).toMatch(/give a file's path, or an address that begins with postgres:\/\//);
});

test('a file that is no database', async () => {
  const file = join(folder, 'letter.txt');
  writeFileSync(file, 'Dear reader, '.repeat(100));
  expect(await refusal(file)).toMatch(/letter\.txt cannot be opened .*check RESEAT_DATABASE/);
});

test('a folder in the place of the file', async () => {
  expect(await refusal(folder)).toMatch(/cannot be opened .*this user may write there/);
});

test('a server that does not answer; its password stays hidden', async () => {
  const message = await refusal('postgres://ada:se:cr@et@127.0.0.1:1/reseat?password=secret');
  expect(message).toMatch(/postgres:\/\/ada:\.\.\.@127\.0\.0\.1:1\/reseat .*ECONNREFUSED.*the server runs/);
  expect(message).not.toMatch(/se:cr|@et|secret/);
});

test('a wrong password', async () => {
  const address = new URL(inject('postgres'));
  address.password = 'wrong-one';
  const message = await refusal(address.href);
  expect(message).toMatch(/password authentication failed/);
  expect(message).not.toContain('wrong-one');
});

test('a database that a newer Reseat has used', async () => {
  const file = join(folder, 'reseat.db');
  await (await openStore(file)).close();
  const { db } = await openSqlite(file);
  await sql`insert into migrations (number, at) values (900, 1)`.execute(db);
  await db.destroy();
  expect(await refusal(file)).toMatch(/was last used by a newer Reseat \(step 900, this one knows \d+\)/);
});
