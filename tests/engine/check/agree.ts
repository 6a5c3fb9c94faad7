/** Holds the checker against the slow way on random flows. Used by the test, and at length by the bench. */
import fc from 'fast-check';
import { expect } from 'vitest';
import { check } from '#engine/check/check.ts';
import { RULES } from '#engine/check/rules.ts';
import { segmentSteps, writtenAt } from '#engine/check/written.ts';
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

const reachable = RULES.filter(({ name }) => name === 'reachable');

/** Which words nobody ever hears, in any of the flows. Tells of how many words that was asked. */
export function agreeOnWords(numRuns: number): number {
  let words = 0;
  fc.assert(
    fc.property(randomFlows(3), ({ flows, catalogue }) => {
      const heard = new Set<string>();
      const says = new Map<string, { inBlock: boolean }>();
      for (const compiled of flows) {
        const each = naive(compiled, [], MOST_STATES);
        if (each === null) return;
        for (const step of segmentSteps(compiled.script)) {
          if (step.kind !== 'say') continue;
          const place = writtenAt(compiled.origins[step.id]!);
          says.set(place, { inBlock: step.id.includes('.') });
          if (each.said.has(step.text)) heard.add(place);
        }
      }
      const never = new Set(
        check(flows, catalogue, { rules: reachable }).broken.map(({ unit, path }) =>
          writtenAt({ unit, path: path.slice(0, 2) }),
        ),
      );
      words += says.size;
      for (const [place, { inBlock }] of says) {
        // A block that nobody comes to is the visit's trouble, and its words are not spoken of.
        if (heard.has(place) || !inBlock)
          expect([place, never.has(place)]).toEqual([place, !heard.has(place)]);
      }
    }),
    { numRuns },
  );
  return words;
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
