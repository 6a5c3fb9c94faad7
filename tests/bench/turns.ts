/** Durable turns a second through talk, against bare durable inserts into the same kind of file in the same run. */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import Sqlite from 'better-sqlite3';
import { fake } from '#channels/fake/send.ts';
import { isQuestion, type Question } from '#engine/messages.ts';
import type { Inbound } from '#talk/inbound.ts';
import { wiring } from '../support/wiring.ts';
import { median, say } from './figures.ts';

const TURNS = 1500;
const ROUNDS = 5;

export async function turns(): Promise<void> {
  const folder = mkdtempSync(join(tmpdir(), 'reseat-bench-'));
  const ratios: number[] = [];
  const rates: number[] = [];
  const bare: number[] = [];
  for (let round = 0; round < ROUNDS; round++) {
    const inserts = inserted(join(folder, `bare-${round}.db`));
    const turned = await talked(join(folder, `talk-${round}.db`));
    bare.push(inserts);
    rates.push(turned);
    ratios.push(turned / inserts);
  }
  rmSync(folder, { recursive: true });
  say(
    'durable turns a second, SQLite',
    `${Math.round(median(rates))}, bare durable inserts ${Math.round(median(bare))}: ratio ${median(ratios).toFixed(2)}`,
  );
}

/** Committed one by one, as durable as a turn: WAL, synced at every commit. */
function inserted(file: string): number {
  const db = new Sqlite(file);
  db.pragma('journal_mode = WAL');
  db.pragma('synchronous = FULL');
  db.exec('create table rows (id integer primary key, body text)');
  const insert = db.prepare('insert into rows (body) values (?)');
  const body = 'x'.repeat(2000);
  const started = performance.now();
  for (let count = 0; count < TURNS; count++) insert.run(body);
  const rate = (TURNS * 1000) / (performance.now() - started);
  db.close();
  return rate;
}

async function talked(file: string): Promise<number> {
  let clock = 1_000_000;
  let ids = 0;
  const channel = fake(() => clock);
  const wired = await wiring({
    database: file,
    channels: [channel],
    now: () => clock++,
    id: () => `id${ids++}`,
  });
  let spent = 0;
  let count = 0;
  for (let person = 0; count < TURNS; person++) {
    const address = {
      channel: 'fake',
      chat: `fake:${person}`,
      to: {},
      person: { id: 'p', name: null, mail: null },
    };
    let inbound: Inbound | null = {
      kind: 'text',
      identity: `${person}:0`,
      at: clock,
      address,
      text: 'no bootable device found',
    };
    for (let turn = 1; inbound !== null && count < TURNS; turn++) {
      const started = performance.now();
      await wired.take(inbound);
      spent += performance.now() - started;
      count += 1;
      await wired.drain();
      const parcel = channel.parcels.splice(0).at(-1);
      const question: Question | undefined = parcel?.messages.findLast(isQuestion);
      inbound = null;
      if (parcel === undefined || question === undefined) continue;
      const base = { identity: `${person}:${turn}`, at: clock, address };
      const answer = question.answers.at(-1)?.id;
      inbound =
        answer === undefined
          ? { ...base, kind: 'text', text: 'some words' }
          : { ...base, kind: 'press', conversation: parcel.conversation, question: question.number, answer };
    }
  }
  await wired.close();
  return (count * 1000) / spent;
}
