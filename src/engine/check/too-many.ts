/** What to say when a flow has more states than can be explored: which findings are kept for too long, and for what. */
import { readsOf } from '#engine/condition.ts';
import type { Script, Step } from '#engine/script.ts';
import type { Explored } from './explore.ts';
import type { Node } from './graph.ts';
import type { Trouble } from './rule.ts';

/** How many findings are named. */
const NAMED = 5;

export function tooMany(script: Script, { main, calls }: Explored, most: number): Trouble {
  const crowds = new Map<Step, Node[]>();
  for (const node of [main, ...calls].flatMap(graph => [...graph.nodes.values()])) {
    const crowd = crowds.get(node.step);
    if (crowd === undefined) crowds.set(node.step, [node]);
    else crowd.push(node);
  }
  const [step, nodes] = [...crowds].reduce((most, other) =>
    other[1].length > most[1].length ? other : most,
  );
  const values = new Map<string, Set<string>>();
  for (const { vars } of nodes) {
    for (const [variable, value] of Object.entries(vars)) {
      values.set(variable, (values.get(variable) ?? new Set()).add(value));
    }
  }
  const kept = [...values]
    .filter(([variable, { size }]) => size > 1 && variable in script.findings)
    .sort(([, a], [, b]) => b.size - a.size)
    .slice(0, NAMED)
    .map(
      ([variable, { size }]) =>
        `"${variable}" (${size} values, read last at ${lastReader(script, variable)})`,
    );
  return {
    step: step.id,
    message: `more than ${most} states: at "${step.id}" these are still kept: ${kept.join(', ')}`,
    remedy: 'decide on a finding soon after it is set, or sum several up in one with `sets`',
  };
}

const lastReader = (script: Script, finding: string): string => {
  const steps = [script.main, ...Object.values(script.interrupts).map(({ steps }) => steps)].flat();
  return steps.findLast(step => readsOf(step.if).some(read => read.finding === finding))?.id ?? 'a rule';
};
