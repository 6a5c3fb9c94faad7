/** So much at once, then so much a second, for each name apart. */

export interface Limit {
  /** Milliseconds to wait; 0: go on, and it counts. */
  ask(name: string, now: number): number;
}

/** Names that were quiet are forgotten from this many on. */
const MOST_NAMES = 50_000;

/** @param burst how many at once. @param perSecond how many come free again each second. */
export function limit(burst: number, perSecond: number): Limit {
  const left = new Map<string, { tokens: number; at: number }>();
  const refilled = (known: { tokens: number; at: number } | undefined, now: number) =>
    known === undefined
      ? burst
      : Math.min(burst, known.tokens + (Math.max(0, now - known.at) / 1000) * perSecond);
  return {
    ask(name, now) {
      const tokens = refilled(left.get(name), now);
      if (tokens < 1) return Math.ceil(((1 - tokens) / perSecond) * 1000);
      if (left.size >= MOST_NAMES) {
        for (const [other, known] of left) if (refilled(known, now) >= burst) left.delete(other);
        // Everybody is busy: the one who was last here the longest ago is let off.
        if (left.size >= MOST_NAMES) left.delete(left.keys().next().value!);
      }
      left.delete(name);
      left.set(name, { tokens: tokens - 1, at: now });
      return 0;
    },
  };
}
