/** One flow before all rules. */
import type { Catalogue } from '#engine/catalogue.ts';
import type { Compiled } from '#engine/compile.ts';
import type { Script } from '#engine/script.ts';
import type { Broken } from './check.ts';
import { converse, trailAlong, trailTo } from './conversation.ts';
import { type Explored, type Eyes, explore } from './explore.ts';
import { figuresOf } from './figures.ts';
import { costAfter, costBefore, type Graph, type Link } from './graph.ts';
import type { Needs } from './live.ts';
import { isDesk } from './names.ts';
import type { Moment, Rule, Subject, Trouble } from './rule.ts';
import { tooMany } from './too-many.ts';
import type { Need } from './vars.ts';
import { segmentSteps } from './written.ts';

interface Sighting {
  rule: Rule;
  trouble: Trouble;
  graph: Graph;
  link: Link;
}

export function judge(
  compiled: Compiled,
  catalogue: Catalogue,
  rules: readonly Rule[],
  mostStates: number,
): { explored: Explored; subject: Subject; found: Broken[] } {
  const { script } = compiled;
  const desk = isDesk(script);
  const sightings = new Sightings();
  const explored = explore(
    script,
    needsOf(script, rules),
    eyesOf(script, desk, rules, sightings),
    mostStates,
  );
  const figures = figuresOf(explored);
  const steps = new Map(segmentSteps(script).map(step => [step.id, step]));
  const subject: Subject = { compiled, script, desk, steps, coverage: explored.coverage, figures };
  const found = sightings
    .nearest()
    .map(({ rule, trouble, graph, link }) =>
      placed(compiled, rule.name, trouble, converse(script, catalogue, trailTo(graph, link))),
    );
  if (!explored.complete) {
    found.push(placed(compiled, 'few-states', tooMany(script, explored, mostStates), null));
    return { explored, subject, found };
  }
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
  const origin = step === undefined ? undefined : origins[step];
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

/** What the rules read at a step, worked out once for each. */
function needsOf(script: Script, rules: readonly Rule[]): Needs {
  const known = new Map<string, readonly Need[]>();
  return step => {
    const list = known.get(step.id) ?? rules.flatMap(rule => rule.needs?.(step, script) ?? []);
    known.set(step.id, list);
    return list;
  };
}

function eyesOf(script: Script, desk: boolean, rules: readonly Rule[], sightings: Sightings): Eyes {
  const moment = (graph: Graph, vars: Moment['vars']) => ({ script, vars, desk, segment: graph.segment.id });
  const openers = rules.filter(rule => rule.opened);
  const enders = rules.filter(rule => rule.ended);
  const readers = rules.filter(rule => rule.unset);
  return {
    opened(node, interrupts) {
      const at = { ...moment(node.graph, node.vars), step: node.step, interrupts };
      for (const rule of openers) sightings.add(rule, rule.opened!(at), node.step.id, node.graph, node.from);
    },
    ended(graph, link, step, by, state) {
      const answer = link.move.kind === 'answer' ? link.move.answer : null;
      const at = { ...moment(graph, state.findings), step, by, answer, outcome: state.outcome! };
      for (const rule of enders) sightings.add(rule, rule.ended!(at), step.id, graph, link);
    },
    unset(graph, link, step, finding, vars) {
      const at = { ...moment(graph, vars), step, finding };
      for (const rule of readers) sightings.add(rule, rule.unset!(at), step.id, graph, link);
    },
  };
}

/** Per rule, place and message, in each graph the nearest sighting; in the end the nearest of all. */
class Sightings {
  readonly #seen = new Map<string, Map<Graph, Sighting>>();

  add(rule: Rule, found: Trouble | null, at: string, graph: Graph, link: Link): void {
    if (found === null) return;
    const trouble = { ...found, step: found.step ?? at };
    const key = JSON.stringify([rule.name, trouble.step, trouble.path, trouble.message]);
    const inGraphs = this.#seen.get(key) ?? new Map<Graph, Sighting>();
    this.#seen.set(key, inGraphs);
    const other = inGraphs.get(graph);
    if (other === undefined || costAfter(link) < costAfter(other.link)) {
      inGraphs.set(graph, { rule, trouble, graph, link });
    }
  }

  nearest(): Sighting[] {
    const cost = ({ graph, link }: Sighting) => costBefore(graph) + costAfter(link);
    return [...this.#seen.values()].map(inGraphs =>
      [...inGraphs.values()].reduce((best, other) => (cost(other) < cost(best) ? other : best)),
    );
  }
}
