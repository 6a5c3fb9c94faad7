/** Brings a database up to date when it is opened. Steps are only ever added at the end; a step that was released never changes. */
import { sql } from 'kysely';
import { UserError } from '#errors.ts';
import type { Database, Db } from './schema.ts';

/** Any number that nothing else in the same database takes as an advisory lock. */
const LOCK = 7_237_328;

/** What the two databases call differently. `id`: a key that counts up by itself. */
const TYPES = {
  sqlite: { id: 'integer primary key autoincrement', bytes: 'blob' },
  postgres: { id: 'bigint primary key generated always as identity', bytes: 'bytea' },
};

/** Statements of each step, the first being number 1. */
const steps: ((types: (typeof TYPES)[Database['kind']]) => string[])[] = [
  ({ id }) => [
    `create table conversations (
      id text primary key, chat text not null, current integer not null, version integer not null,
      number bigint unique, address text not null, script text, symptom text, entries text not null,
      outcome text, fault text, ticket integer not null, outage text,
      asked_number integer not null, asked_at bigint not null, due_at bigint, due_kind text,
      opened_at bigint not null, heard_at bigint not null)`,
    'create unique index conversations_current on conversations (chat) where current = 1',
    'create index conversations_due on conversations (due_at) where due_at is not null',
    'create index conversations_open on conversations (symptom) where outcome is null',
    'create index conversations_outage on conversations (outage) where outage is not null',

    'create table scripts (hash text primary key, script text not null, kept_at bigint not null)',
    'create table seen (identity text primary key, at bigint not null)',

    `create table outgoing (
      id ${id}, lane text not null, conversation text not null, kind text not null, body text not null,
      question integer, due_at bigint not null, created_at bigint not null,
      attempts integer not null, attempted_at bigint, error text,
      settled_at bigint, dead integer not null, ref text)`,
    'create index outgoing_waiting on outgoing (lane, id) where settled_at is null',
    'create index outgoing_dead on outgoing (id) where dead = 1',
    'create table leases (lane text primary key, owner text not null, until bigint not null)',

    `create table tickets (
      number bigint primary key, conversation text not null, chat text not null,
      status text not null, priority text not null, rank integer not null, symptom text, site text,
      taken_by text, fault text, outage text, ticket text not null, life text not null,
      opened_at bigint not null, updated_at bigint not null)`,
    'create index tickets_list on tickets (status, rank, opened_at)',
    'create index tickets_chat on tickets (chat)',
    `create index tickets_confirmed on tickets (symptom, fault) where status = 'closed'`,

    `create table outages (
      id text primary key, symptom text not null, site text, text text not null,
      declared_by text not null, declared_at bigint not null, ended_at bigint)`,
    'create table counters (name text primary key, value bigint not null)',
  ],

  ({ bytes }) => [
    `create table attachments (
      id text primary key, conversation text not null, name text not null, type text not null,
      bytes ${bytes} not null, kept_at bigint not null)`,
  ],

  () => [
    'create index conversations_chat on conversations (chat, opened_at)',
    'create index outgoing_lane on outgoing (lane, id)',
    `create table links (
      hash text primary key, chat text not null, sealed text not null,
      made_at bigint not null, expires_at bigint not null)`,
    'create index links_chat on links (chat, made_at)',
    'create index links_expired on links (expires_at)',
  ],

  () => ['create table proofs (subject text primary key, longest text not null, proven_at bigint not null)'],

  () => ['create index outgoing_refs on outgoing (conversation, id) where ref is not null'],
];

/** One transaction for all steps. Whoever starts at the same moment waits for it and then finds nothing to do. */
export async function migrate({ db, kind }: Database): Promise<void> {
  await db.transaction().execute(async tx => {
    if (kind === 'postgres') await sql`select pg_advisory_xact_lock(${LOCK})`.execute(tx);
    await run(tx, 'create table if not exists migrations (number integer primary key, at bigint not null)');
    const done = await tx
      .selectFrom('migrations')
      .select('number')
      .orderBy('number', 'desc')
      .executeTakeFirst();
    const from = done?.number ?? 0;
    if (from > steps.length)
      throw new UserError(
        `was last used by a newer Reseat (step ${from}, this one knows ${steps.length}): start that version, or another database`,
      );
    for (const [index, step] of steps.entries()) {
      if (index < from) continue;
      for (const statement of step(TYPES[kind])) await run(tx, statement);
      await tx
        .insertInto('migrations')
        .values({ number: index + 1, at: Date.now() })
        .execute();
    }
  });
}

const run = (db: Db, statement: string) => sql.raw(statement).execute(db);
