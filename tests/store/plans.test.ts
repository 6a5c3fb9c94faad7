/** What went out years ago costs nothing today: the queries that run all the time look at their indexes alone. */
import { CompiledQuery, type KyselyPlugin, sql } from 'kysely';
import { expect, test } from 'vitest';
import { conversations } from '#store/conversations.ts';
import { outgoing } from '#store/outgoing.ts';
import { openPostgres } from '#store/postgres.ts';
import type { Database } from '#store/schema.ts';
import { openSqlite } from '#store/sqlite.ts';
import { tickets } from '#store/tickets.ts';
import { onEveryDatabase, said, sendAll } from './databases.ts';

const HISTORY = 20_000;

/** Numbers 1 to n as a table, in either dialect. */
const upTo = (n: number) =>
  sql.raw(`with recursive n(i) as (select 1 union all select i + 1 from n where i < ${n})`);

async function liveLong({ kind, db }: Database): Promise<void> {
  await sql`insert into outgoing (lane, conversation, kind, body, due_at, created_at, attempts, dead, settled_at)
    ${upTo(HISTORY)} select 'fake:c' || (i % 500), 'c', 'messages', '[]', i, i, 1, 0, i from n`.execute(db);
  await sql`insert into conversations (id, chat, current, version, address, entries, outcome, ticket, asked_number, asked_at, opened_at, heard_at)
    ${upTo(HISTORY)} select 'old' || i, 'fake:c' || (i % 500), 0, 1, '{}', '[]', 'left', 0, 0, 0, i, i from n`.execute(
    db,
  );
  await sql`insert into tickets (number, conversation, chat, status, priority, rank, ticket, life, opened_at, updated_at)
    ${upTo(HISTORY)} select i, 'old' || i, 'fake:c' || (i % 500), 'closed', 'low', 3, '{}', '[]', i, i from n`.execute(
    db,
  );
  // PostgreSQL does this by itself after a while; SQLite never does.
  if (kind === 'postgres') await sql`analyze`.execute(db);
}

/** Each line of the plans that the database makes for the queries of `work`. */
async function plansOf({ kind, db }: Database, work: (spied: Database) => Promise<unknown>) {
  const asked: CompiledQuery[] = [];
  const spy: KyselyPlugin = {
    transformQuery({ node, queryId }) {
      asked.push(db.getExecutor().compileQuery(node, queryId));
      return node;
    },
    transformResult: async ({ result }) => result,
  };
  await work({ kind, db: db.withPlugin(spy), isTransient: () => false });
  const lines: string[] = [];
  for (const query of asked) {
    const explain = kind === 'sqlite' ? 'explain query plan ' : 'explain ';
    const { rows } = await db.executeQuery<Record<string, string>>(
      CompiledQuery.raw(explain + query.sql, [...query.parameters]),
    );
    lines.push(...rows.map(row => row.detail ?? row['QUERY PLAN'] ?? ''));
  }
  return lines;
}

/** A line that goes through a whole table: no index, or the one over every row ever. */
const WHOLE =
  /^(?!.*(outgoing_waiting|conversations_due|conversations_open)).*(SCAN (row|earlier|outgoing|conversations|tickets)\b|(Seq Scan|Scan using \w+_pkey) on (outgoing|conversations|tickets)\b)/;

onEveryDatabase(given => {
  test('deliveries, timers and lists look at no row that is done with', async () => {
    const store = await given.open();
    const where = given.where();
    const database = where.startsWith('postgres') ? openPostgres(where) : await openSqlite(where);
    await liveLong(database);
    await sendAll(store, [said('one'), said('two'), said('aside', 'c2')]);
    const lines = await plansOf(database, async spied => {
      const out = outgoing(spied);
      expect(await out.dueLanes(10, 16, ['fake:', 'relay:'])).toEqual(['fake:c1', 'fake:c2']);
      await out.firstWaiting('fake:c1');
      await conversations(spied).dueConversations(10, 16);
      await conversations(spied).currentOf('fake:c1');
      await conversations(spied).scriptsInUse();
      await tickets(spied).tickets({ status: ['open', 'taken', 'waiting'] });
    });
    expect(lines.length).toBeGreaterThan(6);
    expect(lines.filter(line => WHOLE.test(line))).toEqual([]);
    await database.db.destroy();
  });
});
