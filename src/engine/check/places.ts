/** Per step of a segment: what is remembered there, and what the steps ahead can still tell apart. */
import type { Step } from '#engine/script.ts';
import type { Found, Node } from './graph.ts';
import { tells } from './heard.ts';
import type { Live } from './live.ts';
import { Memo } from './memo.ts';
import { isOnlyRead, type Space } from './space.ts';
import type { Doors } from './transition.ts';
import { type Change, isIn, type Kept, type Mask } from './vectors.ts';
import type { Ways } from './ways.ts';
import type { Back } from './ways-back.ts';

/** A question at which a rule looks at a policy that has no value yet. */
export interface Fork {
  policy: number;
  reads: Mask;
}

/** What the rules say to a question, and to its ending by the person. */
export interface Look {
  reads: Mask;
  decided: boolean;
  found: readonly Found[];
  leaving: Node['leaving'];
}

export interface Place {
  segment: string;
  at: number;
  /** The step there; undefined behind the last one. */
  step: Step | undefined;
  kept: Kept;
  /** Worked out when first needed. */
  ways: Ways | null;
  doors: Memo<Doors>;
  looks: Memo<Look | Fork>;
  states: Memo<Node | Fork>;
  /** Ways back from an interrupt's first question, by what was set on the way to it. */
  backs: Map<Node | null, Map<Change, readonly Back[]>>;
}

/**
 * One place for each step, and one behind the last. `breaking`: steps that can break in anywhere; `heard`: words that were had
 * already; see `tells`.
 */
export function placesOf(
  segment: string,
  steps: readonly Step[],
  live: readonly Live[],
  space: Space,
  breaking: readonly Step[],
  heard: ReadonlySet<string> = new Set(),
): Place[] {
  const kept = keptAt(steps, live, space, breaking, heard);
  return live.map((_, at) => ({
    segment,
    at,
    step: steps[at],
    kept: kept[at]!,
    ways: null,
    doors: new Memo(),
    looks: new Memo(),
    states: new Memo(),
    backs: new Map(),
  }));
}

/** Of findings that nothing ahead can read nothing is kept, and of the others what a condition ahead tells apart. */
function keptAt(
  steps: readonly Step[],
  live: readonly Live[],
  space: Space,
  breaking: readonly Step[],
  heard: ReadonlySet<string>,
): Kept[] {
  const always = space.mask(space.names.keys().filter(place => !isOnlyRead(space.names[place]!)));
  const compared = new Map<string, (readonly string[])[]>();
  const classes = new Map<number, Kept['stands'][number]>();
  const tellApart = (finding: string) => {
    const place = space.place(finding);
    if (place === undefined) return;
    const bits = space.classes(place, compared.get(finding) ?? []);
    if (bits === null) classes.delete(place);
    else classes.set(place, { slot: space.slot(place), bits });
  };
  const add = (step: Step | undefined) => {
    if (step === undefined) return;
    for (const { finding, values } of tells(step, heard)) {
      const lists = compared.get(finding) ?? [];
      if (lists.includes(values)) continue;
      compared.set(finding, [...lists, values]);
      tellApart(finding);
    }
  };
  space.names.forEach(tellApart);
  breaking.forEach(add);
  const kept: Kept[] = [];
  for (let at = steps.length; at >= 0; at--) {
    // Its own condition too: after what broke in at a question, it is read again.
    add(steps[at]);
    const mask = always.slice();
    for (const finding of live[at]!) {
      const place = space.place(finding);
      if (place !== undefined) space.cover(mask, place);
    }
    kept[at] = { mask, stands: [...classes.values()].filter(({ slot }) => isIn(mask, slot)) };
  }
  return kept;
}
