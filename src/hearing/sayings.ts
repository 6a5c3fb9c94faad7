/** How far the answers' labels and phrases stand in what was said. */
import { type Forms, formsOf } from './forms.ts';
import { type Vocabulary, vocabulary } from './spelling.ts';
import { type Phrase, type Place, phrase, places, type Spoken } from './spoken.ts';
import { listen } from './words.ts';

export interface Sayable {
  id: string;
  label: string;
  hears: readonly string[];
  /** Ids of answers that it is meant before, where the words of both are said. */
  over?: readonly string[] | undefined;
}

interface Ways {
  id: string;
  over: readonly string[];
  /** Its label, its phrases and its id as they stand. */
  forms: Forms[];
  phrases: Phrase[];
  /** Words of the label, and of the label and all phrases. */
  label: ReadonlySet<string>;
  all: ReadonlySet<string>;
}

export interface Sayables {
  ways: readonly Ways[];
  spelling: Vocabulary;
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
/** So many more words than any other answer's settle it. */
const CLEARLY = 2;
const ready = new WeakMap<readonly Sayable[], Sayables>();

export function prepareSayables(options: readonly Sayable[]): Sayables {
  const had = ready.get(options);
  if (had !== undefined) return had;
  const shared = sharedParts(options);
  const ways = options.map(({ id, label, hears, over = [] }): Ways => {
    const parts = labelParts(label).filter(part => !shared.has(plainly(part)));
    const phrases = [...hears, ...parts, id.replaceAll('-', ' ')].map(phrase);
    return {
      id,
      over,
      forms: waysOf({ id, label, hears }).map(formsOf),
      phrases: phrases.filter(({ weight, words }) => weight > 0 || words.some(isCannot)),
      label: keysOf([phrase(label)]),
      all: keysOf(phrases),
    };
  });
  const words = options.flatMap(waysOf).flatMap(listen);
  const made = { ways, spelling: vocabulary(words.map(({ text }) => text)) };
  ready.set(options, made);
  return made;
}

const waysOf = ({ id, label, hears }: Sayable): string[] => [label, ...hears, id.replaceAll('-', ' ')];

/** A label and, where it has halves, each of them: "Off, or unplugged". What stands in brackets explains. */
export function labelParts(label: string): string[] {
  const plain = label.replace(/\([^)]*\)/g, '');
  const parts = plain.split(/[,;:]| or /).filter(part => !/^\s*(?:yes|no)?\s*$/i.test(part));
  // "A message about date, time or lost settings": a word of a longer list is no answer.
  const lengths = parts.map(part => part.trim().split(/\s+/).length);
  const list = lengths.every(length => length <= 2);
  return [plain, ...parts.filter((_part, at) => list || lengths[at]! >= 2)];
}

const plainly = (part: string): string => part.trim().toLowerCase();

/** Halves that two labels have: "On" of "On, here" and "On, elsewhere". */
function sharedParts(options: readonly Sayable[]): Set<string> {
  const seen = new Set<string>();
  const shared = new Set<string>();
  for (const { label } of options)
    for (const part of new Set(labelParts(label).map(plainly))) (seen.has(part) ? shared : seen).add(part);
  return shared;
}

function keysOf(phrases: readonly Phrase[]): Set<string> {
  const keys = new Set<string>();
  for (const { words } of phrases)
    for (const { key, denied, denier, filler } of words) if (!filler && !denier && !denied) keys.add(key);
  return keys;
}

export function sayings({ ways }: Sayables, said: readonly Spoken[]): Said {
  if (said.length === 0) return NONE;
  const hits = ways.flatMap(({ id, phrases }) => phrases.flatMap(way => hitsOf(id, way, said)));
  const weighty = hits.some(({ weight }) => weight > 0) ? hits.filter(({ weight }) => weight > 0) : hits;
  const whole = weighty.filter(hit => !weighty.some(other => other.id !== hit.id && holds(other, hit)));
  const named = new Set(whole.map(({ id }) => id));
  const ids = new Set([...named].filter(id => !ways.some(way => named.has(way.id) && way.over.includes(id))));
  const [one] = ids;
  if (ids.size === 1) return { kind: 'one', id: one!, strong: true };
  if (ids.size > 1) return heavier(whole.filter(({ id }) => ids.has(id)));
  const partly = partial(ways, said);
  return partly.kind === 'none' ? denied(ways, said) : partly;
}

function hitsOf(id: string, way: Phrase, said: readonly Spoken[]): Hit[] {
  return way.words.every(({ denier }) => denier) && !way.words.some(isCannot)
    ? []
    : [...places(way, said, 0)].map(place => ({ ...place, id, weight: way.weight }));
}

/** "I can't reach it" says that something was not done, whatever it was. */
const isCannot = ({ key }: Pick<Spoken, 'key'>): boolean => key === 'cannot';

const holds = (outer: Place, inner: Place): boolean =>
  outer.from <= inner.from && outer.to >= inner.to && outer.to - outer.from > inner.to - inner.from;

/** One answer was said in clearly more words than any other, or none of them. */
function heavier(hits: readonly Hit[]): Said {
  const best = new Map<string, number>();
  for (const { id, weight } of hits) best.set(id, Math.max(best.get(id) ?? 0, weight));
  const [first, second] = [...best].sort((a, b) => b[1] - a[1]);
  const clear = first !== undefined && first[1] >= (second?.[1] ?? 0) + CLEARLY;
  return clear ? { kind: 'one', id: first[0], strong: true } : { kind: 'several' };
}

/** Words of labels and phrases: those that only one answer has tell it from the others. */
function partial(ways: readonly Ways[], said: readonly Spoken[]): Said {
  const doubted = new Set(said.filter(({ denier }) => denier).map(({ word }) => word.clause));
  const plain = said.filter(({ filler, word }) => !filler && !doubted.has(word.clause));
  const keys = new Set(plain.map(({ key }) => key));
  if (keys.size === 0) return NONE;
  const scores = ways.map(({ id, all, label }) => {
    const shared = [...keys].filter(key => all.has(key));
    const alone = shared.filter(key => ways.every(other => other.id === id || !other.all.has(key))).length;
    const covered = label.size === 0 ? 0 : [...keys].filter(key => label.has(key)).length / label.size;
    return { id, alone, whole: shared.length === keys.size, covered };
  });
  const short = said.length <= SHORT;
  const wholes = scores.filter(({ whole }) => whole).length;
  const fits = scores.filter(
    ({ alone, whole, covered }) =>
      (covered >= MOST && (alone > 0 || wholes <= 1)) ||
      (alone > 0 && (whole || (short && alone * 2 >= keys.size))),
  );
  const chosen = fits.length > 0 ? fits : scores.filter(({ whole }) => whole && short);
  if (chosen.length > 1) return { kind: 'several' };
  const [one] = chosen;
  return one === undefined ? NONE : { kind: 'one', id: one.id, strong: one.covered >= MOST };
}

function denied(ways: readonly Ways[], said: readonly Spoken[]): Said {
  const heard = ways.filter(({ phrases }) =>
    phrases.some(way => {
      if (way.words.some(({ denier }) => denier)) return false;
      for (const { from, to } of places(way, said, 1, false))
        if (said.slice(from, to + 1).some(one => one.denied)) return true;
      return false;
    }),
  );
  return heard.length === 1 ? { kind: 'denied', id: heard[0]!.id } : NONE;
}
