/** Pictures that people sent, kept with their conversation. */
import { plain } from './rows.ts';
import type { Database } from './schema.ts';
import { within } from './schema.ts';
import type { Store } from './store.ts';

export const files = ({ db }: Database) =>
  ({
    async keepFile(tx, conversation, { id, name, type, content }, now) {
      await within(tx)
        .insertInto('files')
        .values({
          id,
          conversation,
          name: plain(name),
          type: plain(type),
          content: Buffer.from(content).toString('base64'),
          kept_at: now,
        })
        .execute();
    },

    async file(id) {
      const row = await db.selectFrom('files').selectAll().where('id', '=', id).executeTakeFirst();
      if (!row) return null;
      const { conversation, name, type, content } = row;
      return { id, conversation, name, type, content: new Uint8Array(Buffer.from(content, 'base64')) };
    },
  }) satisfies Partial<Store>;
