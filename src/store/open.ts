/** Opens the database and hands out the one `Store` that the rest of Reseat sees. */
import { sql } from 'kysely';
import { UserError } from '#errors.ts';
import { conversations } from './conversations.ts';
import { files } from './files.ts';
import { isFull } from './full.ts';
import { history } from './history.ts';
import { links } from './links.ts';
import { migrate } from './migrations.ts';
import { outages } from './outages.ts';
import { outgoing } from './outgoing.ts';
import { openPostgres } from './postgres.ts';
import { proofs } from './proofs.ts';
import type { Database } from './schema.ts';
import { asTx } from './schema.ts';
import { openSqlite } from './sqlite.ts';
import type { Store } from './store.ts';
import { tickets } from './tickets.ts';

/**
 * @param where a file's path (its folder is created), `:memory:`, or a `postgres://` or `postgresql://` address.
 * The database is brought up to date first. Throws a UserError that says what to do when it cannot be opened.
 */
export async function openStore(where: string): Promise<Store> {
  const database = await opened(where);
  const { db, isTransient } = database;
  return {
    isTransient,
    isFull,
    async transaction(work) {
      let failed: { cause: unknown } | undefined;
      try {
        return await db
          .transaction()
          .setIsolationLevel('read committed')
          .execute(async transaction => {
            try {
              return await work(asTx(transaction));
            } catch (cause) {
              failed = { cause };
              throw cause;
            }
          });
      } catch (error) {
        // Rolling back on a connection that is gone fails too; what counts is why.
        throw failed ? failed.cause : error;
      }
    },
    ...conversations(database),
    ...files(database),
    ...outgoing(database),
    ...tickets(database),
    ...outages(database),
    ...history(database),
    ...links(database),
    ...proofs(database),
    counts: () => counts(database),
    close: () => db.destroy(),
  };
}

async function opened(where: string): Promise<Database> {
  const postgres = /^postgres(ql)?:\/\//i.test(where);
  if (!where.trim() || (!postgres && /^[a-z][a-z0-9+.-]*:\/\//i.test(where)))
    throw new UserError(
      `The database is given as "${hidden(where)}": give a file's path, or an address that begins with postgres://.`,
    );
  let database: Database | undefined;
  try {
    database = postgres ? openPostgres(where) : await openSqlite(where);
    await migrate(database);
    return database;
  } catch (error) {
    await database?.db.destroy();
    throw new UserError(
      error instanceof UserError
        ? `The database ${hidden(where)} ${error.message}.`
        : `The database ${hidden(where)} cannot be opened (${why(error)}): check RESEAT_DATABASE, and that ${
            postgres ? 'the server runs and lets this user create tables' : 'this user may write there'
          }.`,
      { cause: error },
    );
  }
}

/** Without the password, and without the parameters, which may hold one. */
const hidden = (where: string) =>
  where.replace(/(:\/\/[^/@:]*:).*@/, '$1...@').replace(/(:\/\/.*)\?.*/, '$1');

/** A refused connection to a name with several addresses has no message of its own. */
const why = (error: unknown) =>
  error instanceof Error ? error.message || String((error as { code?: unknown }).code) : String(error);

async function counts({ db }: Database): ReturnType<Store['counts']> {
  const { rows } = await sql<Awaited<ReturnType<Store['counts']>>>`select
    (select count(*) from conversations) as conversations,
    (select count(*) from conversations where outcome is null and current = 1) as open,
    (select count(*) from tickets) as tickets,
    (select count(*) from outgoing where settled_at is null) as waiting,
    (select count(*) from outgoing where dead = 1) as dead`.execute(db);
  return rows[0]!;
}
