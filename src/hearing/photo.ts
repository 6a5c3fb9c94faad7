/** Which on-screen message was read off a photo: letters mistaken for others, words run together and broken lines do no harm. Pure. */
import type { ScreenMessages } from '#engine/catalogue.ts';
import { codeIn } from './photo-code.ts';
import { type Skeleton, skeleton } from './skeleton.ts';

interface Pattern {
  id: string;
  text: string;
  /** What stands between the `*`. */
  parts: Part[];
}
interface Part {
  bones: string;
  /** Every three bones in a row. */
  threes: string[];
}
export interface Photos {
  patterns: Pattern[];
}

export interface Seen {
  /** Of the catalogue's messages or error numbers. */
  id: string;
  /** As the catalogue has it, which is surer than the letters that were read; as it was read, where that leaves a `*`. */
  verbatim: string;
}

/** Fewer bones say nothing, unless they stand there letter for letter, as words of their own. */
const SHORTEST = 7;
const SHORT = 12;
/** Up to this many, one bone may be wrong; of longer ones one in so many. */
const MIDDLING = 20;
const ONE_IN = 6;
const LONG = 30;
const LONG_ONE_IN = 5;
/** What a `*` may stand for at most, in bones. */
const GAP = 60;
/** Characters of a picture that are looked through: two screens full. */
const MOST_TEXT = 4000;
/** A mistake costs as much as so many bones that are right. */
const COST = 2;
/** A message that is not longer than this gives way to an error number. */
const TELLING = 24;

export function preparePhotos(messages: ScreenMessages): Photos {
  const patterns = Object.entries(messages).flatMap(([id, { texts }]) =>
    texts.map(text => ({ id, text, parts: text.split('*').flatMap(partOf) })),
  );
  return { patterns: patterns.filter(({ parts }) => sizeOf(parts) >= SHORTEST) };
}

function partOf(text: string): Part[] {
  const { bones } = skeleton(text);
  return bones === '' ? [] : [{ bones, threes: threesOf(bones) }];
}

const sizeOf = (parts: readonly Part[]): number => parts.reduce((sum, { bones }) => sum + bones.length, 0);
const threesOf = (bones: string): string[] =>
  Array.from({ length: Math.max(0, bones.length - 2) }, (_, at) => bones.slice(at, at + 3));

/**
 * The message that most of the words speak for, or the error number; null when there is none.
 * `all`: what was read, lines as lines. `codes`: error numbers by the name that tokens.ts gives them.
 */
export function seenOn(
  { patterns }: Photos,
  codes: ReadonlyMap<string, { id: string }>,
  all: string,
): Seen | null {
  const text = all.slice(0, MOST_TEXT);
  const read = skeleton(text);
  const near = placesOf(read.bones);
  let best: (Span & Pick<Pattern, 'id' | 'text'> & { worth: number }) | null = null;
  for (const { id, text: known, parts } of patterns) {
    const span = find(read, near, parts);
    if (span === null) continue;
    const worth = sizeOf(parts) - COST * span.mistakes;
    if (best === null || worth > best.worth) best = { ...span, id, text: known, worth };
  }
  const code = codeIn(codes, text);
  if (code !== null && (best === null || best.worth <= TELLING)) return code;
  if (best === null) return null;
  return { id: best.id, verbatim: best.text.includes('*') ? textAt(text, read, best) : best.text };
}

interface Span {
  /** Bones, [from, to). */
  from: number;
  to: number;
  mistakes: number;
}

function find(read: Skeleton, near: Places, [first, ...rest]: readonly Part[]): Span | null {
  if (first === undefined || !rest.every(part => windows(near, part).length > 0)) return null;
  let whole: Span | null = null;
  for (const [from, to] of windows(near, first)) {
    const found = locate(read, first.bones, Math.max(0, from), Math.min(read.bones.length, to));
    if (found !== null && (whole === null || found.mistakes < whole.mistakes)) whole = found;
  }
  for (const { bones } of rest) {
    if (whole === null) return null;
    const { from, to, mistakes }: Span = whole;
    const next = locate(read, bones, to, Math.min(read.bones.length, to + GAP + bones.length));
    whole = next && { from, to: next.to, mistakes: mistakes + next.mistakes };
  }
  return whole;
}

/** Where every three bones in a row stand. */
type Places = ReadonlyMap<string, readonly number[]>;

function placesOf(bones: string): Places {
  const all = new Map<string, number[]>();
  for (const [at, three] of threesOf(bones).entries()) {
    const others = all.get(three);
    if (others === undefined) all.set(three, [at]);
    else others.push(at);
  }
  return all;
}

/**
 * Stretches of the bones that may hold the part. A mistake spoils three threes at most and moves what follows by one, so that
 * all others lie on neighbouring diagonals (Jokinen and Ukkonen 1991).
 */
function windows(near: Places, { bones, threes }: Part): [from: number, to: number][] {
  const most = allowed(bones);
  const needed = threes.length - 3 * most;
  const wide = 2 * (most + 1);
  const counts = new Map<number, number>();
  for (const [offset, three] of threes.entries())
    for (const at of near.get(three) ?? []) {
      // Every diagonal counts in two stretches that overlap by half, so that no place falls between two.
      const half = Math.floor((at - offset) / (most + 1));
      for (const stretch of [half - 1, half]) counts.set(stretch, (counts.get(stretch) ?? 0) + 1);
    }
  return [...counts]
    .filter(([, count]) => count >= needed)
    .map(([stretch]) => {
      const from = stretch * (most + 1);
      return [from - most, from + wide + bones.length + most];
    });
}

function allowed({ length }: string): number {
  if (length < MIDDLING) return length < SHORT ? 0 : 1;
  return Math.floor(length / (length < LONG ? ONE_IN : LONG_ONE_IN));
}

/** The best place of `part` in the bones [from, to): edit distance with a free beginning and end (Sellers 1980). */
function locate(read: Skeleton, part: string, from: number, to: number): Span | null {
  const most = allowed(part);
  if (most === 0) return exactly(read, part, from, to);
  const count = part.length;
  // One column of the table, and where the way to each of its cells begins; below `last` all cost too much (Ukkonen 1985).
  const cost = new Int32Array(count + 1).map((_, row) => row);
  const begun = new Int32Array(count + 1).fill(from);
  let last = Math.min(count, most + 1);
  let best: Span | null = null;
  for (let at = from; at < to; at++) {
    const bone = read.bones[at];
    let [diagonal, diagonalFrom] = [0, at];
    begun[0] = at + 1;
    for (let row = 1; row <= last; row++) {
      const same = diagonal + (part[row - 1] === bone ? 0 : 1);
      const more = cost[row]! + 1;
      const less = cost[row - 1]! + 1;
      const start =
        same <= more && same <= less ? diagonalFrom : more <= less ? begun[row]! : begun[row - 1]!;
      [diagonal, diagonalFrom] = [cost[row]!, begun[row]!];
      cost[row] = Math.min(same, more, less);
      begun[row] = start;
    }
    while (cost[last]! > most) last--;
    if (last === count) {
      const mistakes = cost[count]!;
      if (best === null || mistakes < best.mistakes) best = { from: begun[count]!, to: at + 1, mistakes };
    } else {
      last++;
      cost[last] = most + 1;
    }
  }
  return best;
}

function exactly({ bones, edge }: Skeleton, part: string, from: number, to: number): Span | null {
  for (
    let at = bones.indexOf(part, from);
    at >= 0 && at + part.length <= to;
    at = bones.indexOf(part, at + 1)
  )
    if (edge(at) && edge(at + part.length)) return { from: at, to: at + part.length, mistakes: 0 };
  return null;
}

const textAt = (text: string, { places }: Skeleton, { from, to }: Span): string =>
  text.slice(places[from]!, (places[to - 1] ?? text.length - 1) + 1).replace(/\s+/g, ' ');
