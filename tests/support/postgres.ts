/** A real PostgreSQL server for tests, from npm, and fresh databases in it. */
import { spawn } from 'node:child_process';
import { randomBytes } from 'node:crypto';
import { once } from 'node:events';
import { createInterface } from 'node:readline';
import pg from 'pg';

export interface Postgres {
  address: string;
  /** Ends the server and removes its files. */
  stop(): Promise<void>;
}

/** Ready when it returns; ends with this process at the latest. Needs nothing installed, and works as root too. */
export async function startPostgres(): Promise<Postgres> {
  const keeper = spawn(process.execPath, [new URL('./postgres-keeper.ts', import.meta.url).pathname], {
    stdio: ['pipe', 'pipe', 'inherit'],
  });
  const ended = once(keeper, 'exit');
  const line = once(createInterface(keeper.stdout), 'line') as Promise<[string]>;
  const address = await Promise.race([
    line.then(([text]) => text),
    ended.then(([status]) => {
      throw new Error(`the test server of PostgreSQL did not start (exit status ${status})`);
    }),
  ]);
  return {
    address,
    async stop() {
      keeper.stdin.end();
      await ended;
    },
  };
}

/** A new empty database on the server at `address`; returns its own address. */
export async function freshDatabase(address: string): Promise<string> {
  const name = `test_${randomBytes(8).toString('hex')}`;
  const client = new pg.Client(address);
  await client.connect();
  await client.query(`create database ${name}`);
  await client.end();
  const url = new URL(address);
  url.pathname = `/${name}`;
  return url.href;
}
