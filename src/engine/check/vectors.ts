/**
 * Small sums over packed variables. A vector is a few whole numbers; each variable has its bits in one of them (space.ts):
 * one that tells whether it is set, then those of its value. So what was looked at, and what is set, are masks over the same
 * bits. Plain arrays: typed ones of this size cost more to make than to fill.
 */

/** The values of all variables; no bit of a variable is set where it has no value. */
export type Vector = number[];

/** The bits that count. Of a variable: none, that it is set, or all. */
export type Mask = number[];

/** What becomes of a vector: the bits of `mask` become those of `value`. */
export interface Change {
  mask: readonly number[];
  value: readonly number[];
}

/** Where a variable has its bits: `ones` many from `shift` on, as a mask before shifting. */
export interface Slot {
  word: number;
  shift: number;
  ones: number;
}

/** Bits in a number: as many as the machine handles without a detour. */
export const WORD = 30;

/** Bits for so many values: the first tells that there is one. */
export const widthFor = (values: number): number => 1 + (values < 2 ? 0 : 32 - Math.clz32(values - 1));

/** The number of its value, from 1 on; 0 is: not set. */
export function codeIn(vector: readonly number[], { word, shift, ones }: Slot): number {
  const bits = (vector[word]! >>> shift) & ones;
  return bits === 0 ? 0 : (bits >>> 1) + 1;
}

/** A variable's bits for the number of its value, before shifting. */
export const bitsOf = (code: number): number => (code === 0 ? 0 : ((code - 1) << 1) | 1);

export const none = (size: number): number[] => new Array<number>(size).fill(0);

export const NO_CHANGE: Change = { mask: [], value: [] };

export function changed(vector: Vector, { mask, value }: Change): Vector {
  if (mask.length === 0) return vector;
  const after = vector.slice();
  for (let at = 0; at < mask.length; at++) after[at] = (after[at]! & ~mask[at]!) | value[at]!;
  return after;
}

/** One change, then another. */
export function andThen(first: Change, second: Change): Change {
  if (first.mask.length === 0) return second;
  if (second.mask.length === 0) return first;
  const mask = first.mask.slice();
  const value = first.value.slice();
  for (let at = 0; at < second.mask.length; at++) {
    const late = second.mask[at]!;
    mask[at] = (mask[at] ?? 0) | late;
    value[at] = ((value[at] ?? 0) & ~late) | second.value[at]!;
  }
  return { mask, value };
}

/** What of a change lies within `bounds`. */
export function within({ mask, value }: Change, bounds: readonly number[]): Change {
  const left = mask.map((bits, at) => bits & (bounds[at] ?? 0));
  return left.every(bits => bits === 0)
    ? NO_CHANGE
    : { mask: left, value: value.map((v, at) => v & left[at]!) };
}

export function same(one: readonly number[], other: readonly number[]): boolean {
  if (one.length !== other.length) return false;
  for (let at = 0; at < one.length; at++) if (one[at] !== other[at]) return false;
  return true;
}

/** Are the bits of `mask` the same in both? */
export function agree(one: Vector, other: Vector, mask: readonly number[]): boolean {
  for (let at = 0; at < mask.length; at++) if (((one[at]! ^ other[at]!) & mask[at]!) !== 0) return false;
  return true;
}

/** Notes that `more` is read too, but for what `change` has set before. Tells whether that was news. */
export function readAlso(reads: Mask, more: readonly number[], { mask }: Change): boolean {
  let news = false;
  for (let at = 0; at < more.length; at++) {
    const before = reads[at]!;
    const after = before | (more[at]! & ~(mask[at] ?? 0));
    if (after === before) continue;
    reads[at] = after;
    news = true;
  }
  return news;
}

/** The same in a mask of its own. */
export function withReads(reads: readonly number[], more: readonly number[], change: Change): Mask {
  const all = reads.slice();
  readAlso(all, more, change);
  return all;
}

/** What is kept of a vector: these bits, and of some variables, by their bits, those that stand for them. */
export interface Kept {
  mask: readonly number[];
  stands: readonly { slot: Slot; bits: readonly number[] }[];
}

/** What is kept of a change to a vector of which no more is kept either. */
export function coarsely({ mask, value }: Change, { mask: kept, stands }: Kept): Change {
  const bits = mask.map((each, at) => each & (kept[at] ?? 0));
  const after = coarse(value.slice(), { mask: bits, stands: stands.filter(({ slot }) => isIn(bits, slot)) });
  return { mask: bits, value: after };
}

/** Does the mask hold the variable there? */
export const isIn = (mask: readonly number[], { word, shift }: Slot): boolean =>
  (((mask[word] ?? 0) >>> shift) & 1) !== 0;

/** The vector in what is kept of it, without the numbers that lie beyond. */
export function coarse(vector: Vector, { mask, stands }: Kept): Vector {
  const left = vector.slice(0, mask.length);
  for (let at = 0; at < left.length; at++) left[at] = left[at]! & mask[at]!;
  for (let at = 0; at < stands.length; at++) {
    const { slot, bits } = stands[at]!;
    const own = (left[slot.word]! >>> slot.shift) & slot.ones;
    left[slot.word] = (left[slot.word]! & ~(slot.ones << slot.shift)) | (bits[own]! << slot.shift);
  }
  return left;
}
