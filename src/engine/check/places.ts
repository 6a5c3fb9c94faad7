/** Per step of each segment: what is remembered there, and what the steps ahead can read. */
import type { Script, Step } from '#engine/script.ts';
import type { Node } from './graph.ts';
import { type Live, liveIn } from './live.ts';
import { Memo } from './memo.ts';
import type { Space } from './space.ts';
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
  /** By the act. */
  passes: Map<string, Memo<Transition>>;
  doors: Memo<Doors>;
  states: Memo<Node | Fork>;
}

export interface Places {
  /** By segment, one for each step and one behind the last. */
  at: ReadonlyMap<string, readonly Place[]>;
  /** By interrupt: 1 for each variable that can be read after its questions. */
  outer: ReadonlyMap<string, readonly number[]>;
}

export function placesIn(script: Script, space: Space): Places {
  const mask = (live: Live) =>
    space.names.map(name => (name in script.findings && !space.isWatched(name) && !live.has(name) ? 0 : 1));
  const at = new Map<string, Place[]>();
  for (const [segment, live] of liveIn(script)) {
    const steps = segment === 'main' ? script.main : script.interrupts[segment]!.steps;
    at.set(
      segment,
      live.map((each, index) => ({
        ...{ segment, at: index, step: steps[index], live: mask(each) },
        ...{ passes: new Map(), doors: new Memo<Doors>(), states: new Memo<Node | Fork>() },
      })),
    );
  }
  const rank = (segment: string) => script.interrupts[segment]?.about.rank ?? 0;
  const outer = [...at.keys()].map((segment): [string, number[]] => {
    const lower = [...at].filter(([other]) => rank(other) < rank(segment)).flatMap(([, places]) => places);
    return [segment, space.names.map((_, place) => Math.max(0, ...lower.map(({ live }) => live[place]!)))];
  });
  return { at, outer: new Map(outer) };
}
