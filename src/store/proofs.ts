/** Which flows have been proven: a start that finds its own here need not prove them again. */
import type { Database } from './schema.ts';
import type { Store } from './store.ts';

export const proofs = ({ db }: Database) =>
  ({
    async keepProof(subject, longest, now) {
      await db
        .insertInto('proofs')
        .values({ subject, longest: JSON.stringify(longest), proven_at: now })
        .onConflict(conflict => conflict.column('subject').doNothing())
        .execute();
    },

    async proof(subject) {
      const row = await db
        .selectFrom('proofs')
        .select('longest')
        .where('subject', '=', subject)
        .executeTakeFirst();
      return row ? JSON.parse(row.longest) : null;
    },
  }) satisfies Partial<Store>;
