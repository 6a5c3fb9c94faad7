/** Bench plans against trying every order there is, minute by minute, and what must hold of every plan. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Faults } from '#engine/catalogue.ts';
import { planOf } from '#tickets/plan.ts';
import { plan } from '#workings/plan/index.ts';
import { workOut } from '#workings/working.ts';

const worked = (input: unknown) => {
  const done = workOut(plan, input);
  if (!done.ok) throw new Error(done.why);
  return done.output;
};

/** Up to four faults over five checks, each check told in one way, so that faults share some. */
const KINDS = [
  { check: 'look', minutes: 2, open: false, effect: 'none' },
  { check: 'start', minutes: 7, open: false, effect: 'start' },
  { check: 'read', minutes: 11, open: false, effect: 'read' },
  { check: 'seat', minutes: 4, open: true, effect: 'none' },
  { check: 'swap', minutes: 9, open: true, effect: 'read' },
] as const;
const somePlan = fc
  .array(
    fc.record({
      share: fc.integer({ min: 0, max: 9 }),
      checks: fc.shuffledSubarray([...KINDS], { minLength: 1, maxLength: 2 }),
    }),
    { minLength: 1, maxLength: 4 },
  )
  .filter(faults => faults.some(({ share }) => share > 0))
  .map(faults => ({
    copy: 'seen' as const,
    faults: faults.map((each, index) => ({ fault: `fault ${index}`, ...each })),
  }));
type Given = { faults: { fault: string; share: number; checks: readonly (typeof KINDS)[number][] }[] };

/** A check is known by all that comes before it in its fault. */
const placesOf = ({ faults }: Given) =>
  faults.flatMap(({ share, checks }) =>
    checks.map((check, at) => ({
      key: checks
        .slice(0, at + 1)
        .map(each => each.check)
        .join(' > '),
      after:
        at === 0
          ? null
          : checks
              .slice(0, at)
              .map(each => each.check)
              .join(' > '),
      minutes: check.minutes,
      inside: checks.slice(0, at + 1).some(({ open }) => open),
      share: share / checks.length,
    })),
  );

function* orders<T extends { key: string; after: string | null; inside: boolean }>(
  left: readonly T[],
  done: readonly T[] = [],
): Generator<readonly T[]> {
  if (left.length === 0) yield done;
  for (const next of left) {
    const early = next.after !== null && !done.some(({ key }) => key === next.after);
    const closedLeft = next.inside && left.some(({ inside }) => !inside);
    if (!early && !closedLeft)
      yield* orders(
        left.filter(each => each !== next),
        [...done, next],
      );
  }
}

/** By going through it with a clock, five minutes for opening the case, once for every place where the fault may show. */
function meanMinutes(given: Given, order: readonly { key: string; minutes: number; inside: boolean }[]) {
  const doneAt = new Map<string, number>();
  let clock = 0;
  let opened = false;
  for (const { key, minutes, inside } of order) {
    if (inside && !opened) clock += 5;
    opened ||= inside;
    clock += minutes;
    doneAt.set(key, clock);
  }
  const places = placesOf(given);
  const all = places.reduce((sum, { share }) => sum + share, 0);
  return places.reduce((sum, { key, share }) => sum + (share / all) * doneAt.get(key)!, 0);
}

describe('the bench plan', () => {
  test('no order that keeps the rules of safety finds the fault sooner, of all orders there are', () => {
    fc.assert(
      fc.property(somePlan, given => {
        const distinct = [...new Map(placesOf(given).map(place => [place.key, place])).values()];
        const best = Math.min(...[...orders(distinct)].map(order => meanMinutes(given, order)));
        expect(worked(given).expectedMinutes).toBeCloseTo(best, 9);
      }),
      { numRuns: 150 },
    );
  });

  test('it is never worse than the order in which they were listed, and both are told for the same checks', () => {
    fc.assert(
      fc.property(
        somePlan,
        fc.constantFrom('seen', 'nowhere'),
        fc.subarray(['suspect', 'mechanical']),
        (given, copy, signs) => {
          const { expectedMinutes, listedMinutes, steps } = worked({ ...given, copy, signs });
          expect(expectedMinutes === null).toBe(listedMinutes === null);
          if (expectedMinutes !== null) expect(expectedMinutes).toBeLessThanOrEqual(listedMinutes! + 1e-9);
          const opened = steps.findIndex(({ open }) => open);
          if (opened !== -1) expect(steps.slice(opened).every(({ open }) => open)).toBe(true);
        },
      ),
    );
  });

  test('shares ten times as large, or told as counts, are the same plan', () => {
    fc.assert(
      fc.property(somePlan, given => {
        const larger = { ...given, faults: given.faults.map(each => ({ ...each, share: each.share * 10 })) };
        const [one, other] = [worked(given), worked(larger)];
        expect(other.steps.map(({ check }) => check)).toEqual(one.steps.map(({ check }) => check));
        expect(other.expectedMinutes).toBeCloseTo(one.expectedMinutes!, 9);
      }),
    );
  });

  test('when all is done the fault is found for certain, and not before', () => {
    fc.assert(
      fc.property(somePlan, given => {
        const { steps } = worked(given);
        expect(steps.at(-1)!.foundBy).toBeCloseTo(1, 12);
        expect(
          steps.every(({ foundBy }, at) => foundBy >= (steps[at - 1]?.foundBy ?? 0) && foundBy <= 1),
        ).toBe(true);
      }),
    );
  });

  test('what touches the drive is held after clicking, and what is held is not among the steps', () => {
    fc.assert(
      fc.property(somePlan, given => {
        const { begin, steps, held } = worked({ ...given, signs: ['mechanical'] });
        expect(begin).toBe('not-yet');
        expect(steps.every(({ effect }) => effect === 'none')).toBe(true);
        const planned = [...steps.filter(({ looksFor }) => looksFor.length > 0), ...held];
        expect(planned).toHaveLength(new Set(placesOf(given).map(({ key }) => key)).size);
      }),
    );
  });

  test('a ticket has the same plan: there is one computation', () => {
    fc.assert(
      fc.property(somePlan, fc.boolean(), (given, only) => {
        const sum = given.faults.reduce((all, { share }) => all + share, 0);
        const catalogue: Faults = Object.fromEntries(
          given.faults.map(({ fault, checks }) => [
            fault,
            {
              name: fault,
              means: 'It is so.',
              hardware: true,
              symptoms: ['drive-slow'],
              checks: [...checks],
            },
          ]),
        );
        const suspects = given.faults
          .filter(({ share }) => share > 0)
          .map(({ fault, share }) => ({
            fault,
            name: fault,
            share: share / sum,
            hardware: true,
            for: [],
            against: [],
          }));
        const ticket = planOf({ suspects, faults: catalogue, signs: ['suspect'], onlyCopy: only });
        const alone = worked({
          faults: given.faults.filter(({ share }) => share > 0),
          copy: only ? 'nowhere' : 'seen',
          signs: ['suspect'],
        });
        expect(ticket.checks.map(({ check }) => check)).toEqual(alone.steps.map(({ check }) => check));
        expect(ticket.expectedMinutes).toBeCloseTo(alone.expectedMinutes!, 9);
      }),
    );
  });

  test('without shares it says that every fault counts the same', () => {
    const done = workOut(plan, { faults: [{ fault: 'a', checks: [{ check: 'a', minutes: 1 }] }] });
    expect(done.ok && done.told.limits[0]).toContain('No shares were given');
  });
});
