/** Which symptom a person's first words are about. Pure and deterministic: the same words are always heard the same way. */
import type { OsCodes, ScreenMessages, Symptoms } from '#engine/catalogue.ts';
import { codeToken } from '#engine/tokens.ts';
import { type Concept, conceptsOf, type Ear, ear, isThing } from './concepts.ts';
import { featuresOf } from './features.ts';
import { isGreeting } from './greeting.ts';
import { judge, type Model, prepareModel } from './model.ts';
import { type Evidence, type Phrases, preparePhrases, weigh } from './phrases.ts';
import { CODE, type FoundScreen, findScreen, prepareScreens, type Screens, screenWords } from './screen.ts';
import { spell } from './spelling.ts';
import { codesIn } from './tokens.ts';
import { listen, type Word } from './words.ts';

export interface Openings {
  ear: Ear;
  phrases: Phrases;
  screens: Screens;
  model: Model;
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
/** How sharply the phrases' scores tell symptoms apart. */
const SHARPNESS = 0.9;
/** How much the phrases count beside the model, and the least that either leaves of a symptom. */
const PHRASES = 0.5;
const LEAST = 1e-3;
/** Sure only when this likely, this much said, and (for turning away) nothing about storage said. */
const SURE = 0.95;
/** Nearly as likely is enough where the second is so many times less likely: the rest is spread thinly over all the others. */
const NEARLY = 0.85;
const AHEAD = 25;
const ENOUGH = 3.2;
/** Less said is enough where nothing else is likely: "my laptop won't start". */
const CERTAIN = 0.98;
const LITTLE = 2;
/** A third is offered from here on. */
const THIRD = 0.02;
/** From here on something was said of a symptom. */
const NAMED = 1.1;
/** Added for something else where no word is about a drive, a file, a machine or what befalls them. */
const NO_STORAGE = 1;
/** As many logarithms below the likeliest, another is not raised above it. */
const WITHIN_DANGER = 3;
const WITHIN_OTHER = 1.5;
/** The model leaves at least this to the symptom of an error number or of a message read word for word, for every word of it. */
const READ = 0.08;
const MOST_READ = 0.4;
/** The model alone names a symptom from here on. */
const JUDGED = 0.7;
/** So many words of which no phrase knows any are about something else. */
const UNKNOWN = 2;

export function prepareOpenings(
  catalogue: {
    symptoms: Symptoms;
    screenMessages: ScreenMessages;
    osCodes: OsCodes;
  },
  model: Model = prepareModel(),
): Openings {
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
  return { ear: hearing, phrases: preparePhrases(hearing, catalogue.symptoms), screens, model, codes };
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
  const judged = judge(openings.model, featuresOf(words, concepts));
  const known =
    concepts.some(({ key }) => openings.phrases.weights.has(key)) ||
    [...judged.values()].some(share => share >= JUDGED);
  const named = !greeting && (known || read !== null);
  if (read !== null)
    judged.set(
      read.symptom,
      Math.max(judged.get(read.symptom) ?? 0, Math.min(MOST_READ, read.strength * READ)),
    );
  // Many words, and not one that any phrase knows: something else, most likely.
  const other = !greeting && !named && concepts.length >= UNKNOWN;
  const heard = choose(evidence, judged, named);
  if (other) return { ...heard, symptom: OTHER, screen, greeting };
  const doubt = heard.sure && heard.symptom !== OTHER && read === null && ofSomethingElse(openings, concepts);
  return { ...heard, ...(doubt ? unsure(heard.ranked) : {}), screen, greeting };
}

/** "The parking deck is full": it happens to something that nothing about storage speaks of. */
function ofSomethingElse({ phrases }: Openings, concepts: readonly Concept[]): boolean {
  const { said } = phrases.leanings;
  const ofStorage = said.filter((_, at) => phrases.symptoms[at] !== OTHER);
  return (
    !concepts.some(({ key }) => isThing(key)) &&
    concepts.some(({ key }) => !key.includes('#') && !ofStorage.some(words => words.has(key)))
  );
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
  judged: ReadonlyMap<string, number>,
  named: boolean,
): Pick<Opening, 'symptom' | 'sure' | 'ranked' | 'candidates'> {
  const ordered = putFirst(together(evidence, judged));
  const shares = likelihoods(ordered.map(([, { score }]) => score));
  const ranked = ordered.map(([symptom], at) => ({ symptom, score: shares[at]! }));
  const [first, second] = ordered;
  if (!named || first === undefined || second === undefined)
    return { symptom: null, sure: false, ranked, candidates: [] };
  const [symptom, { said }] = first;
  const storage = ordered.some(([other, one]) => other !== OTHER && one.said >= NAMED);
  const likely = ranked[0]!.score;
  const clear = likely >= SURE || (likely >= NEARLY && likely >= AHEAD * (ranked[1]?.score ?? 0));
  const sure = clear && said >= (likely >= CERTAIN ? LITTLE : ENOUGH) && (symptom !== OTHER || !storage);
  return sure ? { symptom, sure, ranked, candidates: [] } : { symptom, ranked, ...unsure(ranked) };
}

/** The two likeliest are offered, and the third where it is not far off. */
function unsure(ranked: Opening['ranked']): Pick<Opening, 'sure' | 'candidates'> {
  const close = ranked.slice(0, 3).filter(({ score }, index) => index < 2 || score > THIRD);
  return { sure: false, candidates: close.map(one => one.symptom) };
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
        one.score >= most.score - WITHIN_DANGER &&
        one.said >= ENOUGH &&
        one.said >= most.said * 0.55) ||
        (symptom === OTHER && one.score >= most.score - WITHIN_OTHER)),
  );
  if (better === undefined) return ordered;
  const raised: Heard = [better[0], { said: better[1].said, score: most.score + 0.5 }];
  return [raised, ...ordered.filter(one => one !== better)];
}

/** Phrases and model as one: scores are logarithms of how likely each symptom is, likeliest first. */
function together(evidence: ReadonlyMap<string, Evidence>, judged: ReadonlyMap<string, number>): Heard[] {
  const heard = [...evidence];
  const phrased = likelihoods(heard.map(([, { score }]) => score * SHARPNESS));
  return heard
    .map(([symptom, { said }], at): Heard => {
      const score = PHRASES * Math.log(phrased[at]! + LEAST) + Math.log((judged.get(symptom) ?? 0) + LEAST);
      return [symptom, { said, score }];
    })
    .sort((a, b) => b[1].score - a[1].score);
}

/** Shares that add up to 1, of natural logarithms. */
function likelihoods(scores: readonly number[]): number[] {
  const highest = Math.max(...scores);
  const powers = scores.map(score => Math.exp(score - highest));
  const sum = powers.reduce((total, power) => total + power, 0);
  return powers.map(power => power / sum);
}

const ends = (words: Word[]): Word[] =>
  words.length <= HEAD + TAIL ? words : [...words.slice(0, HEAD), ...words.slice(-TAIL)];
