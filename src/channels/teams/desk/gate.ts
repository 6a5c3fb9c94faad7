/** Who belongs to the desk, and under which name they act: Teams is asked, and its answer counts for a moment. */
import type { Reference } from '../incoming.ts';
import type { DeskNeeds, Gate } from './desking.ts';
import type { Place } from './place.ts';

/** Milliseconds that an answer of Teams counts. Somebody who was just let in should not wait. */
const COUNTS = 30_000;
const NO_COUNTS = 5000;
/** Milliseconds that Teams may take: a dialog has to be answered within five seconds. */
const PATIENCE = 2500;
const MOST_KNOWN = 1000;
/** As many as a form holds. */
const MOST_COLLEAGUES = 100;

const UNKNOWN =
  'Teams does not tell me right now who belongs to the desk. Nothing has changed; please try again in a moment.';
const STRANGER =
  'Only the desk can do that: the members of the team or chat where its tickets are shown. Ask somebody there to add you.';

export function gate(on: Pick<DeskNeeds, 'adapter' | 'now' | 'log'>, place: Place): Gate {
  const known = new Map<string, { name: string | null; until: number }>();
  const asking = new Map<string, Promise<string | null>>();
  const users = new Map<string, string>();

  /** Null: they do not belong to it. Rejects when Teams does not tell. */
  async function nameOf({ user, tenant, serviceUrl }: Reference): Promise<string | null> {
    const key = `${tenant}:${user.id}`;
    const found = known.get(key);
    if (found !== undefined && found.until > on.now()) return found.name;
    const ask = async () => {
      const to = { ...place.reference(), serviceUrl, tenant };
      const member = await on.adapter.member(to, user.id, AbortSignal.timeout(PATIENCE));
      const name = member === null ? null : (member.name ?? user.name ?? user.id);
      if (known.size >= MOST_KNOWN) known.clear();
      known.set(key, { name, until: on.now() + (name === null ? NO_COUNTS : COUNTS) });
      return name;
    };
    const asked = asking.get(key) ?? ask().finally(() => asking.delete(key));
    asking.set(key, asked);
    return asked;
  }

  return {
    async ask(reference) {
      try {
        const by = await nameOf(reference);
        if (by === null) return { refused: STRANGER };
        if (users.size >= MOST_KNOWN) users.clear();
        users.set(by, reference.user.id);
        return { by };
      } catch (error) {
        on.log('teams-desk-members-unknown', { error: String(error) });
        return { refused: UNKNOWN };
      }
    },
    async colleagues() {
      try {
        const all = await on.adapter.members(
          place.reference(),
          MOST_COLLEAGUES + 1,
          AbortSignal.timeout(PATIENCE),
        );
        const names = [...new Set(all.flatMap(({ name }) => name ?? []))].toSorted();
        return names.length > MOST_COLLEAGUES ? [] : names;
      } catch (error) {
        on.log('teams-desk-members-unknown', { error: String(error) });
        return [];
      }
    },
    userOf: name => users.get(name) ?? null,
  };
}
