/** Words that break into any question: danger, attack, a dying drive. Never missed; where it is unclear, doubtful. */
import type { Interrupts } from '#engine/catalogue.ts';
import { type Alarm, type Found, findWays, prepareAlarms, sparedWords } from './alarm-words.ts';
import { denials } from './denial.ts';
import { type Spoken, spoken } from './spoken.ts';

export interface Raised {
  interrupt: string;
  sure: boolean;
  /** The sentence that raised it, as typed. */
  words: string;
}

/** Feared, asked or long past: not sure. */
const NOT_NOW =
  /\b(?:if|in case|might|may|could(?! (?:see|smell|hear|feel))|would|afraid|worried|fear|risk|danger of|prevent|avoid|last (?:week|month|year|summer|winter|time)|yesterday|(?:hours?|days?|weeks?|months?|years?) ago|used to|once had|earlier|previously|back then|stopped|no longer|any ?more|not any longer|wenn|falls|gestern|letzte\w* (?:woche|monat|jahr)|vor \w+ (?:tagen|wochen|monaten|jahren)|nicht mehr|ob|si|il y a (?:un|une|deux|trois|\d+) (?:ans?|mois|jours?|semaines?)|ayer|hace (?:un|una|dos|tres|\d+))\b/i;
/** A question without a doubt in it is one that begins as one. */
const ASKS =
  /^\W*(?:is|are|was|were|isn't|isnt|aren't|could|can|would|will|does|do|did|should|may|might|has|have|what if|what happens|ist|sind|kann|est-ce|puede)\b/i;
/** "Isn't that smoke?" denies nothing. */
const ASKED_BACK = /^\W*\p{L}*n'?t\b/iu;
/** "Smoke?" */
const SHORT_QUESTION = 20;
const LONGEST_QUOTE = 300;
/** Words on either side that belong to it, in a sentence without an end. */
const NEAR = 40;
/** A mended word this long is hardly another one. */
const UNMISTAKABLE = 7;

/** The alarms that the text raises, highest rank first, each once. `symptom`: those that its own questions cover are left out. */
export function hearInterrupts(interrupts: Interrupts, text: string, symptom: string | null): Raised[] {
  const { alarms, spelling } = prepareAlarms(interrupts);
  // The name of a file is words too: READ_ME_TO_RESTORE.
  const said = spoken(text.replaceAll('_', ' '), spelling);
  const taken = new Set<number>();
  return alarms
    .filter(({ notFor }) => symptom === null || !notFor.includes(symptom))
    .flatMap(alarm => hear(alarm, text, said, taken) ?? []);
}

/** `taken`: places of words that surely say something worse. What was knocked over is the coffee, not a drive. */
function hear(alarm: Alarm, text: string, said: readonly Spoken[], taken: Set<number>): Raised | null {
  const spared = new Set([...sparedWords(alarm, said), ...taken]);
  const denied = denials(said, key => alarm.keys.has(key));
  let doubtful: Raised | null = null;
  for (const found of findWays(alarm, said, spared)) {
    const weighty = found.at.filter(at => !said[at]!.filler && !said[at]!.denier);
    // A phrase with a "not" of its own ("none of my files open") is meant so.
    const how = found.at.some(at => said[at]!.denier) ? [] : weighty.map(at => denied[at] ?? null);
    const { sentence, asked, after } = around(text, said, found);
    if (asked && isNo(said, after)) continue;
    if (how.includes('firm') && !(asked && ASKED_BACK.test(sentence))) continue;
    const words = sentence.slice(0, LONGEST_QUOTE);
    const raised = { interrupt: alarm.id, sure: false, words };
    const clear = found.way.sure && how.every(each => each === null) && written(said, weighty);
    if (clear && !NOT_NOW.test(sentence) && !(asked && isQuestion(sentence))) {
      for (const at of weighty) taken.add(at);
      return { ...raised, sure: true };
    }
    doubtful ??= raised;
  }
  return doubtful;
}

const isQuestion = (sentence: string): boolean => ASKS.test(sentence) || sentence.length <= SHORT_QUESTION;

/** At least one of the words was typed right, or is too long to be another. */
const written = (said: readonly Spoken[], weighty: readonly number[]): boolean =>
  weighty.length === 0 || weighty.some(at => !said[at]!.mended || said[at]!.text.length >= UNMISTAKABLE);

/** "Clicking? No." */
const isNo = (said: readonly Spoken[], at: number): boolean =>
  said[at]?.key === 'no' && said[at + 1]?.word.clause !== said[at]!.word.clause;

/** The words' sentence, or as much of it as stands near them. */
function around(
  text: string,
  said: readonly Spoken[],
  found: Found,
): { sentence: string; asked: boolean; after: number } {
  const { sentence } = said[found.from]!.word;
  const within = (at: number): boolean => said[at]?.word.sentence === sentence;
  let first = found.from;
  while (within(first - 1) && found.from - first < NEAR) first--;
  let last = found.to;
  while (within(last + 1) && last - found.to < NEAR) last++;
  const end = said[last]!.word.end;
  return {
    sentence: text.slice(said[first]!.word.start, end),
    asked: /^\s*\)?"?\?/.test(text.slice(end, end + 4)),
    after: last + 1,
  };
}
