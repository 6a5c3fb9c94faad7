/** Which faults are behind it, how likely each is, and what speaks for and against. */
import { ANY, type Faults } from '#engine/catalogue.ts';
import { answerKey } from '#engine/fold.ts';
import { worded } from '#engine/placeholders.ts';
import type { Question, Script } from '#engine/script.ts';
import type { State } from '#engine/state.ts';
import type { Suspect, Ticket } from './schema.ts';

/** Closed tickets that confirmed each fault. */
export type Confirmed = Readonly<Record<string, number>>;

/**
 * The script's faults, most likely first. A fault's share goes with (closed tickets that confirmed it + 1) x 2^(for - against),
 * evidence in bits; the shares add up to 1. `only`: these faults alone, whatever the script's are.
 */
export function suspectsOf(
  script: Script | null,
  state: Pick<State, 'symptom' | 'answers'>,
  faults: Faults,
  confirmed: Confirmed,
  only?: readonly string[],
): Suspect[] {
  if (script === null) return [];
  const spoken = spokenFor(script, state);
  const candidates = only ?? candidatesOf(script, state.symptom, faults);
  if (candidates.length === 0) return [];
  const bits = candidates.map(
    fault =>
      sum(spoken, fault, 'for') - sum(spoken, fault, 'against') + Math.log2((confirmed[fault] ?? 0) + 1),
  );
  // Taken off the exponent of all, so that no amount of evidence overflows.
  const most = Math.max(...bits);
  const weights = bits.map(each => 2 ** (each - most));
  const total = weights.reduce((all, weight) => all + weight, 0);
  return candidates
    .map((fault, index) => ({
      fault,
      name: faults[fault]?.name ?? fault,
      share: weights[index]! / total,
      hardware: faults[fault]?.hardware ?? false,
      for: wordsOf(spoken, fault, 'for', confirmed[fault] ?? 0),
      against: wordsOf(spoken, fault, 'against', 0),
    }))
    .toSorted((one, other) => other.share - one.share);
}

/** From this share on, what the faults have in common is called likely. Common practice, no source. */
const LIKELY = 2 / 3;

/** Is it hardware? Even shares that nothing speaks for say nothing. */
export function hardwareOf(suspects: readonly Suspect[], signs: Ticket['signs']): Ticket['isHardware'] {
  if (signs.includes('hardware-failure') || signs.includes('mechanical')) return 'yes';
  if (suspects.every(suspect => suspect.for.length + suspect.against.length === 0)) return 'unknown';
  const share = suspects.reduce((all, suspect) => all + (suspect.hardware ? suspect.share : 0), 0);
  return share >= LIKELY ? 'likely' : share <= 1 - LIKELY ? 'unlikely' : 'unknown';
}

/** The general script knows every fault; those of the symptom are meant. */
function candidatesOf(script: Script, symptom: string | null, faults: Faults): string[] {
  if (script.symptom !== ANY || symptom === null) return script.faults;
  const fitting = script.faults.filter(fault => faults[fault]?.symptoms.includes(symptom));
  return fitting.length > 0 ? fitting : script.faults;
}

interface Spoken {
  words: string;
  for: Record<string, number>;
  against: Record<string, number>;
}

/** The evidence of each answered step; of a step that was asked twice, what was said last. */
function spokenFor(script: Script, said: Pick<State, 'answers'>): Spoken[] {
  const last = new Map(said.answers.map(answer => [answer.step, answer]));
  return questionsOf(script).flatMap(step => {
    const answer = last.get(step.id);
    const key = answer === undefined ? null : answerKey(step, answer.value);
    const evidence = key === null ? undefined : step.after[key]?.evidence;
    return evidence && answer
      ? [{ words: `${worded(script, said, step.text)} ${answer.shown}`, ...evidence }]
      : [];
  });
}

/** Every question and self-help step of a script, interrupts last. */
export const questionsOf = (script: Script): Question[] =>
  [script.main, ...Object.values(script.interrupts).map(({ steps }) => steps)]
    .flat()
    .filter(step => step.kind === 'ask' || step.kind === 'try');

const sum = (spoken: Spoken[], fault: string, side: 'for' | 'against'): number =>
  spoken.reduce((all, each) => all + (each[side][fault] ?? 0), 0);

function wordsOf(spoken: Spoken[], fault: string, side: 'for' | 'against', confirmed: number): string[] {
  const said = spoken
    .filter(each => (each[side][fault] ?? 0) > 0)
    .toSorted((one, other) => other[side][fault]! - one[side][fault]!)
    .map(each => each.words);
  const before =
    confirmed === 1 ? 'It was the cause once before.' : `It was the cause ${confirmed} times before.`;
  return confirmed > 0 ? [...said, before] : said;
}
