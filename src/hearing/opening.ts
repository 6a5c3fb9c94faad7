/** Which symptom a person's first words are about. Pure and deterministic: the same words are always heard the same way. */
import type { ScreenMessages, Symptoms } from '#engine/catalogue.ts';
import { type Concept, conceptsOf, type Ear, ear } from './concepts.ts';
import { isGreeting } from './greeting.ts';
import { type Phrases, preparePhrases, weigh } from './phrases.ts';
import { findScreen, prepareScreens, type Screens, screenWords } from './screen.ts';
import { spell } from './spelling.ts';
import { listen, type Word } from './words.ts';

export interface Openings {
  ear: Ear;
  phrases: Phrases;
  screens: Screens;
}

export interface Opening {
  /** What to act on, or to offer first; null when nothing is named. */
  symptom: string | null;
  sure: boolean;
  /** All symptoms, likeliest first; scores add up to 1. */
  ranked: { symptom: string; score: number }[];
  /** The two or three likeliest when not sure; else none. */
  candidates: string[];
  screen: { id: string; verbatim: string } | null;
  /** Only hello, help, or nothing at all. */
  greeting: boolean;
}

export const OTHER = 'not-storage';
/** Heard first when two are named: waiting makes these worse. */
const DANGEROUS = ['drive-noise', 'raid-alarm', 'health-warning'];
/** They yield to a dangerous one that was clearly said too. */
const YIELDING = new Set([
  'drive-slow',
  'disk-full',
  'share-missing',
  'boot-no-device',
  'boot-no-os',
  'boot-read-error',
  'drive-missing-usb',
  'drive-missing-internal',
  'files-corrupt',
  'overheating',
  'files-lost',
  'raid-alarm',
  'health-warning',
]);
/** Words of a long text that are weighed: its beginning and its end. */
const HEAD = 700;
const TAIL = 200;
/** How sharply scores tell symptoms apart. */
const SHARPNESS = 0.9;
/** Sure only when this likely, this much said, and (for turning away) nothing about storage said. */
const SURE = 0.8;
const ENOUGH = 3.2;
/** Below this, nothing is named. */
const NAMED = 1.1;

export function prepareOpenings(catalogue: { symptoms: Symptoms; screenMessages: ScreenMessages }): Openings {
  const screens = prepareScreens(catalogue.screenMessages);
  const spoken = Object.values(catalogue.symptoms).flatMap(({ phrases, also = {}, not = [] }) => [
    ...phrases,
    ...Object.values(also).flat(),
    ...not,
  ]);
  const hearing = ear([...spoken, ...screenWords(screens)]);
  return { ear: hearing, phrases: preparePhrases(hearing, catalogue.symptoms), screens };
}

export function hearOpening(openings: Openings, text: string): Opening {
  const words = ends(listen(text));
  const spelt = words.map(word => spell(openings.ear.spelling, word.text));
  const found = findScreen(openings.screens, text, words, spelt);
  const concepts = conceptsOf(openings.ear, words);
  const scores = weigh(openings.phrases, concepts);
  if (found !== null)
    scores.set(found.symptom, (scores.get(found.symptom) ?? 0) + 2.5 + Math.min(4, found.strength * 0.7));
  const screen = found === null ? null : { id: found.id, verbatim: found.verbatim };
  const greeting = isGreeting(words.map(word => word.text));
  return { ...choose(scores, concepts, greeting), screen, greeting };
}

function choose(
  scores: ReadonlyMap<string, number>,
  concepts: readonly Concept[],
  greeting: boolean,
): Pick<Opening, 'symptom' | 'sure' | 'ranked' | 'candidates'> {
  const ordered = [...scores].sort((a, b) => b[1] - a[1]);
  const ranked = likelihoods(putFirst(ordered));
  const [first, second] = ranked;
  const said = first === undefined ? 0 : (scores.get(first.symptom) ?? 0);
  if (greeting || first === undefined || second === undefined || said < NAMED) {
    const other = !greeting && concepts.length >= 3 && said < NAMED;
    return { symptom: other ? OTHER : null, sure: false, ranked, candidates: [] };
  }
  const sure =
    first.score >= SURE &&
    said >= ENOUGH &&
    (first.symptom !== OTHER || (scores.get(second.symptom) ?? 0) < NAMED);
  const close = ranked.slice(0, 3).filter(({ score }, index) => index < 2 || score > 0.1);
  return { symptom: first.symptom, sure, ranked, candidates: sure ? [] : close.map(one => one.symptom) };
}

/** The dangerous one first where it was said nearly as clearly; and turning away last where something else was said too. */
function putFirst(ordered: [string, number][]): [string, number][] {
  const top = ordered[0];
  if (top === undefined) return ordered;
  const [symptom, said] = top;
  const better = ordered.find(
    ([other, weight]) =>
      other !== symptom &&
      ((DANGEROUS.includes(other) && YIELDING.has(symptom) && weight >= ENOUGH && weight >= said * 0.55) ||
        (symptom === OTHER && weight >= NAMED && weight >= said * 0.8)),
  );
  if (better === undefined || DANGEROUS.indexOf(symptom) > -1) return ordered;
  return [[better[0], said + 0.5], ...ordered.filter(one => one !== better)];
}

function likelihoods(ordered: [string, number][]): { symptom: string; score: number }[] {
  const highest = Math.max(0, ...ordered.map(([, weight]) => weight));
  const powers = ordered.map(([, weight]) => Math.exp((weight - highest) * SHARPNESS));
  const sum = powers.reduce((total, power) => total + power, 0);
  return ordered.map(([symptom], index) => ({ symptom, score: powers[index]! / sum }));
}

const ends = (words: Word[]): Word[] =>
  words.length <= HEAD + TAIL ? words : [...words.slice(0, HEAD), ...words.slice(-TAIL)];
