/**
 * The interrupts' questions. They do not depend on what they break into, so flows that have the same ones share what was
 * explored of them: each flow then costs its own questions only.
 */
import type { Script } from '#engine/script.ts';
import { type Coverage, nothingYet } from './coverage.ts';
import type { Node } from './graph.ts';
import { liveIn } from './live.ts';
import { isAboutArray, isAboutStarting, isDesk } from './names.ts';
import { mask, type Place, placesOf } from './places.ts';
import { commonTo, type Layout, Space } from './space.ts';

export interface Shared {
  /** One of the flows': its interrupts are those of all. */
  script: Script;
  /** Stands first in the space of every flow. */
  layout: Layout;
  space: Space;
  /** By interrupt. */
  places: ReadonlyMap<string, readonly Place[]>;
  /** By interrupt: 1 for each variable that can be read after its questions, in any of the flows. */
  outer: ReadonlyMap<string, readonly number[]>;
  nodes: ReadonlyMap<string, Node[]>;
  coverage: Coverage;
}

/** What is shared, for each of the scripts. */
export function sharedBy(scripts: readonly Script[]): (script: Script) => Shared {
  const groups = new Map<string, Script[]>();
  const keys = new Map(scripts.map(script => [script, keyOf(script)]));
  for (const script of scripts)
    groups.set(keys.get(script)!, [...(groups.get(keys.get(script)!) ?? []), script]);
  const shared = new Map<string, Shared>();
  return script => {
    const key = keys.get(script)!;
    const known = shared.get(key) ?? share(groups.get(key)!);
    shared.set(key, known);
    return known;
  };
}

/** Everything that the rules and the engine look at of a script while an interrupt's questions are asked. */
const keyOf = (script: Script): string =>
  JSON.stringify([
    ...[isDesk(script), isAboutStarting(script), isAboutArray(script)],
    ...[script.interrupts, script.onSign],
  ]);

function share(scripts: readonly Script[]): Shared {
  const [first] = scripts as [Script];
  const layout = commonTo(scripts);
  const space = new Space(layout);
  const live = scripts.map(liveIn);
  const ids = Object.keys(first.interrupts);
  const places = new Map(
    ids.map(id => [id, placesOf(id, first.interrupts[id]!.steps, live[0]!.get(id)!, space)]),
  );
  const rank = (segment: string) => first.interrupts[segment]?.about.rank ?? 0;
  const outer = ids.map((id): [string, number[]] => {
    const lower = live.flatMap(each => [...each].filter(([other]) => rank(other) < rank(id)));
    const read = new Set(lower.flatMap(([, steps]) => steps.flatMap(step => [...step])));
    return [id, mask(space, read)];
  });
  const nodes = new Map(ids.map((id): [string, Node[]] => [id, []]));
  return { script: first, layout, space, places, outer: new Map(outer), nodes, coverage: nothingYet() };
}
