/** Who somebody is, as far as the scopes let us see. Asked for behind the turn, so that nothing waits for it and nothing breaks without it. */
import type { Slack } from './client.ts';
import type { Who } from './inbound.ts';

export interface Profiles {
  /** What is known by now. `name`: what Slack told with what happened, for as long as nothing better is known. */
  of(team: string, user: string, name?: string | null): Who;
  /** Asks for it, unless that was done not long ago. Never rejects. */
  learn(team: string, user: string): Promise<void>;
}

type Known = Pick<Who, 'name' | 'mail' | 'locale'>;

/** Milliseconds until a profile is asked for again. */
const FRESH = 3_600_000;
const FRESH_FAILURE = 600_000;
const MOST = 20_000;

interface UserInfo {
  real_name?: string;
  name?: string;
  locale?: string;
  profile?: { real_name?: string; display_name?: string; email?: string };
}

export function profiles(slack: Pick<Slack, 'call'>, now: () => number): Profiles {
  const known = new Map<string, Known & { until: number }>();
  const asking = new Map<string, Promise<void>>();

  async function ask(key: string, user: string): Promise<void> {
    const called = await slack.call('users.info', { user, include_locale: true });
    if (known.size >= MOST) known.delete(known.keys().next().value!);
    if (!called.ok) {
      const before = known.get(key) ?? { name: null, mail: null, locale: null };
      known.set(key, { ...before, until: now() + FRESH_FAILURE });
      return;
    }
    const { profile = {}, real_name, name, locale } = (called.body.user ?? {}) as UserInfo;
    known.set(key, {
      name: text(profile.real_name) ?? text(real_name) ?? text(profile.display_name) ?? text(name),
      mail: text(profile.email),
      locale: text(locale),
      until: now() + FRESH,
    });
  }

  return {
    of(team, user, name = null) {
      const found = known.get(`${team}:${user}`);
      return {
        team,
        user,
        name: found?.name ?? name,
        mail: found?.mail ?? null,
        locale: found?.locale ?? null,
      };
    },
    async learn(team, user) {
      const key = `${team}:${user}`;
      const before = known.get(key);
      if (before !== undefined && before.until > now()) return;
      // Two messages in a row ask once, and both wait for the answer.
      const going = asking.get(key) ?? ask(key, user).finally(() => asking.delete(key));
      asking.set(key, going);
      await going;
    },
  };
}

const text = (given: unknown): string | null =>
  typeof given === 'string' && given.trim() !== '' ? given.trim().slice(0, 200) : null;
