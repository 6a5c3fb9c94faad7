/** A chat as its person saw it: what was sent, and the conversations with their own words. */
import { toConversation } from './rows.ts';
import type { Database } from './schema.ts';
import type { Store } from './store.ts';

export const history = ({ db }: Database) =>
  ({
    async history(chat, conversations) {
      const rows = await db
        .selectFrom('conversations')
        .selectAll()
        .where('chat', '=', chat)
        .orderBy('opened_at', 'desc')
        // Two that began in the same millisecond: the current one is the newer.
        .orderBy('current', 'desc')
        .limit(conversations)
        .execute();
      if (rows.length === 0) return { conversations: [], sent: [] };
      const sent = await db
        .selectFrom('outgoing')
        .select(['id', 'conversation', 'body', 'question', 'created_at'])
        .where('lane', '=', chat)
        .where('kind', '=', 'messages')
        .where('attempts', '>', 0)
        .where(
          'conversation',
          'in',
          rows.map(row => row.id),
        )
        .orderBy('id')
        .execute();
      return {
        conversations: rows.toReversed().map(toConversation),
        sent: sent.map(row => ({
          id: row.id,
          conversation: row.conversation,
          messages: JSON.parse(row.body),
          question: row.question,
          at: row.created_at,
        })),
      };
    },

    async newestSent(chats) {
      if (chats.length === 0) return new Map();
      const rows = await db
        .selectFrom('outgoing')
        .select(eb => ['lane', eb.fn.max('id').as('id')])
        .where('lane', 'in', chats)
        .where('attempts', '>', 0)
        .groupBy('lane')
        .execute();
      return new Map(rows.map(row => [row.lane, Number(row.id)]));
    },
  }) satisfies Partial<Store>;
