/** Per step of a segment: what is remembered there, and what the steps ahead can still tell apart. */
import { readsOf } from '#engine/condition.ts';
import type { Step } from '#engine/script.ts';
import type { Node } from './graph.ts';
import type { Live } from './live.ts';
import { Memo } from './memo.ts';
import { isOnlyRead, type Space } from './space.ts';
import type { Doors, Transition } from './transition.ts';
import { KEPT, type Kept, NOT_KEPT, type Reads } from './vectors.ts';

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
  /** By variable, what is kept of its value. */
  kept: Kept;
  /** Answers in groups that lead to the same; worked out when first needed. */
  answers: string[][] | null;
  /** By the act. */
  passes: Map<string, Memo<Transition>>;
  doors: Memo<Doors>;
  states: Memo<Node | Fork>;
}

/** One place for each step, and one behind the last. `breaking`: steps that can break in anywhere. */
export function placesOf(
  segment: string,
  steps: readonly Step[],
  live: readonly Live[],
  space: Space,
  breaking: readonly Step[],
): Place[] {
  const kept = keptAt(steps, live, space, breaking);
  return live.map((_, index) => ({
    ...{ segment, at: index, step: steps[index], kept: kept[index]! },
    ...{ answers: null, passes: new Map(), doors: new Memo<Doors>(), states: new Memo<Node | Fork>() },
  }));
}

/** Of findings that nothing ahead can read nothing is kept, and of the others what a condition ahead tells apart. */
function keptAt(
  steps: readonly Step[],
  live: readonly Live[],
  space: Space,
  breaking: readonly Step[],
): Kept[] {
  const compared = new Map<string, string[][]>();
  const add = (step: Step) => {
    const changed = new Set<string>();
    for (const { finding, values } of readsOf(step.if)) {
      const lists = compared.get(finding) ?? [];
      compared.set(finding, lists);
      const list = values.toSorted();
      if (lists.some(other => other.length === list.length && other.every((value, i) => value === list[i])))
        continue;
      lists.push(list);
      changed.add(finding);
    }
    return changed;
  };
  breaking.forEach(add);
  const classes = space.names.map((name, place) => space.classes(place, compared.get(name) ?? []));
  const kept: Kept[] = [];
  for (let at = steps.length; at >= 0; at--) {
    // Its own condition too: after what broke in at a question, it is read again.
    for (const finding of at < steps.length ? add(steps[at]!) : []) {
      const place = space.place(finding);
      if (place !== undefined) classes[place] = space.classes(place, compared.get(finding)!);
    }
    kept[at] = space.names.map((name, place) =>
      isOnlyRead(name) && !live[at]!.has(name) ? NOT_KEPT : (classes[place] ?? KEPT),
    );
  }
  return kept;
}

/** 1 for each variable that can be read. */
export const mask = (space: Space, live: Live): number[] =>
  space.names.map(name => (isOnlyRead(name) && !live.has(name) ? 0 : 1));
