/** From one question to the next: runs what needs no answer and says what is to be said on the way. */
import { holds } from './condition.ts';
import type { Outcome } from './entries.ts';
import { valueAfter } from './findings.ts';
import type { Caution, Say } from './messages.ts';
import { worded, wordedStep } from './placeholders.ts';
import { isDeskTopic, type Sign } from './schema.ts';
import {
  type CautionWords,
  type Consequence,
  type HandOverStep,
  type Question,
  type Script,
  type Step,
  verdictOf,
  type WorkStep,
} from './script.ts';
import { type State, URGENT } from './state.ts';

export type Saying = Say | Caution;

/** For the checker, which must see what happens between two questions. */
export interface Watch {
  /** A step was arrived at; `taken` is false when its condition failed, its finding was known or nobody asks. */
  passed(step: Step, taken: boolean): void;
  /** Words whose condition need not be read: whether they are said is nothing to whoever watches. */
  skips?(step: Step): boolean;
  /** The step's condition read a finding that nothing has set. */
  unset(step: Step, finding: string): void;
}

/** Steps of the open segment. */
export const stepsOf = (script: Script, segment: string): Step[] =>
  segment === 'main' ? script.main : (script.interrupts[segment]?.steps ?? []);

export const isQuestionStep = (step: Step | undefined): step is Question =>
  step?.kind === 'ask' || step?.kind === 'try';

/** The script's open question as the person reads it, or null between matters and after the outcome. Standing questions come before it. */
export function openStep(script: Script, state: State): Question | null {
  const frame = state.frames.at(-1);
  if (frame === undefined || state.outcome !== null) return null;
  const step = stepsOf(script, frame.segment)[frame.at];
  return isQuestionStep(step) ? wordedStep(script, state, step) : null;
}

/** Moves `state` to its next question or outcome. Ends because each step is passed at most once per segment. */
export function advance(script: Script, state: State, watch?: Watch): Saying[] {
  const said: Saying[] = [];
  while (state.outcome === null) {
    const frame = state.frames.at(-1);
    if (frame === undefined) break;
    const steps = stepsOf(script, frame.segment);
    const step = steps[frame.at];
    if (step === undefined) {
      if (frame.segment === 'main') {
        // The checker forbids a flow that simply stops; a person is the safe end all the same.
        state.outcome = handedOver(null);
      } else {
        state.frames.pop();
      }
      continue;
    }
    if (watch?.skips?.(step)) {
      watch.passed(step, false);
      frame.at += 1;
      continue;
    }
    const open = holds(step.if, state.findings, watch && (({ finding }) => watch.unset(step, finding)));
    const known = step.kind === 'ask' && (step.finding in state.findings || wordsKnown(step, state));
    watch?.passed(step, open && !known);
    if (step.kind === 'gate') {
      frame.at = open ? frame.at + 1 : indexOf(steps, step.else);
      continue;
    }
    if (!open || known) {
      frame.at += 1;
      continue;
    }
    if (isQuestionStep(step)) {
      const waiting = step.kind === 'ask' ? state.waiting[step.finding] : undefined;
      const label = waiting === undefined ? null : heardAs(step, waiting.answer);
      if (waiting === undefined || label === null) {
        said.push(...step.cautions.flatMap(id => caution(script, state, id)));
        break;
      }
      delete state.waiting[step.finding];
      said.push({ kind: 'say', text: saidBack(wordedStep(script, state, step), label) });
      const told = waiting.answer === 'given';
      record(state, step, {
        question: state.number,
        value: told ? { text: waiting.words } : { id: waiting.answer },
        shown: told ? waiting.words : label,
        words: waiting.words,
        at: 0,
        fromOpening: true,
      });
      said.push(...follow(script, state, step, waiting.answer));
      continue;
    }
    if (step.kind === 'work') {
      const verdict = state.findings[verdictOf(step.id)];
      // Not worked out yet: its entry comes next.
      if (verdict === undefined) break;
      state.findings[step.finding] = verdict;
      said.push(...told(state, step));
      const then = step.verdicts[verdict];
      said.push(...settle(script, state, step.id, then));
      frame.at = then?.goes ? indexOf(steps, then.goes) : frame.at + 1;
      continue;
    }
    if (step.kind === 'say') said.push({ kind: 'say', text: worded(script, state, step.text) });
    if (step.kind === 'caution') said.push(...caution(script, state, step.caution));
    if (step.kind === 'hand-over') {
      state.outcome = handedOver(step, step.because && worded(script, state, step.because));
      state.ticketDue = true;
      continue;
    }
    if (step.kind === 'end') {
      const text = step.text && worded(script, state, step.text);
      const result = step.how === 'done' ? text : null;
      if (text !== null && result === null) said.push({ kind: 'say', text });
      state.outcome = guard(state, { how: step.how, fault: null, because: null, text: result, keep: null });
      continue;
    }
    frame.at += 1;
  }
  return said;
}

/** The words on the screen stood in the opening already; nobody types them twice. */
export const wordsKnown = (step: Question, state: State): boolean =>
  state.screen !== null && step.fills.length === 1 && step.fills[0] === 'message';

/** How it is said back. Of an open question's answer only what it was about: the words are the person's own. */
function heardAs({ answers, fills }: Question, answer: string): string | null {
  if (answer !== 'given') return answers.find(({ id }) => id === answer)?.label ?? null;
  if (fills.includes('contact.way')) return 'where it is, and how to reach you';
  return fills.some(field => field.startsWith('history.')) ? 'how it came about' : null;
}

/** What says nothing without its question. */
const BARE = /^(?:another|the other|other|something else|none|neither)\b/i;
const saidBack = (step: Question, label: string): string =>
  `${(step.kind === 'ask' && step.form === 'yes-no') || BARE.test(label) ? `${step.text} ` : ''}From what you wrote: **${label}**. If that is wrong, say *back*.`;

/** What an answer brings with it, then past the step. */
export function follow(script: Script, state: State, step: Question, answer: string): Saying[] {
  const frame = state.frames.at(-1);
  const then: Consequence | undefined = step.after[answer];
  state.findings[step.finding] = valueAfter(step, answer);
  const said = settle(script, state, step.id, then);
  if (frame !== undefined) {
    frame.at = then?.goes ? indexOf(stepsOf(script, frame.segment), then.goes) : frame.at + 1;
  }
  if (step.kind === 'try' && answer === 'fixed' && !then?.goes) {
    state.outcome = guard(state, { how: 'fixed', fault: step.fixed, because: null, text: null, keep: null });
  }
  return said;
}

/** Findings, signs and evidence that come with an answer or a verdict. */
function settle(script: Script, state: State, step: string, then: Consequence | undefined): Saying[] {
  const said: Saying[] = [];
  for (const [finding, value] of Object.entries(then?.sets ?? {})) state.findings[finding] = value;
  for (const sign of then?.clears ?? []) lower(state, sign);
  for (const sign of then?.raises ?? []) said.push(...raise(script, state, sign));
  if (then && hasEvidence(then)) state.evidence.push({ step, evidence: then.evidence });
  return said;
}

function told({ worked }: State, { id, tells }: WorkStep): Say[] {
  const says = tells ? (worked.findLast(({ step }) => step === id)?.says ?? []) : [];
  return says.map(text => ({ kind: 'say', text }));
}

/** The working whose verdict is waited for, or null. */
export function pendingWork(script: Script, state: State): WorkStep | null {
  const frame = state.frames.at(-1);
  if (frame === undefined || state.outcome !== null) return null;
  const step = stepsOf(script, frame.segment)[frame.at];
  return step?.kind === 'work' && state.findings[verdictOf(step.id)] === undefined ? step : null;
}

export function record(
  state: State,
  step: Question,
  given: Omit<State['answers'][number], 'step' | 'finding'>,
): void {
  state.answers.push({ ...given, step: step.id, finding: step.finding });
  if (step.kind === 'try' && 'id' in given.value) {
    state.tried.push({ step: step.id, text: step.text, effect: step.effect, result: given.value.id });
  }
}

/** Raises a sign and says its caution, once. What it was before is not looked at: that spares the checker telling it apart. */
export function raise(script: Script, state: State, sign: Sign): Saying[] {
  state.findings[sign] = 'yes';
  if (!state.signs.includes(sign)) {
    state.signs.push(sign);
    if (sign === 'danger') state.floor = state.number;
  }
  if (URGENT.includes(sign)) state.ticketDue = true;
  const id = script.onSign[sign];
  return id === undefined ? [] : caution(script, state, id);
}

function lower(state: State, sign: Sign): void {
  state.findings[sign] = 'no';
  state.signs = state.signs.filter(other => other !== sign);
}

export function caution(script: Script, state: State, id: string): Caution[] {
  const words = script.cautions[id];
  if (words === undefined || state.cautions.includes(id)) return [];
  const text = cautionText(words, state);
  state.cautions.push(id);
  return [{ kind: 'caution', id, text }];
}

/** What was said before may order the opposite; then it says which of the two holds. */
export function cautionText({ text, takesOver = {} }: CautionWords, { cautions }: State): string {
  const instead = new Set(cautions.flatMap(id => takesOver[id] ?? []));
  return [text, ...instead].join('\n\n');
}

/** A failing device is never called fixed, left or somebody else's matter: it is handed over. A technician has it in hand already. */
export function guard(state: State, outcome: Outcome): Outcome {
  if (outcome.how === 'escalated' || !isUrgent(state)) return outcome;
  state.ticketDue = true;
  return { ...outcome, how: 'escalated', fault: null, because: outcome.because ?? 'sign' };
}

const isUrgent = ({ findings, symptom }: State): boolean =>
  URGENT.some(sign => findings[sign] === 'yes' && !(sign === 'hardware-failure' && isDeskTopic(symptom)));

/** `because`: as the person reads it. */
export function handedOver(step: HandOverStep | null, because: string | null = null): Outcome {
  return {
    how: 'escalated',
    fault: null,
    because: 'script',
    text: because,
    keep: step === null || step.keep === 'as-usual' ? null : step.keep,
  };
}

function indexOf(steps: Step[], id: string): number {
  const index = steps.findIndex(step => step.id === id);
  return index === -1 ? steps.length : index;
}

const hasEvidence = (then: Consequence) =>
  Object.keys(then.evidence.for).length + Object.keys(then.evidence.against).length > 0;
