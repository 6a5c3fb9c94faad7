/** Ways from an interrupt back to the question that it broke into. */
import { type Edge, type Exit, isUnsure, type Node } from './graph.ts';
import {
  andThen,
  type Change,
  changed,
  coarse,
  type Kept,
  NO_CHANGE,
  same,
  type Vector,
  within,
} from './vectors.ts';

/** An interrupt without a question of its own. */
export const backAtOnce = (edge: Edge): Exit => ({ writes: NO_CHANGE, cost: 0, most: 0, edge, next: null });

/** A way back to the question that an interrupt broke into. */
export interface Back {
  exit: Exit;
  /** All that is set on the way, and what the question's state becomes of it. */
  change: Change;
  after: Vector;
  /** What of it matters further out. */
  outside: Change;
}

/**
 * Of the ways back to the question, those that change something there or (within another interrupt) further out: one for
 * each change, the shortest. `idle`: does one that changes nothing further out come back to the same state?
 */
export function thatMatter(
  exits: readonly Exit[],
  into: Edge,
  { vector }: Node,
  kept: Kept,
  outer: readonly number[],
  idle: (back: Back) => boolean,
): Back[] {
  const best: Back[] = [];
  for (const exit of exits) {
    const change = andThen(into.writes, exit.writes);
    const after = coarse(changed(vector, change), kept);
    const outside = outer.length === 0 ? NO_CHANGE : within(change, outer);
    if (outside === NO_CHANGE && idle({ exit, change, after, outside })) continue;
    const other = best.find(
      back =>
        // Where it leads to an end, rules look at whether the last word was that they are not sure.
        isUnsure(back.exit) === isUnsure(exit) &&
        same(back.after, after) &&
        same(back.outside.mask, outside.mask) &&
        same(back.outside.value, outside.value),
    );
    if (other === undefined) {
      best.push({ exit, change, after, outside });
      continue;
    }
    const most = Math.max(exit.most, other.exit.most);
    if (exit.cost < other.exit.cost) Object.assign(other, { change, exit: { ...exit, most } });
    else if (most > other.exit.most) other.exit = { ...other.exit, most };
  }
  return best;
}
