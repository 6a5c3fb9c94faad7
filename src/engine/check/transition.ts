/** The engine's own moves from one question to the next, run under observation: what they read and what they set. */
import { advance, follow, type Watch } from '#engine/advance.ts';
import { readsOf } from '#engine/condition.ts';
import type { Outcome } from '#engine/entries.ts';
import { BLANK, end } from '#engine/fold.ts';
import { enter, mayInterrupt } from '#engine/interrupts.ts';
import type { Question, Script, Step } from '#engine/script.ts';
import { fresh, type State, URGENT } from '#engine/state.ts';
import { isMereWords } from './heard.ts';
import { filled, isPolicy, type Space, STARTED, said, starts } from './space.ts';
import { type Change, type Mask, none, type Vector } from './vectors.ts';

/** An answer ended it, a step of the flow, nothing (the steps were all passed), or the person at a question. */
export type EndedBy = 'answer' | 'flow' | 'nothing' | 'person' | 'stop' | 'left' | 'outage';

export interface Ending {
  by: EndedBy;
  /** The step that ended it, or the question at which the person did. */
  step: Step;
  outcome: Outcome;
}

export interface Transition {
  reads: Mask;
  writes: Change;
  /** A policy was read for which no value was taken yet; then nothing else here counts. */
  undecided: number | null;
  /** The next question's place in the segment, an ending, or neither: back out of an interrupt's questions. */
  at: number | null;
  ending: Ending | null;
  seen: { step: Step; taken: boolean }[];
  unset: { step: Step; finding: string }[];
}

/** What one can do at a question beside answering. */
export interface Doors {
  reads: Mask;
  interrupts: string[];
  endings: Ending[];
}

/** How a person ends a conversation at any question. */
const LEAVING = [
  ['person', 'escalated', 'asked-for-a-person'],
  ['stop', 'left', 'stopped'],
  ['left', 'left', 'left'],
  ['outage', 'known-outage', null],
] as const;

export type Act =
  | { kind: 'answer'; step: Question; answer: string }
  | { kind: 'enter'; interrupt: string }
  /** A doubtful word: its caution is said, then it was nothing. */
  | { kind: 'warn'; interrupt: string; caution: string }
  /** Goes on where it stands: at the opening, or after an interrupt's questions. */
  | { kind: 'go-on' };

export function pass(
  script: Script,
  space: Space,
  vector: Vector,
  segment: string,
  at: number,
  act: Act,
  heard: (step: Step) => boolean,
): Transition {
  const observed = new Observed(script.symptom, space, vector);
  const { state } = observed;
  const seen: Transition['seen'] = [];
  const unset: Transition['unset'] = [];
  const watch: Watch = {
    skips: step =>
      isMereWords(step) && heard(step) && readsOf(step.if).every(({ finding }) => finding in state.findings),
    passed: (step, taken) => seen.push({ step, taken }),
    unset: (step, finding) => unset.push({ step, finding }),
  };
  if (act.kind === 'enter') {
    enter(script, state, act.interrupt, watch);
  } else {
    state.frames = [{ segment, at }];
    if (act.kind === 'answer') {
      follow(script, state, act.step, act.answer);
      for (const field of act.step.fills) observed.set(filled(field));
      if (starts(act.step, act.answer)) observed.set(STARTED);
    }
  }
  const atOnce = act.kind === 'answer' && state.outcome !== null;
  if (act.kind === 'warn') observed.set(said(act.caution));
  else if (!atOnce && act.kind !== 'enter') advance(script, state, watch);
  for (const caution of state.cautions) observed.set(said(caution));
  const ending = state.outcome === null ? null : endingOf(state.outcome, atOnce, act, seen);
  const frame = state.frames.at(-1);
  return {
    reads: observed.reads,
    writes: observed.writes(),
    undecided: observed.undecided,
    at: ending === null && frame !== undefined ? frame.at : null,
    ending,
    seen,
    unset,
  };
}

function endingOf(outcome: Outcome, atOnce: boolean, act: Act, seen: Transition['seen']): Ending {
  const last = seen.at(-1);
  const asked = act.kind === 'answer' ? act.step : undefined;
  const step = (atOnce ? asked : (last?.step ?? asked))!;
  const ends = last?.taken && (last.step.kind === 'hand-over' || last.step.kind === 'end');
  return { by: atOnce ? 'answer' : ends ? 'flow' : 'nothing', step, outcome };
}

/** Which interrupts the question lets in, and how the conversation ends if the person ends it there. */
export function doors(
  script: Script,
  space: Space,
  vector: Vector,
  segment: string,
  at: number,
  step: Question,
): Doors {
  const observed = new Observed(script.symptom, space, vector);
  const { state } = observed;
  state.frames = [{ segment, at }];
  const interrupts = Object.keys(script.interrupts).filter(id => mayInterrupt(script, state, id));
  const due = URGENT.some(sign => state.findings[sign] === 'yes');
  // With a ticket due, an outage is not offered as the answer; see the fold.
  const endings = LEAVING.filter(([by]) => by !== 'outage' || !due).map(([by, how, because]): Ending => {
    state.outcome = null;
    end(state, { ...BLANK, how, because }, 0);
    return { by, step, outcome: state.outcome! };
  });
  return { reads: observed.reads, interrupts, endings };
}

/** A state of the engine whose findings are those of a vector, noting what is read and what is set. */
class Observed {
  readonly state: State;
  readonly reads: Mask;
  undecided: number | null = null;
  readonly #space: Space;
  readonly #written = new Map<number, number>();

  constructor(symptom: string, space: Space, vector: Vector) {
    this.#space = space;
    this.reads = none(space.words);
    this.state = fresh();
    this.state.findings = this.#findings(vector);
    this.state.symptom = symptom;
  }

  set(name: string): void {
    const place = this.#space.place(name);
    if (place !== undefined) this.#written.set(place, this.#space.code(place, 'yes'));
  }

  writes(): Change {
    return this.#space.change(this.#written);
  }

  #findings(vector: Vector): State['findings'] {
    /** `bits`: which of the variable's are looked at. */
    const now = (place: number, bits: number): number => {
      const own = this.#written.get(place);
      if (own !== undefined) return own;
      const { word, shift, ones } = this.#space.slot(place);
      this.reads[word] = this.reads[word]! | ((bits & ones) << shift);
      return this.#space.at(vector, place);
    };
    const place = (name: string | symbol) => this.#space.place(String(name));
    return new Proxy<State['findings']>(
      {},
      {
        get: (_, name) => {
          const found = place(name);
          if (found === undefined) return undefined;
          const code = now(found, -1);
          if (code === 0 && isPolicy(String(name))) this.undecided ??= found;
          return this.#space.value(found, code);
        },
        has: (_, name) => {
          const found = place(name);
          return found !== undefined && now(found, 1) !== 0;
        },
        set: (_, name, value: string) => {
          const found = place(name);
          if (found !== undefined) this.#written.set(found, this.#space.code(found, value));
          return true;
        },
        deleteProperty: (_, name) => {
          const found = place(name);
          if (found !== undefined) this.#written.set(found, 0);
          return true;
        },
      },
    );
  }
}
