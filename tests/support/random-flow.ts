/** Random small flows that compile, and random conversations over them: for properties that every flow must have. */
import fc from 'fast-check';
import { openStep } from '#engine/advance.ts';
import type { Entry } from '#engine/entries.ts';
import { fold } from '#engine/fold.ts';
import { mayInterrupt } from '#engine/interrupts.ts';
import type { Flow, FlowStep } from '#engine/schema.ts';
import type { Script } from '#engine/script.ts';
import { compiled } from './flows.ts';

const ANSWERS = { red: 'Red', green: 'Green', 'not-sure': "I'm not sure" };
const KEYS = Object.keys(ANSWERS);
const SIGNS = ['suspect', 'mechanical', 'hardware-failure', 'only-copy'] as const;

interface Shape {
  kind: 'ask' | 'text' | 'try' | 'say' | 'visit' | 'hand-over';
  when: number | null;
  sign: number | null;
  jump: number | null;
}

const shape: fc.Arbitrary<Shape> = fc.record({
  kind: fc.constantFrom('ask', 'ask', 'ask', 'text', 'try', 'say', 'visit', 'hand-over'),
  when: fc.option(fc.nat(50)),
  sign: fc.option(fc.nat(50)),
  jump: fc.option(fc.nat(50)),
});

/** Up to ten steps with conditions on earlier questions, signs and forward jumps. */
export const randomFlow: fc.Arbitrary<Flow> = fc
  .array(shape, { minLength: 1, maxLength: 10 })
  .map(shapes => ({ symptom: 'drive-noise', title: 'Random', steps: shapes.map(stepOf) }));

export const randomScript: fc.Arbitrary<Script> = randomFlow.map(given => compiled(given).script);

function stepOf(shaped: Shape, index: number, all: Shape[]): FlowStep {
  const id = `s${index}`;
  const asked = all.slice(0, index).flatMap((other, at) => (other.kind === 'ask' ? [`s${at}`] : []));
  const key = (seed: number) => KEYS[seed % KEYS.length]!;
  const when = shaped.when;
  const on = when === null ? undefined : asked[when % Math.max(1, asked.length)];
  const base = on === undefined || when === null ? {} : { if: { [on]: key(when) } };
  const later = all.slice(index + 1).map((_, offset) => `s${index + 1 + offset}`);
  const target = shaped.jump === null ? undefined : later[shaped.jump % Math.max(1, later.length)];
  const sign = shaped.sign === null ? undefined : SIGNS[shaped.sign % SIGNS.length];
  switch (shaped.kind) {
    case 'ask':
      return {
        ...base,
        id,
        ask: `Question ${id}?`,
        answers: ANSWERS,
        ...(sign ? { raises: { [key(shaped.sign!)]: [sign] } } : {}),
        ...(target ? { goes: { [key(shaped.jump!)]: target } } : {}),
        opening: { green: [id] },
      } as FlowStep;
    case 'text':
      return { ...base, id, ask: `Words for ${id}?`, optional: true } as FlowStep;
    case 'try':
      return { ...base, id, try: 'Do it.', effect: 'none', minutes: 1, fixed: 'usb-left-in' } as FlowStep;
    case 'say':
      return { ...base, id, say: `Said ${id}.` } as FlowStep;
    case 'visit':
      return { ...base, id, visit: 'noise' } as FlowStep;
    case 'hand-over':
      return { ...base, id, hand_over: {} } as FlowStep;
  }
}

/** What a person does at a question, as numbers to be read against whatever is open then. */
export interface Move {
  what:
    | 'answer'
    | 'back'
    | 'interrupt'
    | 'doubt'
    | 'missed'
    | 'again'
    | 'person'
    | 'stop'
    | 'nudge'
    | 'returned';
  pick: number;
}

export const randomMoves: fc.Arbitrary<Move[]> = fc.array(
  fc.record({
    what: fc.constantFrom<Move['what'][]>(
      'answer',
      'answer',
      'answer',
      'answer',
      'answer',
      'back',
      'interrupt',
      'doubt',
      'missed',
      'again',
      'person',
      'stop',
      'nudge',
      'returned',
    ),
    pick: fc.nat(1000),
  }),
  { maxLength: 25 },
);

export const opened = (at: number, waiting: string[] = []): Entry => ({
  kind: 'opened',
  at,
  words: 'it clicks',
  symptom: 'drive-noise',
  script: 'hash',
  candidates: [],
  waiting: Object.fromEntries(waiting.map(finding => [finding, { answer: 'green', words: finding }])),
  screen: null,
});

/** The entry that a move makes now, or null where it makes none. */
export function entryFor(script: Script, entries: Entry[], { what, pick }: Move, at: number): Entry | null {
  const { state } = fold(script, entries);
  const question = state.number;
  if (state.frames.length === 0 && state.outcome === null) return opened(at);
  if (what === 'again') return state.outcome === null ? { kind: 'always', what, words: what, at } : null;
  if (state.outcome !== null && what !== 'returned') return null;
  switch (what) {
    case 'answer':
      return answerFor(script, entries, pick, at);
    case 'back': {
      const given = state.answers[pick % Math.max(1, state.answers.length)];
      if (given === undefined || given.question < state.floor) return null;
      return {
        kind: 'back',
        at,
        to: given.question,
        why: 'asked',
        ...(given.fromOpening ? { forget: [given.finding] } : {}),
      };
    }
    case 'interrupt':
    case 'doubt': {
      const interrupt = pick % 2 === 0 ? 'danger' : 'mechanical';
      if (!mayInterrupt(script, state, interrupt)) return null;
      return { kind: 'interrupt', at, question, interrupt, sure: what === 'interrupt', words: 'smoke' };
    }
    case 'missed':
      return { kind: 'missed', at, question, words: 'mumble' };
    case 'nudge':
      return { kind: 'timer', at, what };
    case 'returned':
      return { kind: 'returned', at, words: 'hello' };
    case 'person':
    case 'stop':
      return { kind: 'always', what, words: what, at };
  }
}

const STANDING: Record<string, string[]> = { '@returned': ['same', 'solved'], '@doubt': ['yes', 'no'] };

function answerFor(script: Script, entries: Entry[], pick: number, at: number): Entry | null {
  const { state } = fold(script, entries);
  const base = { kind: 'answer' as const, at, question: state.number, words: 'typed' };
  const first = state.standing[0];
  if (first !== undefined) {
    const ids = STANDING[first.step] ?? [];
    return { ...base, step: first.step, value: { id: ids[pick % ids.length]! } };
  }
  const step = openStep(script, state);
  if (step === null) return null;
  const answer = step.answers[pick % Math.max(1, step.answers.length)];
  return {
    ...base,
    step: step.id,
    value: answer ? { id: answer.id } : pick % 2 ? { text: 'words' } : { skipped: true },
  };
}

/** Plays the moves from an opening; the whole history. */
export function play(script: Script, moves: Move[], waiting: string[] = []): Entry[] {
  const entries: Entry[] = [opened(1, waiting)];
  for (const move of moves) {
    const entry = entryFor(script, entries, move, entries.length + 1);
    if (entry !== null) entries.push(entry);
  }
  return entries;
}
