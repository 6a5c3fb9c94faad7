/**
 * What flows share of what was explored. The interrupts' questions do not depend on what they break into: flows that have
 * the same ones cost their own questions only. Flows whose own questions are the same too cost nothing more.
 */
import type { Script } from '#engine/script.ts';
import { type Coverage, nothingYet } from './coverage.ts';
import type { Node } from './graph.ts';
import { liveIn } from './live.ts';
import { isDesk, kindOf } from './names.ts';
import { type Place, placesOf } from './places.ts';
import { Settled } from './settled.ts';
import { commonTo, isOnlyRead, type Layout, ownTo, Space } from './space.ts';
import { interruptSteps } from './written.ts';

export interface Shared {
  /** One of the flows': its interrupts are those of all. */
  script: Script;
  /** Stands first in the space of every flow. */
  layout: Layout;
  space: Space;
  /** By interrupt. */
  places: ReadonlyMap<string, readonly Place[]>;
  /** By interrupt: what can be read after its questions, in any of the flows. */
  outer: ReadonlyMap<string, readonly number[]>;
  nodes: ReadonlyMap<string, Node[]>;
  coverage: Coverage;
  /** Of the flow that was explored last: those with the same questions follow each other. */
  last: Own | null;
}

/** A flow's own questions, and what was explored of them. */
export interface Own {
  /** The same for another flow with the same questions, of which the rules see nothing else. */
  key: string;
  space: Space;
  settled: Settled;
  places: readonly Place[];
  nodes: Node[];
  coverage: Coverage;
}

/** Of all flows at once they would fill the memory. */
export function ownOf(script: Script, shared: Shared): Own {
  const { layout, space } = shared;
  const { main, findings, cautions } = script;
  const key = JSON.stringify([main, findings, Object.keys(cautions), kindOf(script)]);
  if (shared.last?.key === key) return shared.last;
  const wide = new Space(layout, ownTo(script, layout));
  const live = liveIn(script).get('main')!;
  const own: Own = {
    key,
    space: wide,
    settled: new Settled(script, wide, space.names.length),
    places: placesOf('main', main, live, wide, interruptSteps(script)),
    nodes: [],
    coverage: nothingYet(),
  };
  shared.last = own;
  return own;
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
const keyOf = (script: Script): string => JSON.stringify([isDesk(script), script.interrupts, script.onSign]);

const isRead = (name: string, read: ReadonlySet<string>): boolean => !isOnlyRead(name) || read.has(name);

function share(scripts: readonly Script[]): Shared {
  const [first] = scripts as [Script];
  const layout = commonTo(scripts);
  const space = new Space(layout);
  const live = scripts.map(liveIn);
  const ids = Object.keys(first.interrupts);
  const rank = (segment: string) => first.interrupts[segment]?.about.rank ?? 0;
  const places = new Map(
    ids.map(id => {
      const higher = ids.filter(other => rank(other) > rank(id));
      const breaking = higher.flatMap(other => first.interrupts[other]!.steps);
      return [id, placesOf(id, first.interrupts[id]!.steps, live[0]!.get(id)!, space, breaking)];
    }),
  );
  const outer = ids.map((id): [string, number[]] => {
    const lower = live.flatMap(each => [...each].filter(([other]) => rank(other) < rank(id)));
    const read = new Set(lower.flatMap(([, steps]) => steps.flatMap(step => [...step])));
    return [id, space.mask(space.names.keys().filter(at => isRead(space.names[at]!, read)))];
  });
  const nodes = new Map(ids.map((id): [string, Node[]] => [id, []]));
  const coverage = nothingYet();
  return { script: first, layout, space, places, outer: new Map(outer), nodes, coverage, last: null };
}
