import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { bestOrder, expectedMinutes, type Job } from '#workings/plan/ratio.ts';

const cost = (jobs: readonly Job[], order: readonly number[]) =>
  expectedMinutes(order.map(index => jobs[index]!))!;

/** Every order in which no job comes before the one it waits for. */
function* allowedOrders(jobs: readonly Job[], done: number[] = []): Generator<number[]> {
  if (done.length === jobs.length) yield done;
  for (let index = 0; index < jobs.length; index++) {
    const { after } = jobs[index]!;
    if (done.includes(index) || (after !== null && !done.includes(after))) continue;
    yield* allowedOrders(jobs, [...done, index]);
  }
}

const job = (chance: number, minutes: number, after: number | null = null): Job => ({
  chance,
  minutes,
  after,
});

/** Up to 7 checks; each may wait for one that stands before it in the list. */
const someJobs = fc
  .array(fc.record({ chance: fc.nat(20), minutes: fc.integer({ min: 1, max: 60 }), waits: fc.nat(12) }), {
    minLength: 1,
    maxLength: 7,
  })
  .map(list =>
    list.map(({ chance, minutes, waits }, index) => job(chance, minutes, waits < index ? waits : null)),
  )
  .filter(jobs => jobs.some(({ chance }) => chance > 0));

describe('the order that finds a fault soonest', () => {
  it('goes by chance per minute when nothing waits for anything (Smith 1956, the ratio rule)', () => {
    // 0.5/10 = 0.05, 0.3/2 = 0.15, 0.2/5 = 0.04
    const jobs = [job(0.5, 10), job(0.3, 2), job(0.2, 5)];
    expect(bestOrder(jobs)).toEqual([1, 0, 2]);
    // 0.3 x 2 + 0.5 x 12 + 0.2 x 17
    expect(cost(jobs, bestOrder(jobs))).toBeCloseTo(10, 12);
  });

  it('interleaves two chains as the textbook does (Pinedo, Scheduling, 2nd ed., section 3.1, chains example)', () => {
    // Chains 1-2-3-4 and 5-6-7; weights 6 18 12 8 8 17 18, times 3 6 6 5 4 8 10. Textbook's order: 1 2 5 6 3 7 4.
    const jobs = [
      job(6, 3),
      job(18, 6, 0),
      job(12, 6, 1),
      job(8, 5, 2),
      job(8, 4),
      job(17, 8, 4),
      job(18, 10, 5),
    ];
    expect(bestOrder(jobs).map(index => index + 1)).toEqual([1, 2, 5, 6, 3, 7, 4]);
  });

  it('is never beaten by any other allowed order', () => {
    fc.assert(
      fc.property(someJobs, jobs => {
        const best = Math.min(...[...allowedOrders(jobs)].map(order => cost(jobs, order)));
        expect(cost(jobs, bestOrder(jobs))).toBeCloseTo(best, 9);
      }),
      { numRuns: 200 },
    );
  });

  it('names every check once, and none before the one it waits for', () => {
    fc.assert(
      fc.property(someJobs, jobs => {
        const order = bestOrder(jobs);
        expect(order.toSorted((one, other) => one - other)).toEqual(jobs.map((_, index) => index));
        jobs.forEach(({ after }, index) => {
          if (after !== null) expect(order.indexOf(after)).toBeLessThan(order.indexOf(index));
        });
      }),
    );
  });

  it('keeps the order given where nothing speaks for another', () => {
    expect(bestOrder([job(1, 2), job(2, 4), job(3, 6)])).toEqual([0, 1, 2]);
  });

  it('takes no checks, and refuses checks that wait for themselves', () => {
    expect(bestOrder([])).toEqual([]);
    expect(() => bestOrder([job(1, 1, 0)])).toThrow('waits for itself');
  });

  it('has no average time when no check finds anything', () => {
    expect(expectedMinutes([job(0, 5)])).toBeNull();
  });
});
