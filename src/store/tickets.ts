/** Tickets: one document with its life, and beside it the columns that lists are made from. */
import { sql } from 'kysely';
import { fromTicket, plain, toTicket } from './rows.ts';
import type { Database, TicketTable } from './schema.ts';
import { within } from './schema.ts';
import type { Store } from './store.ts';

const LIMIT = 200;

export const tickets = ({ db }: Database) =>
  ({
    async ticket(number, tx) {
      const row = await (tx ? within(tx) : db)
        .selectFrom('tickets')
        .selectAll()
        .where('number', '=', number)
        .executeTakeFirst();
      return row ? toTicket(row) : null;
    },

    async saveTicket(tx, ticket) {
      const row = fromTicket(ticket);
      const columns = Object.keys(row) as (keyof TicketTable)[];
      await within(tx)
        .insertInto('tickets')
        .values(row)
        .onConflict(conflict =>
          conflict
            .column('number')
            .doUpdateSet(eb => Object.fromEntries(columns.map(name => [name, eb.ref(`excluded.${name}`)]))),
        )
        .execute();
    },

    async openTicketOf(tx, chat) {
      const row = await within(tx)
        .selectFrom('tickets')
        .select(['number', 'conversation'])
        .where('chat', '=', chat)
        .where('status', 'not in', ['closed', 'merged'])
        .orderBy('opened_at', 'desc')
        .orderBy('number', 'desc')
        .limit(1)
        .executeTakeFirst();
      return row ?? null;
    },

    async ticketsOf(chats, limit) {
      if (chats.length === 0) return [];
      const rows = await db
        .selectFrom('tickets')
        .selectAll()
        .where('chat', 'in', chats.map(plain))
        .orderBy('opened_at', 'desc')
        .orderBy('number', 'desc')
        .limit(limit)
        .execute();
      return rows.map(toTicket);
    },

    async tickets({ status, priority, symptom, site, limit = LIMIT }) {
      const rows = await db
        .selectFrom('tickets')
        .selectAll()
        .$if(Boolean(status?.length), query => query.where('status', 'in', status ?? []))
        .$if(Boolean(priority?.length), query => query.where('priority', 'in', priority ?? []))
        .$if(symptom !== undefined, query => query.where('symptom', '=', symptom ?? null))
        .$if(site !== undefined, query => query.where('site', '=', plain(site ?? null)))
        .orderBy('rank')
        .orderBy('opened_at')
        .orderBy('number')
        .limit(limit)
        .execute();
      return rows.map(toTicket);
    },

    async confirmedFaults() {
      return await db
        .selectFrom('tickets')
        .select(eb => ['symptom', 'fault', eb.fn.countAll<number>().as('tickets')])
        .where('status', '=', sql.lit('closed'))
        .where('symptom', 'is not', null)
        .where('fault', 'is not', null)
        .$narrowType<{ symptom: string; fault: string }>()
        .groupBy(['symptom', 'fault'])
        .execute();
    },
  }) satisfies Partial<Store>;
