/** Per step of a segment: what is remembered there, and what the steps ahead can read. */
import type { Step } from '#engine/script.ts';
import type { Node } from './graph.ts';
import type { Live } from './live.ts';
import { Memo } from './memo.ts';
import { isOnlyRead, type Space } from './space.ts';
import type { Doors, Transition } from './transition.ts';
import type { Reads } from './vectors.ts';

/** A question at which a rule looks at a policy that has no value yet. */
export interface Fork {
  policy: number;
  reads: Reads;
}

export interface Place {
  segment: string;
  at: number;
  /** The step there; undefined behind the last one. */
  step: Step | undefined;
  /** 1 for each variable that can still be read. */
  live: readonly number[];
  /** Answers in groups that lead to the same; worked out when first needed. */
  answers: string[][] | null;
  /** By the act. */
  passes: Map<string, Memo<Transition>>;
  doors: Memo<Doors>;
  states: Memo<Node | Fork>;
}

/** One place for each step, and one behind the last. */
export const placesOf = (
  segment: string,
  steps: readonly Step[],
  live: readonly Live[],
  space: Space,
): Place[] =>
  live.map((each, index) => ({
    ...{ segment, at: index, step: steps[index], live: mask(space, each) },
    ...{ answers: null, passes: new Map(), doors: new Memo<Doors>(), states: new Memo<Node | Fork>() },
  }));

/** 1 for each variable that can be read. */
export const mask = (space: Space, live: Live): number[] =>
  space.names.map(name => (isOnlyRead(name) && !live.has(name) ? 0 : 1));
