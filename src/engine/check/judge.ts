/** One flow before all rules. */
import type { Catalogue } from '#engine/catalogue.ts';
import type { Compiled, Origin } from '#engine/compile.ts';
import type { Script } from '#engine/script.ts';
import type { Broken } from './check.ts';
import { converse, trailAlong, trailTo } from './conversation.ts';
import { explore } from './explore.ts';
import type { Explored, Eyes } from './exploring.ts';
import { figuresOf } from './figures.ts';
import { costOf, type Edge, type Found, type Node } from './graph.ts';
import { isDesk } from './names.ts';
import { findNearest } from './nearest.ts';
import type { Rule, Subject, Trouble } from './rule.ts';
import type { Shared } from './shared.ts';
import { tooMany } from './too-many.ts';
import { segmentSteps } from './written.ts';

export function judge(
  compiled: Compiled,
  shared: Shared,
  catalogue: Catalogue,
  rules: readonly Rule[],
  mostStates: number,
): { explored: Explored; subject: Subject; found: Broken[] } {
  const { script } = compiled;
  const desk = isDesk(script);
  const explored = explore(compiled, shared, eyesOf(script, shared, desk, rules), mostStates);
  const steps = new Map(segmentSteps(script).map(step => [step.id, step]));
  const subject: Subject = {
    compiled,
    script,
    desk,
    steps,
    coverage: explored.coverage,
    figures: figuresOf(explored),
  };
  if (!explored.complete) {
    return {
      explored,
      subject,
      found: [placed(compiled, 'few-states', tooMany(script, explored, mostStates), null)],
    };
  }
  const found = nearestSightings(script, explored).map(({ found: { rule, step, trouble }, node, edge }) =>
    placed(
      compiled,
      rule.name,
      { step: step.id, ...trouble },
      converse(script, catalogue, trailTo(node, edge)),
    ),
  );
  for (const rule of rules) {
    for (const trouble of rule.flow?.(subject) ?? []) {
      const { trail } = trouble;
      const shown = trail === undefined ? null : converse(script, catalogue, trailAlong(trail));
      found.push(placed(compiled, rule.name, trouble, shown));
    }
  }
  return { explored, subject, found };
}

function placed(
  { script, origins }: Compiled,
  rule: string,
  { message, remedy, step, path = [] }: Trouble,
  conversation: Broken['conversation'],
): Broken {
  const origin = step === undefined ? undefined : originOf(origins, step);
  const unit = origin?.unit ?? script.symptom;
  return {
    rule,
    flow: script.symptom,
    message,
    remedy,
    unit,
    path: [...(origin?.path ?? []), ...path],
    conversation,
  };
}

/** The end of a block is written nowhere; its visit is. */
const originOf = (origins: Compiled['origins'], id: string): Origin | undefined =>
  origins[id] ?? (id.includes('.') ? originOf(origins, id.slice(0, id.lastIndexOf('.'))) : undefined);

function eyesOf(own: Script, shared: Shared, desk: boolean, rules: readonly Rule[]): Eyes {
  const scriptOf = (segment: string) => (segment === 'main' ? own : shared.script);
  const openers = rules.filter(rule => rule.opened);
  const enders = rules.filter(rule => rule.ended);
  const readers = rules.filter(rule => rule.unset);
  return {
    opened(view, segment, step, interrupts) {
      const at = { script: scriptOf(segment), desk, view, segment, step, interrupts };
      return found(openers, step, rule => rule.opened!(at));
    },
    ended(view, segment, { step, by, outcome }, answer) {
      const at = { script: scriptOf(segment), desk, view, segment, step, by, outcome, answer };
      return found(enders, step, rule => rule.ended!(at));
    },
    unset(view, segment, { step, finding }) {
      const at = { script: scriptOf(segment), desk, view, segment, step, finding };
      return found(readers, step, rule => rule.unset!(at));
    },
  };
}

function found(rules: readonly Rule[], step: Found['step'], look: (rule: Rule) => Trouble | null): Found[] {
  const all: Found[] = [];
  for (const rule of rules) {
    const trouble = look(rule);
    if (trouble !== null) all.push({ rule, step, trouble });
  }
  return all;
}

interface Sighting {
  found: Found;
  /** The state, and the move after it if there was one. */
  node: Node | null;
  edge: Edge | null;
}

const isMinded = ({ found, edges, leaving, calls }: Node): boolean =>
  found.length > 0 ||
  leaving.length > 0 ||
  edges.some(edge => edge.found.length > 0) ||
  calls.some(({ edge }) => edge.found.length > 0);

/** Of all places where a rule minds the same thing, the one that a conversation comes to soonest. */
function nearestSightings(script: Script, explored: Explored): Sighting[] {
  const { starts, nodes } = explored;
  const minded = [...nodes.values()].flatMap(all => all.filter(isMinded));
  if (minded.length > 0) findNearest(script, explored);
  const best = new Map<string, Sighting & { cost: number }>();
  const add = (cost: number, all: readonly Found[], node: Node | null, edge: Edge | null) => {
    for (const found of all) {
      const { rule, step, trouble } = found;
      const key = JSON.stringify([rule.name, trouble.step ?? step.id, trouble.path, trouble.message]);
      const other = best.get(key);
      if (other === undefined || cost < other.cost) best.set(key, { found, node, edge, cost });
    }
  };
  for (const edge of starts) add(0, edge.found, null, edge);
  for (const node of minded) {
    if (node.near === null) continue;
    const { cost } = node.near;
    add(cost, node.found, node, null);
    for (const edge of [...node.edges, ...node.leaving]) add(cost + costOf(edge), edge.found, node, edge);
    for (const { edge } of node.calls) add(cost + 1, edge.found, node, edge);
  }
  return [...best.values()];
}
