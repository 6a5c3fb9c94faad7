/** SQLite through better-sqlite3: one connection a process, write-ahead log, every commit on the disk before it returns. */
import { mkdirSync } from 'node:fs';
import { dirname, resolve } from 'node:path';
import { setTimeout as sleep } from 'node:timers/promises';
import Sqlite from 'better-sqlite3';
import type { CompiledQuery, DatabaseConnection, Driver, QueryResult } from 'kysely';
import { Kysely, SqliteDialect } from 'kysely';
import type { Database, Schema } from './schema.ts';

/** How long to wait for another process that is writing, in milliseconds. */
const PATIENCE = 2000;
/** Query texts are few, but lists inside them vary in length. */
const MOST_PREPARED = 500;

/** @param file a path, whose folder is created, or `:memory:`. Throws what the file system or SQLite says. */
export async function openSqlite(file: string): Promise<Database> {
  // People's words are in there: a new folder is for this user only.
  if (file !== ':memory:') mkdirSync(dirname(resolve(file)), { recursive: true, mode: 0o700 });
  // SQLite's own waiting would stop the whole process; `patiently` waits in its place.
  const sqlite = new Sqlite(file, { timeout: 0 });
  try {
    await patiently(() => sqlite.pragma('journal_mode = wal'));
    sqlite.pragma('synchronous = full');
    // A picture that was covered, or a link that was withdrawn, is not to be found in free pages.
    sqlite.pragma('secure_delete = on');
  } catch (error) {
    sqlite.close();
    throw error;
  }
  return { kind: 'sqlite', db: new Kysely<Schema>({ dialect: new Dialect(sqlite) }), isTransient };
}

function isTransient(error: unknown): boolean {
  return error instanceof Sqlite.SqliteError && /^SQLITE_(BUSY|LOCKED)/.test(error.code);
}

/** Tries again while another process holds the write lock. A statement that was refused so has done nothing. */
async function patiently<T>(work: () => T): Promise<T> {
  const end = performance.now() + PATIENCE;
  for (;;) {
    try {
      return work();
    } catch (error) {
      if (!isTransient(error) || performance.now() > end) throw error;
    }
    await sleep(1 + Math.random() * 9);
  }
}

class Dialect extends SqliteDialect {
  readonly #sqlite: Sqlite.Database;
  constructor(sqlite: Sqlite.Database) {
    super({ database: sqlite });
    this.#sqlite = sqlite;
  }
  override createDriver(): Driver {
    const connection = new Connection(this.#sqlite);
    return {
      init: async () => {},
      acquireConnection: async () => connection,
      // The write lock at once: a turn that read first and wrote later could not go on beside another process.
      beginTransaction: () => connection.run('begin immediate'),
      commitTransaction: () => connection.run('commit'),
      // A full disk makes SQLite roll back by itself.
      rollbackTransaction: async () => {
        if (this.#sqlite.inTransaction) await connection.run('rollback');
      },
      releaseConnection: async () => {},
      destroy: async () => {
        this.#sqlite.close();
      },
    };
  }
}

class Connection implements DatabaseConnection {
  readonly #sqlite: Sqlite.Database;
  readonly #prepared = new Map<string, Sqlite.Statement>();

  constructor(sqlite: Sqlite.Database) {
    this.#sqlite = sqlite;
  }

  async run(sql: string): Promise<void> {
    await patiently(() => this.#prepare(sql).run());
  }

  executeQuery<R>({ sql, parameters }: CompiledQuery): Promise<QueryResult<R>> {
    return patiently(() => {
      const statement = this.#prepare(sql);
      if (statement.reader) return { rows: statement.all(parameters) as R[] };
      const { changes } = statement.run(parameters);
      return { rows: [], numAffectedRows: BigInt(changes) };
    });
  }

  /** Kysely asks for this method; nothing here streams. */
  streamQuery(): AsyncIterableIterator<never> {
    throw new Error('the store reads whole answers only');
  }

  #prepare(sql: string): Sqlite.Statement {
    let statement = this.#prepared.get(sql);
    if (!statement) {
      if (this.#prepared.size >= MOST_PREPARED) this.#prepared.clear();
      statement = this.#sqlite.prepare(sql);
      this.#prepared.set(sql, statement);
    }
    return statement;
  }
}
