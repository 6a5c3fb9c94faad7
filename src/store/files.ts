/** Files that came with a conversation. Their bytes stay out of its row, which every turn reads and writes. */
import { plain } from './rows.ts';
import type { Database } from './schema.ts';
import { within } from './schema.ts';
import type { Store } from './store.ts';

export const files = ({ db }: Database) =>
  ({
    async keepFile(tx, conversation, { id, name, type, content }, now) {
      await within(tx)
        .insertInto('attachments')
        .values({ id, conversation, name: plain(name), type: plain(type), bytes: content, kept_at: now })
        .execute();
    },

    async file(id) {
      const row = await db.selectFrom('attachments').selectAll().where('id', '=', id).executeTakeFirst();
      if (!row) return null;
      const { conversation, name, type, bytes } = row;
      return { id, conversation, name, type, content: bytes };
    },

    async coverFile(id, { type, content }) {
      await db
        .updateTable('attachments')
        .set({ type: plain(type), bytes: content })
        .where('id', '=', id)
        .execute();
    },
  }) satisfies Partial<Store>;
