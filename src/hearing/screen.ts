/** A message from a screen, found inside free text and kept as it was typed. */
import type { ScreenMessages } from '#engine/catalogue.ts';
import { listen, type Word } from './words.ts';

interface Pattern {
  id: string;
  symptom: string;
  on_share: string | undefined;
  /** Words in order; null for any few words. */
  parts: (string | null)[];
  /** Words that may be wrong or left out. */
  slack: number;
}

export interface Screens {
  patterns: Pattern[];
  /** A pattern's first word to the patterns that begin with it. */
  byFirst: Map<string, number[]>;
}

export interface FoundScreen {
  id: string;
  verbatim: string;
  symptom: string;
  /** The same where it is about a network drive. */
  on_share?: string | undefined;
  /** Words of the message that were there; a code counts as several. */
  strength: number;
}

/** What `*` may stand for at most, in words. */
const GAP = 8;
export const CODE = 4;
/** A quotation is kept whole up to this many characters. */
const LONGEST_QUOTE = 400;
const ARTICLES = new Set(['a', 'an', 'the']);

export function prepareScreens(messages: ScreenMessages): Screens {
  const patterns: Pattern[] = [];
  const byFirst = new Map<string, number[]>();
  for (const [id, { texts, symptom, on_share }] of Object.entries(messages))
    for (const text of texts) {
      const parts = partsOf(text);
      const words = parts.filter(part => part !== null).length;
      const first = parts[0];
      if (typeof first !== 'string') throw new Error(`the message ${id} must begin with a word: ${text}`);
      const index =
        patterns.push({ id, symptom, on_share, parts, slack: words < 5 ? 0 : words < 9 ? 1 : 2 }) - 1;
      byFirst.set(first, [...(byFirst.get(first) ?? []), index]);
    }
  return { patterns, byFirst };
}

/** All words that a message may begin or go on with, for the spelling. */
export const screenWords = ({ patterns }: Screens): Set<string> =>
  new Set(patterns.flatMap(({ parts }) => parts.filter(part => part !== null)));

function partsOf(text: string): (string | null)[] {
  const parts: (string | null)[] = [];
  for (const [index, piece] of text.split('*').entries()) {
    // The star of \\* is a path to any share, which is one word.
    if (piece.endsWith('\\\\')) parts.push(...texts(piece.slice(0, -2)), ...texts('\\\\any\\path'));
    else {
      if (index > 0 && parts.at(-1) !== texts('\\\\any\\path')[0]) parts.push(null);
      parts.push(...texts(piece));
    }
  }
  while (parts.at(-1) === null) parts.pop();
  return parts.length > 1 && ARTICLES.has(parts[0] ?? '') ? parts.slice(1) : parts;
}

const texts = (piece: string): string[] => listen(piece).map(word => word.text);

/** The strongest message in the words, or null. `spelt` are the words with their typing mistakes mended. */
export function findScreen(
  { patterns, byFirst }: Screens,
  text: string,
  words: readonly Word[],
  spelt: readonly string[],
): FoundScreen | null {
  let best: Read | null = null;
  for (let at = 0; at < words.length; at++)
    for (const index of byFirst.get(spelt[at]!) ?? []) {
      const pattern = patterns[index]!;
      const span = align(pattern, spelt, at);
      if (span !== null && (best === null || outweighs({ ...span, pattern }, best)))
        best = { ...span, pattern };
    }
  if (best === null) return null;
  const { pattern, strength } = best;
  const from = ARTICLES.has(spelt[best.from - 1] ?? '') ? best.from - 1 : best.from;
  const verbatim = wholeQuote(text, words[from]!.start, words[best.to]!.end);
  const { id, symptom, on_share } = pattern;
  return { id, symptom, on_share, verbatim, strength };
}

interface Read extends Span {
  pattern: Pattern;
}

/** The stronger; but a start that ended says more than the drive's errors that scrolled by above it. */
function outweighs(one: Read, other: Read): boolean {
  const [ended, ran] = [endsStart(one), endsStart(other)];
  const errors = (ended ? other : one).pattern.symptom === 'health-warning';
  return ended !== ran && errors ? ended : one.strength > other.strength;
}
const endsStart = ({ pattern }: Read): boolean => pattern.symptom === 'boot-no-os';

interface Span {
  from: number;
  /** The last word, included. */
  to: number;
  strength: number;
}

function align({ parts, slack }: Pattern, spelt: readonly string[], from: number): Span | null {
  const walk = (part: number, at: number, left: number): Span | null => {
    const wanted = parts[part];
    if (wanted === undefined) return { from, to: at - 1, strength: 0 };
    if (wanted === null) {
      for (let skip = 0; skip <= GAP && at + skip < spelt.length; skip++) {
        if (spelt[at + skip] !== parts[part + 1]) continue;
        const rest = walk(part + 1, at + skip, left);
        if (rest !== null) return rest;
      }
      return null;
    }
    if (spelt[at] === wanted) {
      const rest = walk(part + 1, at + 1, left);
      return rest === null ? null : { ...rest, strength: rest.strength + worth(wanted) };
    }
    if (left === 0 || at >= spelt.length || isCode(wanted)) return null;
    return (
      walk(part + 1, at + 1, left - 1) ??
      walk(part, at + 1, left - 1) ??
      (part + 1 < parts.length ? walk(part + 1, at, left - 1) : null)
    );
  };
  return walk(0, from, slack);
}

const isCode = (word: string): boolean => /\d/.test(word);
const worth = (word: string): number => (/^0x/.test(word) || word.includes('_') ? CODE : 1);

/** Quotation marks around the message say where it begins and ends; without them it is what matched. */
function wholeQuote(text: string, start: number, end: number): string {
  const before = /["“„«']([^"“”„«»\n]*)$/u.exec(text.slice(Math.max(0, start - LONGEST_QUOTE), start));
  const after = /^([^"“”„«»\n]*)["”“»']/u.exec(text.slice(end, end + LONGEST_QUOTE));
  const opened = before !== null && (before[0][0] !== "'" || /^'\s*$/.test(before[0]));
  const closed = after !== null && (!after[0].endsWith("'") || /^[\s.!?]*'$/.test(after[0]));
  if (!opened || !closed || after === null || before === null) return text.slice(start, end);
  return text.slice(start - before[1]!.length, end + after[1]!.length).trim();
}
