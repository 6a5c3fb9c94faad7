/** How a sending to Teams ended, from what it said: gone, later, or never. */
import type { Sent } from '../channel.ts';
import { neverReached } from '../reached.ts';
import { NoToken, Refused } from './adapter.ts';

export interface Ending {
  sent: Extract<Sent, { ok: false }>;
  /** The person has blocked or removed the bot, or the place is gone. */
  unreachable: boolean;
  /** Whoever runs Reseat has to do something. */
  operator: string | null;
}

/** Milliseconds, where Teams does not say. */
const THROTTLED = 1000;
const LONGEST = 60_000;
const WAITING = 15_000;

/**
 * Null: it may have gone all the same, which is for the delivery to know. @param tries refusals in a row for this lane.
 * @param chance 0 to 1: those who were refused together do not come back together.
 */
export function endingOf(error: unknown, tries: number, chance: number): Ending | null {
  const grown = Math.min(LONGEST, THROTTLED * 2 ** tries) * (0.75 + chance / 2);
  /** Nothing went, and it is nobody's fault that time will not mend. */
  const later = (after: number, operator: string | null = null): Ending => ({
    sent: { ok: false, again: true, after: Math.ceil(after), error: String(error), patient: true },
    unreachable: false,
    operator,
  });
  const waiting = Math.max(grown, WAITING);
  if (error instanceof NoToken)
    return later(waiting, 'Teams: signing in fails, so what is to be said waits. Is the secret still right?');
  if (neverReached(error)) return later(waiting, "Teams' service cannot be reached from here.");
  if (!(error instanceof Refused)) return null;
  const { status, after } = error;
  // Too early, or together with another one (412).
  if (status === 429 || status === 412 || (status === 503 && after !== null))
    return later(after === null ? grown : after + 250 * chance);
  if (status === 401) return later(waiting, 'Teams refuses our token. Is the secret of the app still right?');
  if (status === 408 || status >= 500) return null;
  return {
    sent: { ok: false, again: false, error: String(error) },
    unreachable: status === 403 || status === 404,
    operator: null,
  };
}
