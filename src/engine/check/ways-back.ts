/** Ways from an interrupt back to the question that it broke into. */
import { type Edge, type Exit, isUnsure, type Node } from './graph.ts';
import type { Place } from './places.ts';
import { andThen, type Change, coarsely, NO_CHANGE, same, within } from './vectors.ts';

/** An interrupt without a question of its own. */
const backAtOnce = (edge: Edge): Exit => ({ writes: NO_CHANGE, cost: 0, most: 0, edge, next: null });

/** A way back to the question that an interrupt broke into, whatever was said before that. */
export interface Back {
  exit: Exit;
  /** All that is set on the way. */
  change: Change;
  /** What of it is kept at the question. */
  kept: Change;
  /** What of it matters further out. */
  outside: Change;
}

/** One for each change, the shortest. `outer`: what can be read further out, within another interrupt. */
export function waysBack(place: Place, into: Edge, outer: readonly number[]): readonly Back[] {
  const known = place.backs.get(into.to)?.get(into.writes);
  if (known !== undefined) return known;
  const found = among(into.to === null ? [backAtOnce(into)] : into.to.exits, place, into, outer);
  const all = place.backs.get(into.to) ?? new Map<Change, readonly Back[]>();
  place.backs.set(into.to, all.set(into.writes, found));
  return found;
}

function among(exits: readonly Exit[], place: Place, into: Edge, outer: readonly number[]): Back[] {
  const best: Back[] = [];
  for (const exit of exits) {
    const change = andThen(into.writes, exit.writes);
    const kept = coarsely(change, place.kept);
    const outside = outer.length === 0 ? NO_CHANGE : within(change, outer);
    const other = best.find(
      back =>
        // Where it leads to an end, rules look at whether the last word was that they are not sure.
        isUnsure(back.exit) === isUnsure(exit) && alike(back.kept, kept) && alike(back.outside, outside),
    );
    if (other === undefined) {
      best.push({ exit, change, kept, outside });
      continue;
    }
    const most = Math.max(exit.most, other.exit.most);
    if (exit.cost < other.exit.cost) Object.assign(other, { change, exit: { ...exit, most } });
    else if (most > other.exit.most) other.exit = { ...other.exit, most };
  }
  return best;
}

const alike = (one: Change, other: Change): boolean =>
  same(one.mask, other.mask) && same(one.value, other.value);

/** Does it come back to the state that it left, by what is known of what matters there? */
export function isIdle({ kept: { mask, value }, outside }: Back, { vector, reads }: Node): boolean {
  if (outside !== NO_CHANGE) return false;
  for (let at = 0; at < mask.length; at++)
    if (((vector[at]! ^ value[at]!) & mask[at]! & reads[at]!) !== 0) return false;
  return true;
}

/** Does it set what is looked at there? */
export function touches({ kept: { mask } }: Back, reads: readonly number[]): boolean {
  for (let at = 0; at < mask.length; at++) if ((mask[at]! & reads[at]!) !== 0) return true;
  return false;
}
