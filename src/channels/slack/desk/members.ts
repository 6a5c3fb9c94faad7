/** Who belongs to the desk: the members of its channel, and of a user group where one is set. Asked on every action. */
import { setTimeout as sleep } from 'node:timers/promises';
import type { Body } from '../client.ts';
import type { Desking } from './desking.ts';

export interface Members {
  /** Null: Slack did not tell within `patience` milliseconds. Nobody acts on that. */
  belongs(user: string, patience: number): Promise<boolean | null>;
  /** Asks now and then, so that whoever acts need not wait for it. */
  start(): void;
  stop(): void;
}

/** Milliseconds that an answer of Slack's counts, and from when on it is asked for anew while the old one still counts. */
const COUNTS = 60_000;
const GROWS_OLD = 20_000;
const NOW_AND_THEN = 40_000;
const MOST_PAGES = 25;
/** So many names are asked for beforehand; Slack slows down whoever asks for more. */
const MOST_NAMES = 60;

export function members({ slack, profiles, channel, group, now, log }: Omit<Desking, 'store'>): Members {
  let known: { users: Set<string>; at: number } | null = null;
  let asking: Promise<void> | null = null;
  let timer: NodeJS.Timeout | undefined;
  let unknown: string | null = null;

  async function usersOf(method: string, args: Body, field: string): Promise<string[] | null> {
    const users: string[] = [];
    let cursor = '';
    for (let page = 0; page < MOST_PAGES; page++) {
      const called = await slack.call(method, cursor === '' ? args : { ...args, cursor });
      if (!called.ok) {
        if (unknown !== called.error) log('slack-desk-members-unknown', { method, error: called.error });
        unknown = called.error;
        return null;
      }
      users.push(...((called.body[field] ?? []) as string[]));
      const more = called.body.response_metadata as { next_cursor?: string } | undefined;
      cursor = more?.next_cursor ?? '';
      if (cursor === '') return users;
    }
    return users;
  }

  async function ask(): Promise<void> {
    const at = now();
    const [inChannel, inGroup] = await Promise.all([
      usersOf('conversations.members', { channel, limit: 200 }, 'members'),
      group === null ? [] : usersOf('usergroups.users.list', { usergroup: group }, 'users'),
    ]);
    // One of the two is enough to let somebody in; without both nobody is.
    if (inChannel !== null || (group !== null && inGroup !== null))
      known = { users: new Set([...(inChannel ?? []), ...(inGroup ?? [])]), at };
    if (inChannel !== null && inGroup !== null) unknown = null;
    void names([...(inChannel ?? []), ...(inGroup ?? [])]);
  }

  /** The names that they act under are known before they act: a ticket that is taken under another would be somebody else's. */
  async function names(users: string[]): Promise<void> {
    const signed = slack.signedIn();
    if (signed.state !== 'in') return;
    for (const user of users.slice(0, MOST_NAMES))
      if (user !== signed.user) await profiles.learn(signed.team, user);
  }

  function again(): Promise<void> {
    asking ??= ask().finally(() => {
      asking = null;
    });
    return asking;
  }

  return {
    async belongs(user, patience) {
      const age = known === null ? Number.POSITIVE_INFINITY : now() - known.at;
      const asked = age > GROWS_OLD ? again() : null;
      if (age > COUNTS) {
        known = null;
        await Promise.race([asked, sleep(patience, undefined, { ref: false })]);
      }
      return known?.users.has(user) ?? null;
    },
    start() {
      void again();
      timer = setInterval(() => void again(), NOW_AND_THEN);
    },
    stop: () => clearInterval(timer),
  };
}
