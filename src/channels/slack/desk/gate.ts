/** Who acts, under which name, and whether they may. Asked on every action and again when a form is sent. */
import { setTimeout as sleep } from 'node:timers/promises';
import type { Desking } from './desking.ts';
import { members } from './members.ts';

export interface Actor {
  team: string;
  user: string;
  /** Slack's short name, for as long as the profile is not known. */
  short: string | null;
}

export interface Gate {
  /** Why they may not act, in words for them; null: they may. */
  refusal(actor: Actor): Promise<string | null>;
  /** The name that they act under. */
  nameOf(actor: Actor): Promise<string>;
  /** Of somebody who has acted under that name here. */
  userOf(name: string): string | null;
  start(): void;
  stop(): void;
}

/** Milliseconds that an acknowledgement may wait for Slack's own answers. */
const PATIENCE = 300;
const MOST_NAMES = 500;

export function gate(on: Omit<Desking, 'store'>): Gate {
  const { profiles } = on;
  const desk = members(on);
  const users = new Map<string, string>();
  return {
    async refusal({ user }) {
      const belongs = await desk.belongs(user, PATIENCE);
      if (belongs === null)
        return 'Slack does not tell me right now who belongs to the desk. Please try again in a moment.';
      return belongs
        ? null
        : "Only the desk can do that: everybody in the desk's channel. Ask somebody there to add you.";
    },
    async nameOf({ team, user, short }) {
      await Promise.race([profiles.learn(team, user), sleep(PATIENCE, undefined, { ref: false })]);
      const name = profiles.of(team, user, short).name ?? user;
      if (users.size >= MOST_NAMES) users.delete(users.keys().next().value!);
      users.set(name, user);
      return name;
    },
    userOf: name => users.get(name) ?? null,
    start: desk.start,
    stop: desk.stop,
  };
}
