/** Arrays against counting all choices one by one, a simulation, and what must hold of every array. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { meanHoursToLoss } from '#workings/array/chances.ts';
import { type ArrayInput, array } from '#workings/array/index.ts';
import { type Level, setsOf } from '#workings/array/sets.ts';
import { workOut } from '#workings/working.ts';
import { random } from './fuzz.ts';

const worked = (input: unknown) => {
  const done = workOut(array, input);
  if (!done.ok) throw new Error(done.why);
  return done.output;
};

/** Arrays of up to ten members, with some of them down. */
interface House {
  level: Level;
  members: number;
  sets?: number[][];
}
const small: fc.Arbitrary<House & { failed: number[] }> = fc
  .constantFrom<House[]>(
    { level: '0' as const, members: 3 },
    { level: '1' as const, members: 3 },
    { level: '5' as const, members: 6 },
    { level: '6' as const, members: 7 },
    { level: '10' as const, members: 8 },
    {
      level: '10' as const,
      members: 6,
      sets: [
        [1, 4, 6],
        [2, 3, 5],
      ],
    },
    {
      level: '10' as const,
      members: 7,
      sets: [
        [7, 1],
        [2, 3, 5],
        [4, 6],
      ],
    },
    {
      level: '50' as const,
      members: 9,
      sets: [
        [1, 2, 3],
        [4, 5, 6],
        [7, 8, 9],
      ],
    },
    { level: '60' as const, members: 8 },
  )
  .chain(house =>
    fc
      .subarray(
        Array.from({ length: house.members }, (_, index) => index + 1),
        { maxLength: 3 },
      )
      .map(failed => ({ ...house, failed })),
  );

/** All ways to choose `k` of the list. */
function choices<T>(from: readonly T[], k: number): T[][] {
  if (k === 0) return [[]];
  return from.flatMap((first, index) => choices(from.slice(index + 1), k - 1).map(rest => [first, ...rest]));
}

/** By the meaning of the level, not by what the working keeps: is everything still there? */
function alive(
  { level, members, sets }: { level: Level; members: number; sets?: number[][] },
  down: readonly number[],
): boolean {
  const all = Array.from({ length: members }, (_, index) => index + 1);
  const half = members / 2;
  const split =
    sets ??
    (level === '10'
      ? all.filter(each => each % 2 === 1).map(each => [each, each + 1])
      : level === '50' || level === '60'
        ? [all.slice(0, half), all.slice(half)]
        : [all]);
  return split.every(set => {
    const lost = set.filter(each => down.includes(each)).length;
    if (level === '0') return lost === 0;
    if (level === '1' || level === '10') return lost < set.length;
    return lost <= (level === '5' || level === '50' ? 1 : 2);
  });
}

describe('an array', () => {
  test('has the chances that counting every choice gives', () => {
    fc.assert(
      fc.property(small, house => {
        const { fatalChance, fatalMembers, surelySurvived, standing } = worked({ ...house, more: 4 });
        const up = Array.from({ length: house.members }, (_, index) => index + 1).filter(
          each => !house.failed.includes(each),
        );
        expect(standing === 'lost').toBe(!alive(house, house.failed));
        if (standing === 'lost') return;
        fatalChance.forEach((chance, index) => {
          const all = choices(up, index + 1);
          const fatal = all.filter(more => !alive(house, [...house.failed, ...more])).length;
          expect(chance).toBeCloseTo(fatal / all.length, 12);
          expect(index < surelySurvived).toBe(index < surelySurvived && fatal === 0);
        });
        expect(fatalMembers.toSorted((a, b) => a - b)).toEqual(
          up.filter(each => !alive(house, [...house.failed, each])),
        );
      }),
    );
  });

  test('stands no better with more members down, and alike however they are listed', () => {
    const order = ['healthy', 'degraded', 'no-margin', 'lost'];
    fc.assert(
      fc.property(small, house => {
        const all = worked(house);
        const [, ...fewer] = house.failed;
        expect(order.indexOf(worked({ ...house, failed: fewer }).standing)).toBeLessThanOrEqual(
          order.indexOf(all.standing),
        );
        expect(worked({ ...house, failed: house.failed.toReversed() })).toEqual({
          ...all,
          advice: expect.anything(),
        });
        expect(all.fatalChance).toEqual(all.fatalChance.toSorted((a, b) => a - b));
      }),
    );
  });

  test('of which only the number of failed members is known comes out as any such members do, or asks which', () => {
    fc.assert(
      fc.property(small, fc.integer({ min: 0, max: 4 }), ({ failed: _, ...house }, failedCount) => {
        const counted = workOut(array, { ...house, failedCount });
        const all = Array.from({ length: house.members }, (_, index) => index + 1);
        const each = choices(all, failedCount).map(failed => worked({ ...house, failed }));
        const alike = new Set(each.map(({ standing }) => standing)).size <= 1;
        if (!counted.ok) {
          expect(counted.why).toMatch(/failed|only/);
          expect(alike && failedCount <= house.members && !house.sets).toBe(false);
          return;
        }
        for (const { standing, fatalChance, surelySurvived, setsLost, fatalMembers } of each) {
          expect(counted.output).toMatchObject({ standing, fatalChance, surelySurvived });
          const nobodyKnows = { setsLost: [], setsWithoutMargin: [], fatalMembers: [] };
          expect(counted.output).toMatchObject(setsLost.length + fatalMembers.length > 0 ? nobodyKnows : {});
        }
      }),
    );
  });

  test('of any size and with sets in any order is worked out without a number that is none', () => {
    fc.assert(
      fc.property(
        fc.constantFrom<Level>('0', '1', '5', '6', '10', '50', '60'),
        fc.integer({ min: 1, max: 64 }),
        (level, eighths) => {
          const members = eighths * 8;
          const { usableTB, meanHoursToLoss: hours } = worked({ level, members, capacityTB: 10 });
          expect(usableTB).toBeGreaterThan(0);
          expect(usableTB).toBeLessThanOrEqual(10 * members);
          expect(hours === null || Number.isFinite(hours)).toBe(true);
        },
      ),
    );
  });

  test.each([
    [4, 1, 1000, 50],
    [6, 2, 1000, 100],
    [2, 1, 500, 20],
  ])('of %i that bears %i lasts as long as a simulation says', (size, bears, mttf, repair) => {
    const next = random(7 + size);
    const wait = (rate: number) => -Math.log(1 - next()) / rate;
    const RUNS = 4000;
    let total = 0;
    for (let run = 0; run < RUNS; run++) {
      let failed = 0;
      while (failed <= bears) {
        const [up, down] = [(size - failed) / mttf, failed === 0 ? 0 : 1 / repair];
        total += wait(up + down);
        failed += next() < up / (up + down) ? 1 : -1;
      }
    }
    const exact = meanHoursToLoss(size, bears, mttf, repair);
    // Five standard errors of a mean of nearly exponential times.
    expect(Math.abs(total / RUNS - exact)).toBeLessThan((5 * exact) / Math.sqrt(RUNS));
  });

  test('with a parity set has the mean of the closed form', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 2, max: 60 }),
        fc.integer({ min: 1000, max: 2_000_000 }),
        fc.integer({ min: 1, max: 500 }),
        (n, mttf, repair) => {
          const [fails, repairs] = [1 / mttf, 1 / repair];
          const closed = ((2 * n - 1) * fails + repairs) / (n * (n - 1) * fails * fails);
          expect(Math.abs(meanHoursToLoss(n, 1, mttf, repair) / closed - 1)).toBeLessThan(1e-9);
        },
      ),
    );
  });

  test('that did not start, or is lost, is never advised to be started, forced or rebuilt', () => {
    fc.assert(
      fc.property(small, fc.boolean(), (house, started) => {
        const { standing, advice } = worked({ ...house, started } satisfies Partial<ArrayInput>);
        if (standing !== 'lost' && standing !== 'did-not-start') return;
        expect(advice.join(' ')).toContain('No restart, import, clearing, forcing');
        expect(advice.join(' ')).not.toMatch(/replace it with|spare/);
      }),
    );
  });

  test('that bears nothing is without margin to a flow, also while it is whole', () => {
    const verdictOf = (input: unknown) => {
      const done = workOut(array, input);
      return done.ok && done.verdict;
    };
    expect(verdictOf({ level: '0', members: 4 })).toBe('no-margin');
    expect(verdictOf({ level: '5', members: 4 })).toBe('healthy');
  });

  test('has its sets named when they are given, else neighbours, and says which', () => {
    expect(setsOf('10', 4, undefined, undefined)).toMatchObject({
      assumed: true,
      sets: [{ members: [1, 2] }, { members: [3, 4] }],
    });
    expect(
      setsOf(
        '10',
        4,
        [
          [1, 3],
          [2, 4],
        ],
        undefined,
      ).assumed,
    ).toBe(false);
    expect(worked({ level: '10', members: 4, failed: [1] }).advice[0]).toMatch(/real sets first/);
  });

  test.each([
    {
      sets: [
        [1, 3],
        [2, 4],
      ],
    },
    { setBySet: true },
  ])('whose sets are known is not told to find them out: %j', known => {
    const told = workOut(array, { level: '10', members: 4, failed: [1], ...known });
    expect(told.ok && [...told.told.says, ...told.told.limits].join(' ')).not.toMatch(/real sets|neighbours/);
  });
});
