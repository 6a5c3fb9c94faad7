/** How strongly words speak for each symptom: every phrase is weighed by how much of it was said, and how telling its words are. */
import type { Symptoms } from '#engine/catalogue.ts';
import { type Concept, conceptsOf, type Ear } from './concepts.ts';
import { type Leanings, lean, prepareLeanings } from './leaning.ts';
import { listen } from './words.ts';

interface Phrase {
  symptom: number;
  keys: string[];
  weight: number;
  /** Speaks against. */
  against: boolean;
}

export interface Phrases {
  symptoms: string[];
  phrases: Phrase[];
  /** Concept to the phrases it stands in. */
  byKey: Map<string, number[]>;
  /** How telling a concept is: the fewer symptoms speak of it, the more. */
  weights: Map<string, number>;
  leanings: Leanings;
}

export interface Evidence {
  /** What whole and half phrases say for it: 0 when nothing was said of it. */
  said: number;
  /** The same, with the way the single words lean: for telling symptoms apart. */
  score: number;
}

/** Half-said phrases count for little, and below this for nothing. */
const HALF = 0.55;
/** Further phrases say much the same again. */
const FURTHER = [1, 0.4, 0.2];
/** What is spread over two sentences, or over the whole text, counts for less. */
const NEIGHBOURS = 0.85;
const ANYWHERE = 0.6;
/** Texts up to this many concepts are also weighed as one. */
const SHORT = 60;
/** Concepts weighed at once in a sentence without an end, and how far the next such stretch begins. */
const STRETCH = 24;
const STRIDE = 12;
const AGAINST = 0.8;
/** How much the single words count beside the phrases. */
const LEANING = 0.35;

export function preparePhrases(hearing: Ear, catalogue: Symptoms): Phrases {
  const symptoms = Object.keys(catalogue);
  const phrases: Phrase[] = [];
  const seen = new Set<string>();
  const spoken: { symptom: number; keys: string[] }[] = [];
  for (const [symptom, name] of symptoms.entries()) {
    const { phrases: ways, also = {}, not = [] } = catalogue[name]!;
    const add = (way: string, against: boolean): void => {
      const keys = [...new Set(conceptsOf(hearing, listen(way)).map(concept => concept.key))];
      if (!against) spoken.push({ symptom, keys });
      const same = `${symptom} ${against} ${[...keys].sort().join(' ')}`;
      if (keys.length === 0 || seen.has(same)) return;
      seen.add(same);
      phrases.push({ symptom, keys, weight: 0, against });
    };
    for (const way of [...ways, ...Object.values(also).flat()]) add(way, false);
    for (const way of not) add(way, true);
  }
  const weights = telling(phrases, symptoms.length);
  const byKey = new Map<string, number[]>();
  for (const [index, phrase] of phrases.entries())
    for (const key of phrase.keys) {
      phrase.weight += weights.get(key)!;
      byKey.set(key, [...(byKey.get(key) ?? []), index]);
    }
  return { symptoms, phrases, byKey, weights, leanings: prepareLeanings(symptoms.length, spoken) };
}

function telling(phrases: readonly Phrase[], symptoms: number): Map<string, number> {
  const spoken = new Map<string, Map<number, number>>();
  const size = new Array<number>(symptoms).fill(0);
  for (const { symptom, keys, against } of phrases) {
    if (!against) size[symptom]!++;
    for (const key of keys) {
      const by = spoken.get(key) ?? new Map<number, number>();
      spoken.set(key, by.set(symptom, (by.get(symptom) ?? 0) + (against ? 0 : 1)));
    }
  }
  const weights = new Map<string, number>();
  for (const [key, by] of spoken) {
    const shares = [...by].map(([symptom, count]) => count / Math.max(1, size[symptom]!));
    const sum = shares.reduce((total, share) => total + share, 0);
    // Effective number of symptoms that speak of it: 1 when only one does.
    const spread = sum === 0 ? 1 : sum ** 2 / shares.reduce((total, share) => total + share ** 2, 0);
    weights.set(key, Math.log((symptoms + 1) / spread));
  }
  return weights;
}

export function weigh(prepared: Phrases, heard: readonly Concept[]): Map<string, Evidence> {
  const concepts = heard.map(concept => known(prepared, concept));
  const best = new Map<number, number>();
  for (const { keys, factor } of windows(concepts)) match(prepared, keys, factor, best);
  const bySymptom = new Map<number, { index: number; value: number }[]>();
  const totals = new Array<number>(prepared.symptoms.length).fill(0);
  for (const [index, value] of best) {
    const { symptom, against } = prepared.phrases[index]!;
    if (against) totals[symptom]! -= value * AGAINST;
    else bySymptom.set(symptom, [...(bySymptom.get(symptom) ?? []), { index, value }]);
  }
  for (const [symptom, matches] of bySymptom) totals[symptom]! += strongest(prepared, matches);
  const leaning = lean(prepared.leanings, keysOf(concepts.slice(0, SHORT)));
  return new Map(
    prepared.symptoms.map((name, index) => {
      const said = Math.max(0, totals[index]!);
      return [name, { said, score: said + LEANING * leaning[index]! }];
    }),
  );
}

/** "No internet" is about the internet: where no phrase has the denied word, the word itself counts. Never so for happenings. */
function known({ weights }: Phrases, concept: Concept): Concept {
  const { key } = concept;
  if (!key.startsWith('!') || key.startsWith('!#') || weights.has(key) || !weights.has(key.slice(1)))
    return concept;
  return { ...concept, key: key.slice(1) };
}

function strongest(prepared: Phrases, matches: { index: number; value: number }[]): number {
  let total = 0;
  const said = new Set<string>();
  let rank = 0;
  for (const { index, value } of matches.sort((a, b) => b.value - a.value || a.index - b.index)) {
    const { keys } = prepared.phrases[index]!;
    if (rank > 0 && keys.every(key => said.has(key))) continue;
    total += value * FURTHER[rank]!;
    for (const key of keys) said.add(key);
    if (++rank === FURTHER.length) break;
  }
  return total;
}

function match(
  { phrases, byKey, weights }: Phrases,
  keys: ReadonlySet<string>,
  factor: number,
  best: Map<number, number>,
): void {
  const said = new Map<number, number>();
  for (const key of keys)
    for (const index of byKey.get(key) ?? []) said.set(index, (said.get(index) ?? 0) + weights.get(key)!);
  for (const [index, weight] of said) {
    const phrase = phrases[index]!;
    const share = weight / phrase.weight;
    const whole = share > 0.999;
    if (share < HALF || (phrase.against && !whole)) continue;
    const value = factor * phrase.weight * (whole ? 1 : 0.7 * share ** 3);
    if (value > (best.get(index) ?? 0)) best.set(index, value);
  }
}

/** What is weighed together: each sentence, neighbouring sentences, and a short text as a whole. */
function* windows(concepts: readonly Concept[]): Generator<{ keys: ReadonlySet<string>; factor: number }> {
  const sentences: Concept[][] = [];
  let last = -1;
  for (const concept of concepts) {
    if (concept.word.sentence !== last || sentences.at(-1)!.length >= STRETCH) sentences.push([]);
    last = concept.word.sentence;
    sentences.at(-1)!.push(concept);
  }
  for (const [index, sentence] of sentences.entries()) {
    yield { keys: keysOf(sentence), factor: 1 };
    const next = sentences[index + 1];
    if (next === undefined) continue;
    const together = next[0]!.word.sentence === sentence[0]!.word.sentence ? 1 : NEIGHBOURS;
    yield { keys: keysOf([...sentence.slice(-STRIDE), ...next.slice(0, STRIDE)]), factor: together };
  }
  if (sentences.length > 2 && concepts.length <= SHORT) yield { keys: keysOf(concepts), factor: ANYWHERE };
}

const keysOf = (concepts: readonly Concept[]): Set<string> => new Set(concepts.map(({ key }) => key));
