/** Which on-screen message was read off a photo: letters mistaken for others, words run together and broken lines do no harm. Pure. */
import type { ScreenMessages } from '#engine/catalogue.ts';
import { codeIn } from './photo-code.ts';
import { type Skeleton, skeleton } from './skeleton.ts';

interface Pattern {
  id: string;
  /** What stands between the `*`, by its bones. */
  parts: string[];
}
export interface Photos {
  patterns: Pattern[];
}

export interface Seen {
  /** Of the catalogue's messages or error numbers. */
  id: string;
  /** As it was read. */
  verbatim: string;
}

/** Fewer bones say nothing, unless they stand there letter for letter, as words of their own. */
const SHORTEST = 7;
const SHORT = 12;
/** One bone in so many may be wrong. */
const ONE_IN = 6;
/** What a `*` may stand for at most, in bones. */
const GAP = 60;
/** A mistake costs as much as so many bones that are right. */
const COST = 2;
/** A message that is not longer than this gives way to an error number. */
const TELLING = 24;

export function preparePhotos(messages: ScreenMessages): Photos {
  const patterns = Object.entries(messages).flatMap(([id, { texts }]) =>
    texts.map(text => ({ id, parts: text.split('*').map(part => skeleton(part).bones) })),
  );
  return {
    patterns: patterns
      .map(({ id, parts }) => ({ id, parts: parts.filter(part => part !== '') }))
      .filter(({ parts }) => parts.join('').length >= SHORTEST),
  };
}

/**
 * The message that most of the words speak for, or the error number; null when there is none.
 * `text`: what was read, lines as lines. `codes`: error numbers by the name that tokens.ts gives them.
 */
export function seenOn(
  { patterns }: Photos,
  codes: ReadonlyMap<string, { id: string }>,
  text: string,
): Seen | null {
  const read = skeleton(text);
  const near = threes(read.bones);
  let best: (Span & { id: string; worth: number }) | null = null;
  for (const { id, parts } of patterns) {
    if (!parts.every(part => mayContain(near, part))) continue;
    const span = find(read, parts);
    if (span === null) continue;
    const worth = parts.join('').length - COST * span.mistakes;
    if (best === null || worth > best.worth) best = { ...span, id, worth };
  }
  const code = codeIn(codes, text);
  if (code !== null && (best === null || best.worth <= TELLING)) return code;
  return best && { id: best.id, verbatim: textAt(text, read, best) };
}

interface Span {
  /** Bones, [from, to). */
  from: number;
  to: number;
  mistakes: number;
}

function find(read: Skeleton, parts: readonly string[]): Span | null {
  const [first = '', ...rest] = parts;
  let whole = locate(read, first, 0, read.bones.length);
  for (const part of rest) {
    if (whole === null) return null;
    const { from, to, mistakes } = whole;
    const next = locate(read, part, to, Math.min(read.bones.length, to + GAP + part.length));
    whole = next && { from, to: next.to, mistakes: mistakes + next.mistakes };
  }
  return whole;
}

const allowed = (part: string): number => (part.length < SHORT ? 0 : Math.floor(part.length / ONE_IN));

/** The best place of `part` in the bones [from, to): edit distance with a free beginning and end (Sellers 1980). */
function locate(read: Skeleton, part: string, from: number, to: number): Span | null {
  const most = allowed(part);
  if (most === 0) return exactly(read, part, from, to);
  const count = part.length;
  let cost = Array.from({ length: count + 1 }, (_, row) => row);
  let begun = new Array<number>(count + 1).fill(from);
  let best: Span | null = null;
  for (let at = from; at < to; at++) {
    const next = [0];
    const start = [at + 1];
    for (let row = 1; row <= count; row++) {
      const same = cost[row - 1]! + (part[row - 1] === read.bones[at] ? 0 : 1);
      const more = cost[row]! + 1;
      const less = next[row - 1]! + 1;
      const least = Math.min(same, more, less);
      next.push(least);
      start.push(
        least === same ? (row === 1 ? at : begun[row - 1]!) : least === more ? begun[row]! : start[row - 1]!,
      );
    }
    [cost, begun] = [next, start];
    const mistakes = cost[count]!;
    if (mistakes <= most && (best === null || mistakes < best.mistakes))
      best = { from: begun[count]!, to: at + 1, mistakes };
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

/** Three bones in a row. */
function threes(bones: string): Set<string> {
  const all = new Set<string>();
  for (let at = 0; at + 3 <= bones.length; at++) all.add(bones.slice(at, at + 3));
  return all;
}

/** Every mistake spoils three threes at most; with fewer in common there is no place for the part. */
function mayContain(near: ReadonlySet<string>, part: string): boolean {
  let missing = 0;
  const most = 3 * allowed(part);
  for (let at = 0; at + 3 <= part.length; at++) {
    if (!near.has(part.slice(at, at + 3))) missing++;
    if (missing > most) return false;
  }
  return true;
}

const textAt = (text: string, { places }: Skeleton, { from, to }: Span): string =>
  text.slice(places[from]!, (places[to - 1] ?? text.length - 1) + 1).replace(/\s+/g, ' ');
