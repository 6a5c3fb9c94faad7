/** Holds the checker against the slow way on random flows. Used by the test, and at length by the bench. */
import fc from 'fast-check';
import { expect } from 'vitest';
import { check } from '#engine/check/check.ts';
import { RULES } from '#engine/check/rules.ts';
import { naive, nameOf, paths } from './naive.ts';
import { randomFlows } from './random-flows.ts';

/** Flows that the slow way cannot finish are left out; there are few. */
const MOST_STATES = 3000;

/** Rules without what they see in the files themselves, where there is nothing to explore. */
const stepwise = RULES.filter(rule => rule.opened || rule.ended || rule.unset).map(
  ({ name, proves, opened, ended, unset }) => ({ name, proves, opened, ended, unset }),
);

export interface Agreed {
  /** Flows that both looked at. */
  flows: number;
  /** What both found wrong with them. */
  found: number;
}

/** What is wrong with a flow, and the fewest things said that show it. Throws with the smallest flow they differ on. */
export function agreeOnRules(numRuns: number): Agreed {
  const agreed: Agreed = { flows: 0, found: 0 };
  fc.assert(
    fc.property(randomFlows(3), ({ flows, catalogue }) => {
      const slow = new Map<string, number>();
      for (const compiled of flows) {
        const each = naive(compiled, stepwise, MOST_STATES);
        if (each === null) return;
        for (const [name, cost] of each.found) slow.set(name, Math.min(cost, slow.get(name) ?? cost));
      }
      const quick = new Map<string, number>();
      for (const found of check(flows, catalogue, { rules: stepwise }).broken) {
        const name = nameOf(found.rule, found, found.message);
        const cost = found.conversation!.turns.length - 1;
        quick.set(name, Math.min(cost, quick.get(name) ?? cost));
      }
      agreed.flows += flows.length;
      agreed.found += slow.size;
      expect(Object.fromEntries(quick)).toEqual(Object.fromEntries(slow));
    }),
    { numRuns },
  );
  return agreed;
}

/** How many ways there are to answer, and how long they are; where no policy is read and nothing worked out, which the slow way cannot tell. */
export function agreeOnPaths(numRuns: number): number {
  let flows = 0;
  fc.assert(
    fc.property(randomFlows(1), ({ flows: [one], catalogue }) => {
      const compiled = one!;
      if (/"policy\.|"kind":"work"/.test(JSON.stringify(compiled.script.main))) return;
      flows += 1;
      const [each] = check([compiled], catalogue, { rules: [] }).each;
      expect({ paths: each?.paths, shortest: each?.shortest, longest: each?.longest }).toEqual(
        paths(compiled),
      );
    }),
    { numRuns },
  );
  return flows;
}
