/** How far the answers' labels and phrases stand in what was said. */
import { type Phrase, type Place, phrase, places, type Spoken } from './spoken.ts';

export interface Sayable {
  id: string;
  label: string;
  hears: readonly string[];
}

export type Said =
  /** `strong`: a whole phrase, or most of a label. */
  | { kind: 'one'; id: string; strong: boolean }
  | { kind: 'several' }
  /** Words of this answer, with a "not" before them. */
  | { kind: 'denied'; id: string }
  | { kind: 'none' };

interface Hit extends Place {
  id: string;
  weight: number;
}

const NONE: Said = { kind: 'none' };
/** A label's words that must have been said for it to count as said; else part of it must be all that was said. */
const MOST = 0.75;
/** Short texts are heard by single words of labels. */
const SHORT = 6;

export function sayings(options: readonly Sayable[], said: readonly Spoken[]): Said {
  if (said.length === 0) return NONE;
  const hits = options.flatMap(option => phrasesOf(option).flatMap(way => hitsOf(option.id, way, said)));
  const whole = hits.filter(hit => !hits.some(other => other.id !== hit.id && holds(other, hit)));
  const ids = new Set(whole.map(({ id }) => id));
  if (ids.size === 1) return { kind: 'one', id: whole[0]!.id, strong: true };
  if (ids.size > 1) return heavier(whole) ?? { kind: 'several' };
  const partly = partial(options, said);
  if (partly.kind !== 'none') return partly;
  return denied(options, said);
}

function phrasesOf({ label, hears }: Sayable): Phrase[] {
  return [...hears, ...labelParts(label)]
    .map(phrase)
    .filter(({ words, weight }) => weight > 0 || words.some(({ denier }) => denier));
}

/** A label and, where it has two halves, each of them: "Off, or unplugged". */
function labelParts(label: string): string[] {
  const plain = label.replace(/\([^)]*\)/g, '');
  return [plain, ...plain.split(/[,;:]| or /).filter(part => part.trim().split(/\s+/).length >= 2)];
}

function hitsOf(id: string, way: Phrase, said: readonly Spoken[]): Hit[] {
  const bare = way.words.length === 1 && way.words[0]!.denier;
  if (bare) return [];
  return [...places(way, said, 0)].map(place => ({ ...place, id, weight: way.weight }));
}

const holds = (outer: Place, inner: Place): boolean =>
  outer.from <= inner.from && outer.to >= inner.to && outer.to - outer.from > inner.to - inner.from;

/** One answer was said in clearly more words than any other. */
function heavier(hits: readonly Hit[]): Said | null {
  const best = new Map<string, number>();
  for (const { id, weight } of hits) best.set(id, Math.max(best.get(id) ?? 0, weight));
  const [first, second] = [...best].sort((a, b) => b[1] - a[1]);
  if (first === undefined || second === undefined) return null;
  return first[1] >= second[1] + 2 ? { kind: 'one', id: first[0], strong: true } : null;
}

/** Words of labels and phrases: those that only one answer has tell it from the others. */
function partial(options: readonly Sayable[], said: readonly Spoken[]): Said {
  const telling = said.filter(({ filler, denier, denied }) => !filler && !denier && !denied);
  if (telling.length === 0 || said.some(({ denier }) => denier)) return NONE;
  const keys = new Set(telling.map(({ key }) => key));
  const scores = options.map(option => {
    const own = ownKeys([option.label, ...option.hears]);
    const label = ownKeys([option.label]);
    const shared = [...keys].filter(key => own.has(key));
    const alone = shared.filter(
      key => !options.some(other => other !== option && ownKeys([other.label, ...other.hears]).has(key)),
    );
    const covered = label.size === 0 ? 0 : [...keys].filter(key => label.has(key)).length / label.size;
    return { id: option.id, alone: alone.length, shared: shared.length, covered };
  });
  const short = said.length <= SHORT;
  const fits = scores.filter(({ alone, shared, covered }) => {
    const all = shared === keys.size;
    return covered >= MOST || (alone > 0 && (all || (short && alone * 2 >= keys.size)));
  });
  if (fits.length === 1) return { kind: 'one', id: fits[0]!.id, strong: fits[0]!.covered >= MOST };
  if (fits.length > 1) return { kind: 'several' };
  const full = scores.filter(({ shared }) => shared === keys.size && short);
  if (full.length > 1) return { kind: 'several' };
  return full.length === 1 ? { kind: 'one', id: full[0]!.id, strong: false } : NONE;
}

function ownKeys(texts: readonly string[]): Set<string> {
  const keys = new Set<string>();
  for (const text of texts)
    for (const { key, denied, denier, filler } of phraseWords(text))
      if (!filler && !denier && !denied) keys.add(key);
  return keys;
}
const phraseWords = (text: string) => phrase(text).words;

function denied(options: readonly Sayable[], said: readonly Spoken[]): Said {
  const heard = options.filter(option =>
    phrasesOf(option).some(way => {
      if (way.words.some(({ denier }) => denier)) return false;
      for (const { from, to } of places(way, said, 1, false))
        if (said.slice(from, to + 1).some(one => one.denied)) return true;
      return false;
    }),
  );
  return heard.length === 1 ? { kind: 'denied', id: heard[0]!.id } : NONE;
}
