/** Links by which a chat can be opened on another device. The link itself is nowhere here: its hash is, and what it opens is sealed under it. */
import type { Database } from './schema.ts';
import type { Store } from './store.ts';

export const links = ({ db }: Database) =>
  ({
    async keepLink({ hash, chat, sealed, madeAt, expiresAt }) {
      await db.deleteFrom('links').where('expires_at', '<=', madeAt).execute();
      await db
        .insertInto('links')
        .values({ hash, chat, sealed, made_at: madeAt, expires_at: expiresAt })
        .onConflict(conflict => conflict.column('hash').doNothing())
        .execute();
    },

    async link(hash, now) {
      const row = await db
        .selectFrom('links')
        .selectAll()
        .where('hash', '=', hash)
        .where('expires_at', '>', now)
        .executeTakeFirst();
      return row ? toLink(row) : null;
    },

    async newestLink(chat, now) {
      const row = await db
        .selectFrom('links')
        .selectAll()
        .where('chat', '=', chat)
        .where('expires_at', '>', now)
        .orderBy('made_at', 'desc')
        .limit(1)
        .executeTakeFirst();
      return row ? toLink(row) : null;
    },

    async withdrawLinks(chat) {
      await db.deleteFrom('links').where('chat', '=', chat).execute();
    },
  }) satisfies Partial<Store>;

const toLink = (row: {
  hash: string;
  chat: string;
  sealed: string;
  made_at: number;
  expires_at: number;
}) => ({
  hash: row.hash,
  chat: row.chat,
  sealed: row.sealed,
  madeAt: row.made_at,
  expiresAt: row.expires_at,
});
