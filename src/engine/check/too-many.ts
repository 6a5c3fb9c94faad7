/** What to say when a flow has more states than can be explored: which findings are kept for too long, and for what. */
import { readsOf } from '#engine/condition.ts';
import type { Script, Step } from '#engine/script.ts';
import type { Explored } from './exploring.ts';
import type { Node } from './graph.ts';
import type { Trouble } from './rule.ts';

/** How many findings are named. */
const NAMED = 5;

export function tooMany(script: Script, { space, nodes }: Explored, most: number): Trouble {
  const crowds = new Map<Step, Node[]>();
  for (const node of [...nodes.values()].flat()) {
    const crowd = crowds.get(node.step);
    if (crowd === undefined) crowds.set(node.step, [node]);
    else crowd.push(node);
  }
  const [step, crowd] = [...crowds].reduce((most, other) =>
    other[1].length > most[1].length ? other : most,
  );
  const kept = Object.keys(script.findings)
    .map(name => ({
      name,
      values: new Set(crowd.map(({ vector }) => space.at(vector, space.place(name)!))).size,
    }))
    .filter(({ values }) => values > 1)
    .sort((a, b) => b.values - a.values)
    .slice(0, NAMED)
    .map(({ name, values }) => `"${name}" (${values} values, read last at ${lastReader(script, name)})`);
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
