/** The shortest way to every state, counted in what a person says. */
import type { Script } from '#engine/script.ts';
import type { Explored } from './exploring.ts';
import { costOf, type Edge, type Node } from './graph.ts';

interface Step {
  to: Node;
  cost: number;
  node: Node | null;
  edge: Edge;
}

/**
 * Fills in `near` of all states. An interrupt's questions are walked after everything that it can break into: those are
 * the flow's own questions and the interrupts of lower rank.
 */
export function findNearest(script: Script, { starts, nodes }: Explored): void {
  // Other flows may have been here before.
  for (const node of [...nodes.values()].flat()) node.near = null;
  const rank = (segment: string) => script.interrupts[segment]?.about.rank ?? 0;
  walk(starts.flatMap(edge => (edge.to === null ? [] : [{ to: edge.to, cost: 0, node: null, edge }])));
  const segments = [...nodes.keys()].sort((a, b) => rank(a) - rank(b));
  const calls = new Map<string, Step[]>(segments.map(segment => [segment, []]));
  for (const segment of segments) {
    walk(calls.get(segment)!);
    for (const node of nodes.get(segment)!) {
      const { near } = node;
      if (near === null) continue;
      for (const { edge, entry } of node.calls) {
        if (entry !== null) calls.get(entry.segment)!.push({ to: entry, cost: near.cost + 1, node, edge });
      }
    }
  }
}

function walk(from: readonly Step[]): void {
  const buckets: Step[][] = [];
  const put = (step: Step) => {
    while (buckets.length <= step.cost) buckets.push([]);
    buckets[step.cost]!.push(step);
  };
  from.forEach(put);
  for (let cost = 0; cost < buckets.length; cost++) {
    for (const { to, node: before, edge: by } of buckets[cost]!) {
      if (to.near !== null && to.near.cost <= cost) continue;
      to.near = { cost, node: before, edge: by };
      for (const edge of to.edges) {
        if (edge.to !== null) put({ to: edge.to, cost: cost + costOf(edge), node: to, edge });
      }
    }
  }
}
