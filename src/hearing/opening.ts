/** Which symptom a person's first words are about. Pure and deterministic: the same words are always heard the same way. */
import type { OsCodes, ScreenMessages, Symptoms } from '#engine/catalogue.ts';
import { codeToken } from '#engine/tokens.ts';
import { conceptsOf, type Ear, ear } from './concepts.ts';
import { isGreeting } from './greeting.ts';
import { type Evidence, type Phrases, preparePhrases, weigh } from './phrases.ts';
import { CODE, type FoundScreen, findScreen, prepareScreens, type Screens, screenWords } from './screen.ts';
import { spell } from './spelling.ts';
import { codesIn } from './tokens.ts';
import { listen, type Word } from './words.ts';

export interface Openings {
  ear: Ear;
  phrases: Phrases;
  screens: Screens;
  /** Error numbers by the name that tokens.ts gives them. */
  codes: Map<string, OsCodes[string] & { id: string }>;
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
const SURE = 0.9;
/** Nearly as likely is enough where the second is so many times less likely: the rest is spread thinly over all the others. */
const NEARLY = 0.85;
const AHEAD = 25;
const ENOUGH = 3.2;
/** From here on something was said of a symptom. */
const NAMED = 1.1;
/** Added for something else where no word is about a drive, a file, a machine or what befalls them. */
const NO_STORAGE = 1;
/** So many words of which no phrase knows any are about something else. */
const UNKNOWN = 3;

export function prepareOpenings(catalogue: {
  symptoms: Symptoms;
  screenMessages: ScreenMessages;
  osCodes: OsCodes;
}): Openings {
  const screens = prepareScreens(catalogue.screenMessages);
  const spoken = Object.values(catalogue.symptoms).flatMap(({ phrases, also = {}, not = [] }) => [
    ...phrases,
    ...Object.values(also).flat(),
    ...not,
  ]);
  const hearing = ear([...spoken, ...screenWords(screens)]);
  const codes = new Map(
    Object.entries(catalogue.osCodes).map(([id, about]) => [
      codeToken(about.kind, about.code),
      { ...about, id },
    ]),
  );
  return { ear: hearing, phrases: preparePhrases(hearing, catalogue.symptoms), screens, codes };
}

export function hearOpening(openings: Openings, text: string): Opening {
  const words = ends(listen(text));
  const spelt = words.map(word => spell(openings.ear.spelling, word.text));
  const concepts = conceptsOf(openings.ear, words);
  const read = readOff(
    openings,
    text,
    words,
    spelt,
    concepts.some(({ key }) => key === '#share'),
  );
  const evidence = weigh(openings.phrases, concepts);
  const had = read === null ? undefined : evidence.get(read.symptom);
  if (read !== null && had !== undefined) {
    const more = 2.5 + Math.min(4, read.strength * 0.7);
    evidence.set(read.symptom, { said: had.said + more, score: had.score + more });
  }
  const away = evidence.get(OTHER);
  if (away !== undefined && !concepts.some(({ key }) => key.includes('#')))
    evidence.set(OTHER, { ...away, score: away.score + NO_STORAGE });
  const screen = read === null ? null : { id: read.id, verbatim: read.verbatim };
  const greeting = isGreeting(words.map(word => word.text));
  const known = concepts.some(({ key }) => openings.phrases.weights.has(key));
  const named = !greeting && (known || read !== null);
  // Many words, and not one that any phrase knows: something else, most likely.
  const other = !greeting && !named && concepts.length >= UNKNOWN;
  return { ...choose(evidence, named), ...(other ? { symptom: OTHER } : {}), screen, greeting };
}

/** What was read off a screen: the strongest message or error number. On a network drive some mean something else. */
function readOff(
  { screens, codes }: Openings,
  text: string,
  words: readonly Word[],
  spelt: readonly string[],
  ofShare: boolean,
): FoundScreen | null {
  const message = findScreen(screens, text, words, spelt);
  const number = codesIn(text)
    .flatMap(({ names, start, end }) => {
      const code = names.map(name => codes.get(name)).find(each => each !== undefined);
      return code === undefined ? [] : [{ ...code, verbatim: text.slice(start, end), strength: CODE }];
    })
    .at(0);
  const read = number !== undefined && number.strength > (message?.strength ?? 0) ? number : message;
  return read && { ...read, symptom: (ofShare && read.on_share) || read.symptom };
}

type Heard = [symptom: string, evidence: Evidence];

function choose(
  evidence: ReadonlyMap<string, Evidence>,
  named: boolean,
): Pick<Opening, 'symptom' | 'sure' | 'ranked' | 'candidates'> {
  const ordered = putFirst([...evidence].sort((a, b) => b[1].score - a[1].score));
  const ranked = likelihoods(ordered);
  const [first, second] = ordered;
  if (!named || first === undefined || second === undefined)
    return { symptom: null, sure: false, ranked, candidates: [] };
  const [symptom, { said }] = first;
  const storage = ordered.some(([other, one]) => other !== OTHER && one.said >= NAMED);
  const likely = ranked[0]!.score;
  const clear = likely >= SURE || (likely >= NEARLY && likely >= AHEAD * (ranked[1]?.score ?? 0));
  const sure = clear && said >= ENOUGH && (symptom !== OTHER || !storage);
  const close = ranked.slice(0, 3).filter(({ score }, index) => index < 2 || score > 0.1);
  return { symptom, sure, ranked, candidates: sure ? [] : close.map(one => one.symptom) };
}

/** The dangerous one first where it was said nearly as clearly; and turning away last where something else was said too. */
function putFirst(ordered: Heard[]): Heard[] {
  const top = ordered[0];
  if (top === undefined || DANGEROUS.includes(top[0])) return ordered;
  const [symptom, most] = top;
  const better = ordered.find(
    ([other, one]) =>
      other !== symptom &&
      ((DANGEROUS.includes(other) &&
        YIELDING.has(symptom) &&
        one.said >= ENOUGH &&
        one.said >= most.said * 0.55) ||
        (symptom === OTHER && one.said >= NAMED && one.said >= most.said * 0.8)),
  );
  if (better === undefined) return ordered;
  const raised: Heard = [better[0], { said: better[1].said, score: most.score + 0.5 }];
  return [raised, ...ordered.filter(one => one !== better)];
}

function likelihoods(ordered: readonly Heard[]): { symptom: string; score: number }[] {
  const highest = Math.max(...ordered.map(([, { score }]) => score));
  const powers = ordered.map(([, { score }]) => Math.exp((score - highest) * SHARPNESS));
  const sum = powers.reduce((total, power) => total + power, 0);
  return ordered.map(([symptom], index) => ({ symptom, score: powers[index]! / sum }));
}

const ends = (words: Word[]): Word[] =>
  words.length <= HEAD + TAIL ? words : [...words.slice(0, HEAD), ...words.slice(-TAIL)];
