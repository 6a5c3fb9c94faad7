/** Outages that the desk declared, and whom they concern. */
import { type ExpressionBuilder, sql } from 'kysely';
import { fromOutage, toOutage } from './rows.ts';
import type { Database, Db, Schema } from './schema.ts';
import { within } from './schema.ts';
import type { Outage, Store } from './store.ts';

export const outages = ({ db, kind }: Database) =>
  ({
    openOutages: tx => list(tx ? within(tx) : db, true),
    outages: ({ open }) => list(db, open),

    /*
     * A turn that looked for outages just before this one is saved, and commits just after, would neither find it nor be found
     * by it. SQLite lets no two turns overlap; PostgreSQL holds what a turn has read until the turn ends, and this waits for that.
     */
    async saveOutage(tx, outage) {
      if (kind === 'postgres') await sql`lock table outages in access exclusive mode`.execute(within(tx));
      const row = fromOutage(outage);
      await within(tx)
        .insertInto('outages')
        .values(row)
        .onConflict(conflict => conflict.column('id').doUpdateSet(row))
        .execute();
    },

    async conversationsFor(outage, tx) {
      const rows = await (tx ? within(tx) : db)
        .selectFrom('conversations')
        .select('id')
        .where(eb =>
          eb.or([
            eb('outage', '=', outage.id),
            eb.and([
              eb('symptom', '=', outage.symptom),
              eb('outcome', 'is', null),
              eb('current', '=', sql.lit(1)),
            ]),
            // Handed over, and the desk still has it.
            eb.and([
              eb('symptom', '=', outage.symptom),
              eb('outcome', '=', sql.lit('escalated')),
              eb.exists(openTicket(eb, outage)),
            ]),
          ]),
        )
        .orderBy('opened_at')
        .execute();
      return rows.map(row => row.id);
    },
  }) satisfies Partial<Store>;

/** A ticket that is open, at the outage's site, or where nobody knows at which. */
const openTicket = (eb: ExpressionBuilder<Schema, 'conversations'>, { site }: Outage) =>
  eb
    .selectFrom('tickets')
    .select('tickets.number')
    .whereRef('tickets.conversation', '=', 'conversations.id')
    .where('tickets.status', 'not in', ['closed', 'merged'])
    .$if(site !== null, query =>
      query.where(where => where.or([where('tickets.site', '=', site), where('tickets.site', 'is', null)])),
    );

async function list(db: Db, open: boolean) {
  const rows = await db
    .selectFrom('outages')
    .selectAll()
    .where('ended_at', open ? 'is' : 'is not', null)
    .orderBy('declared_at')
    .execute();
  return rows.map(toOutage);
}
