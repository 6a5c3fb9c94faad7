/**
 * What goes out, by lane: a lane's rows go in the order of their ids, one at a time, by whoever holds its lease.
 * Rows that went stay, so every query here looks at waiting rows alone (`settled_at is null`, which has an index of its own).
 */
import { sql } from 'kysely';
import { fromOutgoing, plain, toOutgoing } from './rows.ts';
import type { Database, Db } from './schema.ts';
import { within } from './schema.ts';
import type { Outgoing, Store } from './store.ts';

export const outgoing = ({ db }: Database) =>
  ({
    async send(tx, rows, now) {
      if (rows.length === 0) return;
      await within(tx)
        .insertInto('outgoing')
        .values(rows.map(row => fromOutgoing(row, now)))
        .execute();
    },

    async dueLanes(now, limit, lanes) {
      const rows = await firsts(db, lanes)
        .select('row.lane')
        .where('row.due_at', '<=', now)
        .where(eb => eb.or([eb('leases.until', 'is', null), eb('leases.until', '<=', now)]))
        // With its sign the id is no key to SQLite, which would else go through all that was ever sent, in this order.
        .orderBy(sql`+${sql.ref('row.id')}`)
        .limit(limit)
        .execute();
      return rows.map(row => row.lane);
    },

    async lease(lane, owner, now, until) {
      const row = await db
        .insertInto('leases')
        .values({ lane, owner, until })
        .onConflict(conflict =>
          conflict
            .column('lane')
            .doUpdateSet({ owner, until })
            .where(eb => eb.or([eb('leases.until', '<=', now), eb('leases.owner', '=', owner)])),
        )
        .returning('lane')
        .executeTakeFirst();
      return row !== undefined;
    },

    async release(lane, owner) {
      await db.deleteFrom('leases').where('lane', '=', lane).where('owner', '=', owner).execute();
    },

    async firstWaiting(lane) {
      const row = await db
        .selectFrom('outgoing')
        .selectAll()
        .where('lane', '=', lane)
        .where('settled_at', 'is', null)
        .orderBy('id')
        .limit(1)
        .executeTakeFirst();
      return row ? toOutgoing(row) : null;
    },

    async attempt(row, now) {
      await db.transaction().execute(async tx => {
        await tx
          .updateTable('outgoing')
          .set(eb => ({ attempts: eb('attempts', '+', 1), attempted_at: now }))
          .where('id', '=', row.id)
          .execute();
        if (row.kind !== 'messages' || row.question === null) return;
        // No turn: the version stays. A question shown again keeps the time at which it was first seen.
        await tx
          .updateTable('conversations')
          .set({ asked_number: row.question, asked_at: now })
          .where('id', '=', row.conversation)
          .where(eb => eb.or([eb('asked_number', '<', row.question), eb('asked_at', '=', NOT_SEEN)]))
          .execute();
      });
      return { ...row, attempts: row.attempts + 1, attemptedAt: now };
    },

    async sent(row, ref, at) {
      await db.transaction().execute(async tx => {
        await tx
          .updateTable('outgoing')
          .set({ settled_at: at, dead: 0, ref: plain(ref) })
          .where('id', '=', row.id)
          .execute();
        await seen(tx, row, at);
      });
    },

    async postpone(row, dueAt, error, went) {
      await db.transaction().execute(async tx => {
        await waiting(tx, row.id)
          .set({ due_at: dueAt, error: plain(error) })
          .execute();
        if (went === 'surely-not') await seen(tx, row, NOT_SEEN);
      });
    },

    async giveUp(id, error, now) {
      await waiting(db, id)
        .set({ settled_at: now, dead: 1, error: plain(error) })
        .execute();
    },

    async drawn(conversation, before) {
      const row = await db
        .selectFrom('outgoing')
        .select(['id', 'ref', 'body', 'question'])
        .where('conversation', '=', conversation)
        .where('kind', '=', 'messages')
        .where('question', 'is not', null)
        .where('ref', 'is not', null)
        .where('id', '<', before)
        .orderBy('id', 'desc')
        .limit(1)
        .executeTakeFirst();
      return row === undefined
        ? null
        : { id: row.id, ref: row.ref!, messages: JSON.parse(row.body), question: row.question! };
    },

    async redrawn(id) {
      await db.updateTable('outgoing').set({ ref: null }).where('id', '=', id).execute();
    },

    async cardRef(lane, conversation) {
      const row = await db
        .selectFrom('outgoing')
        .select('ref')
        .where('lane', '=', lane)
        .where('conversation', '=', conversation)
        .where('kind', '=', 'ticket')
        .where('ref', 'is not', null)
        .orderBy('id', 'desc')
        .limit(1)
        .executeTakeFirst();
      return row?.ref ?? null;
    },
  }) satisfies Partial<Store>;

/** The first waiting row of each of these lanes, with the lane's lease if there is one. */
const firsts = (db: Db, lanes: string[]) =>
  db
    .selectFrom('outgoing as row')
    .leftJoin('leases', 'leases.lane', 'row.lane')
    .where('row.settled_at', 'is', null)
    .where(eb => eb.or(lanes.map(isIn)))
    .where(({ not, exists, selectFrom }) =>
      not(
        exists(
          selectFrom('outgoing as earlier')
            .select('earlier.id')
            .whereRef('earlier.lane', '=', 'row.lane')
            .whereRef('earlier.id', '<', 'row.id')
            .where('earlier.settled_at', 'is', null),
        ),
      ),
    );

/** `slack:` is every lane that begins so; `terminal:ada` is that lane alone, not `terminal:adam`. */
const isIn = (lane: string) =>
  lane.endsWith(':')
    ? sql<boolean>`substr(${sql.ref('row.lane')}, 1, ${sql.lit([...lane].length)}) = ${lane}`
    : sql<boolean>`${sql.ref('row.lane')} = ${lane}`;

/** Later than any message: what is typed meanwhile answers an earlier question. */
const NOT_SEEN = Number.MAX_SAFE_INTEGER;

/** Corrects when the question of this row was seen, if it was this row's attempt that said so first. */
async function seen(db: Db, row: Outgoing, at: number): Promise<void> {
  if (row.kind !== 'messages' || row.question === null || row.attemptedAt === null) return;
  await db
    .updateTable('conversations')
    .set({ asked_at: at })
    .where('id', '=', row.conversation)
    .where('asked_number', '=', row.question)
    .where('asked_at', '=', row.attemptedAt)
    .execute();
}

const waiting = (db: Db, id: number) =>
  db.updateTable('outgoing').where('id', '=', id).where('settled_at', 'is', null);
