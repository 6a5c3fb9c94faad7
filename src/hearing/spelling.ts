/** Typing mistakes: an unknown word becomes the known word it was surely meant to be, or stays as it is. */
import { distance } from 'fastest-levenshtein';
import { stem } from './stem.ts';

export interface Vocabulary {
  /** Words that mistakes are mended to. */
  words: ReadonlySet<string>;
  /** Common words that are right as they are, in any of their forms. */
  spared: ReadonlySet<string>;
  /** Each word with one letter left out, to the words it may have been. */
  shortened: ReadonlyMap<string, readonly string[]>;
}

/** Shorter words are too easily another word. */
const SHORTEST = 4;
/** From this length two mistakes are mended. */
const LONG = 8;
/** Longer strings are no words. */
const LONGEST = 30;

export function vocabulary(words: Iterable<string>, spared: Iterable<string> = []): Vocabulary {
  const all = new Set<string>();
  for (const word of words) if (/^\p{L}+$/u.test(word)) all.add(word);
  const shortened = new Map<string, string[]>();
  const right = new Set(spared);
  for (const word of all.union(right))
    if (word.length >= SHORTEST - 1 && word.length <= LONGEST)
      for (const form of forms(word)) {
        const others = shortened.get(form);
        if (others === undefined) shortened.set(form, [word]);
        else others.push(word);
      }
  return { words: all, spared: new Set([...right].flatMap(inflected)), shortened };
}

/** The word, or the one known word that is nearest to it: one mistake, in long words two. A tie is no answer. */
export function spell({ words, spared, shortened }: Vocabulary, word: string): string {
  if (words.has(word) || spared.has(word)) return word;
  if (word.length < SHORTEST || word.length > LONGEST || !/^\p{L}+$/u.test(word)) return word;
  const once = word.replace(/(\p{L})\1{2,}/gu, '$1');
  if (once !== word) {
    if (words.has(once) || spared.has(once)) return once;
    const twice = word.replace(/(\p{L})\1{2,}/gu, '$1$1');
    if (words.has(twice)) return twice;
  }
  let best = word;
  let least = Number.POSITIVE_INFINITY;
  let tie = false;
  for (const form of forms(once))
    for (const known of shortened.get(form) ?? []) {
      if (known === best || prefixed(once, known)) continue;
      const cost = mistakes(once, known);
      if (cost < least) {
        best = known;
        least = cost;
        tie = false;
      } else if (cost === least && stem(known) !== stem(best)) tie = true;
    }
  return !tie && least <= (once.length >= LONG ? 2 : 1.4) ? best : word;
}

/** English endings; that some of these are no words does no harm. */
function inflected(word: string): string[] {
  const bare = word.endsWith('e') ? word.slice(0, -1) : word;
  const twice = /[aeiou][bdgklmnprt]$/.test(word) ? word + word.at(-1) : word;
  const endings = ['ing', 'ed', 'er', 'y', 'ly', 'es', 'able'].map(ending => bare + ending);
  return [word, `${word}s`, `${word}'s`, `${word}ly`, `${twice}ing`, `${twice}ed`, ...endings];
}

/** "Reinstalled" and "unlocked" are no misspelt "installed" and "locked". */
const prefixed = (a: string, b: string): boolean =>
  Math.abs(a.length - b.length) > 1 && (a.endsWith(b) || b.endsWith(a));

/** Swapped neighbours are one mistake; a wrong first letter is rarer than others. */
function mistakes(typed: string, known: string): number {
  const plain = distance(typed, known);
  const swapped = plain === 2 && typed.length === known.length && isSwap(typed, known) ? 1 : plain;
  return typed[0] === known[0] ? swapped : swapped + (typed.length > 5 ? 0.4 : 0.6);
}

function isSwap(a: string, b: string): boolean {
  let at = 0;
  while (a[at] === b[at]) at++;
  return a[at] === b[at + 1] && a[at + 1] === b[at];
}

function* forms(word: string): Generator<string> {
  yield word;
  for (let at = 0; at < word.length; at++) yield word.slice(0, at) + word.slice(at + 1);
}
