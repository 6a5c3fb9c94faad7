/**
 * What flows share of what was explored. The interrupts' questions do not depend on what they break into: flows that have
 * the same ones cost their own questions only. Flows whose own questions are the same too cost nothing more.
 */
import type { Compiled } from '#engine/compile.ts';
import type { Script } from '#engine/script.ts';
import { type Coverage, nothingYet } from './coverage.ts';
import type { Node } from './graph.ts';
import { type Heard, heardIn } from './heard.ts';
import { type Live, liveIn } from './live.ts';
import { isDesk, kindOf } from './names.ts';
import { type Place, placesOf } from './places.ts';
import { commonTo, isOnlyRead, type Layout, ownTo, Space } from './space.ts';
import { interruptSteps } from './written.ts';

export interface Shared {
  /** One of the flows': its interrupts are those of all. */
  script: Script;
  /** Stands first in the space of every flow. */
  layout: Layout;
  space: Space;
  /** By script and segment. */
  live: ReadonlyMap<Script, ReadonlyMap<string, readonly Live[]>>;
  /** By interrupt. */
  places: ReadonlyMap<string, readonly Place[]>;
  /** By interrupt: what can be read after its questions, in any of the flows. */
  outer: ReadonlyMap<string, readonly number[]>;
  nodes: ReadonlyMap<string, Node[]>;
  coverage: Coverage;
  heard: Heard;
  /** Of the flow that was explored last: those with the same questions follow each other. */
  last: Own | null;
}

/** A flow's own questions, and what was explored of them. */
export interface Own {
  script: Script;
  space: Space;
  places: readonly Place[];
  nodes: Node[];
  coverage: Coverage;
  /** Steps that are mere words and were had by another flow. */
  heard: ReadonlySet<string>;
}

/** Of all flows at once they would fill the memory. */
export function ownOf(compiled: Compiled, shared: Shared): Own {
  const { script } = compiled;
  const { layout } = shared;
  if (shared.last !== null && asksTheSame(script, shared.last.script)) return shared.last;
  const wide = new Space(layout, ownTo(script, layout));
  const live = shared.live.get(script)!.get('main')!;
  const heard = heardIn(compiled, shared.heard);
  const own: Own = {
    script,
    space: wide,
    places: placesOf('main', script.main, live, wide, interruptSteps(script), heard),
    nodes: [],
    coverage: nothingYet(),
    heard,
  };
  shared.last = own;
  return own;
}

/** Has the other the same questions? Of anything else the rules see nothing. */
function asksTheSame(one: Script, other: Script): boolean {
  if (one.main.length !== other.main.length) return false;
  const seen = ({ main, findings, cautions }: Script) => [main, findings, Object.keys(cautions)];
  return JSON.stringify([...seen(one), kindOf(one)]) === JSON.stringify([...seen(other), kindOf(other)]);
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
  const live = new Map(scripts.map(script => [script, liveIn(script)]));
  const ids = Object.keys(first.interrupts);
  const rank = (segment: string) => first.interrupts[segment]?.about.rank ?? 0;
  const places = new Map(
    ids.map(id => {
      const higher = ids.filter(other => rank(other) > rank(id));
      const breaking = higher.flatMap(other => first.interrupts[other]!.steps);
      return [id, placesOf(id, first.interrupts[id]!.steps, live.get(first)!.get(id)!, space, breaking)];
    }),
  );
  const outer = ids.map((id): [string, number[]] => {
    const lower = [...live.values()].flatMap(each => [...each].filter(([other]) => rank(other) < rank(id)));
    // At the first step everything lies ahead.
    const read = new Set(lower.flatMap(([, steps]) => [...steps[0]!]));
    return [id, space.mask(space.names.keys().filter(at => isRead(space.names[at]!, read)))];
  });
  const nodes = new Map(ids.map((id): [string, Node[]] => [id, []]));
  return {
    ...{ script: first, layout, space, live, places, outer: new Map(outer) },
    ...{ nodes, coverage: nothingYet(), heard: new Set(), last: null },
  };
}
