/** Conversations, their scripts and numbers, and the identities of what was taken. */
import { sql } from 'kysely';
import { freshConversation, fromChange, toConversation } from './rows.ts';
import type { Database } from './schema.ts';
import { within } from './schema.ts';
import type { Store } from './store.ts';

/** R-1001 is the first. */
const FIRST_NUMBER = 1001;

/** Written into the query, not bound: only so do both databases see that the index on current conversations fits. */
const YES = sql.lit(1);

export const conversations = ({ db }: Database) =>
  ({
    async remember(tx, identity, at) {
      const row = await within(tx)
        .insertInto('seen')
        .values({ identity, at })
        .onConflict(conflict => conflict.column('identity').doNothing())
        .returning('at')
        .executeTakeFirst();
      return row !== undefined;
    },

    async openChat(tx, address, id, now) {
      const row = await within(tx)
        .insertInto('conversations')
        .values(freshConversation(address, id, now))
        .onConflict(conflict =>
          conflict
            .column('chat')
            .where('current', '=', YES)
            .doUpdateSet(eb => ({
              version: eb('conversations.version', '+', 1),
              address: eb.ref('excluded.address'),
            })),
        )
        .returningAll()
        .executeTakeFirstOrThrow();
      return toConversation(row);
    },

    async lockConversation(tx, id) {
      const row = await within(tx)
        .updateTable('conversations')
        .set(eb => ({ version: eb('version', '+', 1) }))
        .where('id', '=', id)
        .returningAll()
        .executeTakeFirst();
      return row ? toConversation(row) : null;
    },

    async change(tx, id, change) {
      const columns = fromChange(change);
      if (Object.values(columns).every(value => value === undefined)) return;
      const { numUpdatedRows } = await within(tx)
        .updateTable('conversations')
        .set(columns)
        .where('id', '=', id)
        .executeTakeFirst();
      if (numUpdatedRows === 0n) throw new Error(`there is no conversation ${id} to change`);
    },

    async begin(tx, address, id, now) {
      const row = await within(tx)
        .insertInto('conversations')
        .values(freshConversation(address, id, now))
        .returningAll()
        .executeTakeFirstOrThrow();
      return toConversation(row);
    },

    // A row, not a sequence: what is rolled back takes no number.
    async nextNumber(tx) {
      const { value } = await within(tx)
        .insertInto('counters')
        .values({ name: 'conversation', value: FIRST_NUMBER })
        .onConflict(conflict =>
          conflict.column('name').doUpdateSet(eb => ({ value: eb('counters.value', '+', 1) })),
        )
        .returning('value')
        .executeTakeFirstOrThrow();
      return value;
    },

    async keepScript(tx, hash, script, now) {
      const known = await within(tx)
        .selectFrom('scripts')
        .select('hash')
        .where('hash', '=', hash)
        .executeTakeFirst();
      // It is large, and nearly always there.
      if (known !== undefined) return;
      await within(tx)
        .insertInto('scripts')
        .values({ hash, script: JSON.stringify(script), kept_at: now })
        .onConflict(conflict => conflict.column('hash').doNothing())
        .execute();
    },

    async script(hash, tx) {
      const row = await (tx ? within(tx) : db)
        .selectFrom('scripts')
        .select('script')
        .where('hash', '=', hash)
        .executeTakeFirst();
      return row ? JSON.parse(row.script) : null;
    },

    async conversation(id) {
      const row = await db.selectFrom('conversations').selectAll().where('id', '=', id).executeTakeFirst();
      return row ? toConversation(row) : null;
    },

    async currentOf(chat) {
      const row = await db
        .selectFrom('conversations')
        .selectAll()
        .where('chat', '=', chat)
        .where('current', '=', YES)
        .executeTakeFirst();
      return row ? toConversation(row) : null;
    },

    async dueConversations(now, limit) {
      const rows = await db
        .selectFrom('conversations')
        .select(['id', 'version', 'due_kind'])
        .where('due_at', '<=', now)
        .orderBy('due_at')
        .limit(limit)
        .execute();
      return rows.map(row => ({
        id: row.id,
        version: row.version,
        dueKind: row.due_kind as 'nudge' | 'left' | null,
      }));
    },

    async scriptsInUse() {
      const rows = await db
        .selectFrom('conversations')
        .select(['script', 'id'])
        .where('outcome', 'is', null)
        .where('script', 'is not', null)
        .$narrowType<{ script: string }>()
        .orderBy('opened_at')
        .execute();
      const byScript = Map.groupBy(rows, row => row.script);
      return [...byScript].map(([hash, of]) => ({ hash, conversations: of.map(row => row.id) }));
    },
  }) satisfies Partial<Store>;
