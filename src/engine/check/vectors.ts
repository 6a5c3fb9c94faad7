/** Small sums over vectors of variables. Plain arrays: typed ones of this size cost more to make than to fill. */

/** For each variable of the space (space.ts) the number of its value; 0 is: not set. */
export type Vector = number[];

/** A variable and what it becomes. */
export type Write = readonly [variable: number, value: number];

/** For each variable how much of it was looked at: 0 nothing, SET whether it is set, VALUE its value. */
export type Reads = number[];
export const SET = 1;
export const VALUE = 2;

export const none = (size: number): number[] => new Array<number>(size).fill(0);

export function written(vector: Vector, writes: readonly Write[]): Vector {
  if (writes.length === 0) return vector;
  const after = vector.slice();
  for (const [place, code] of writes) after[place] = code;
  return after;
}

/** For each variable the number that stands for each of its numbers from here on; KEPT: each for itself. */
export type Kept = readonly (readonly number[])[];
export const KEPT: readonly number[] = [];
export const NOT_KEPT: readonly number[] = [0];

export const keptOf = (kept: readonly number[], code: number): number =>
  kept === KEPT ? code : (kept[code] ?? 0);

/** The vector in the numbers that stand for its own, without what lies beyond them. */
export function coarse(vector: Vector, kept: Kept): Vector {
  const left = vector.slice(0, kept.length);
  for (let place = 0; place < left.length; place++) {
    if (left[place] !== 0) left[place] = keptOf(kept[place]!, left[place]!);
  }
  return left;
}

/** Notes that `more` is read too, but for what `writes` has set before. Tells whether that was news. */
export function readAlso(reads: Reads, more: Reads, writes: readonly Write[]): boolean {
  let news = false;
  for (let place = 0; place < more.length; place++) {
    const mode = more[place]!;
    if (mode <= reads[place]! || sets(writes, place)) continue;
    reads[place] = mode;
    news = true;
  }
  return news;
}

export function sets(writes: readonly Write[], place: number): boolean {
  for (let index = 0; index < writes.length; index++) if (writes[index]![0] === place) return true;
  return false;
}
