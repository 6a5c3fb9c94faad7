/** Distributions and intervals against a reference library (jstat, whose functions agree with scipy to about 1e-13). */
import fc from 'fast-check';
import jstat from 'jstat';
import { expect, test } from 'vitest';
import * as own from '#workings/statistics.ts';

const count = fc.integer({ min: 0, max: 2000 });
const mean = fc.double({ min: 1e-6, max: 2000, noNaN: true });
const chance = fc.double({ min: 1e-6, max: 1 - 1e-6, noNaN: true });
const confidence = fc.constantFrom(0.5, 0.8, 0.9, 0.95, 0.99, 0.999);

/** `within`: relative; below `floor` the reference itself has no digits left. */
function near(a: number, b: number, within: number, floor = 1e-9): void {
  expect(Math.abs(a - b), `${a} is not ${b}`).toBeLessThanOrEqual(
    within * Math.max(Math.abs(a), Math.abs(b), floor),
  );
}

test('tails of the Poisson distribution, which are those of the incomplete gamma function', () => {
  fc.assert(
    fc.property(count, mean, (k, m) => {
      near(own.poissonAtMost(k, m), 1 - jstat.lowRegGamma(k + 1, m), 1e-7, 1e-3);
      near(own.poissonAtMost(k, m) + own.poissonAtLeast(k + 1, m), 1, 1e-10);
    }),
  );
});

test('the exact interval of a count is that of the chi-square distribution', () => {
  fc.assert(
    fc.property(fc.integer({ min: 0, max: 500 }), confidence, (k, sure) => {
      const { low, high } = own.countInterval(k, sure);
      const tail = (1 - sure) / 2;
      if (k > 0) near(low, jstat.chisquare.inv(tail, 2 * k) / 2, 1e-6);
      near(high, jstat.chisquare.inv(1 - tail, 2 * k + 2) / 2, 1e-6);
    }),
  );
});

test('the exact interval of a share is that of the beta distribution', () => {
  fc.assert(
    fc.property(
      fc.integer({ min: 1, max: 400 }),
      fc.double({ min: 0, max: 1, noNaN: true }),
      confidence,
      (n, part, sure) => {
        const hits = Math.round(part * n);
        const { low, high } = own.shareInterval(hits, n, sure);
        const tail = (1 - sure) / 2;
        if (hits > 0) near(low, jstat.beta.inv(tail, hits, n - hits + 1), 1e-5);
        if (hits < n) near(high, jstat.beta.inv(1 - tail, hits + 1, n - hits), 1e-5);
      },
    ),
  );
});

test('the normal distribution and its quantiles', () => {
  fc.assert(
    fc.property(fc.double({ min: 0, max: 8, noNaN: true }), x => {
      near(own.normalBelow(x), jstat.normal.cdf(x, 0, 1), 1e-9);
    }),
  );
  // Published tables: 1.644854, 1.959964, 2.575829.
  expect([0.95, 0.975, 0.995].map(p => own.normalQuantile(p).toFixed(6))).toEqual([
    '1.644854',
    '1.959964',
    '2.575829',
  ]);
});

test('intervals hold what was seen, and grow narrower with more of the same', () => {
  fc.assert(
    fc.property(fc.integer({ min: 1, max: 300 }), chance, confidence, (n, part, sure) => {
      const hits = Math.round(part * n);
      const share = hits / n;
      for (const interval of [own.wilson(hits, n, sure), own.shareInterval(hits, n, sure)]) {
        expect(interval.low).toBeLessThanOrEqual(share);
        expect(interval.high).toBeGreaterThanOrEqual(share);
      }
      const wider = own.wilson(hits, n, sure);
      const narrower = own.wilson(hits * 4, n * 4, sure);
      expect(narrower.high - narrower.low).toBeLessThanOrEqual(wider.high - wider.low);
    }),
  );
});

test('nothing is ever lost to rounding: every chance is a number from 0 to 1', () => {
  fc.assert(
    fc.property(
      fc.integer({ min: 0, max: 100_000 }),
      fc.double({ min: 0, max: 100_000, noNaN: true }),
      (k, m) => {
        for (const p of [own.poissonAtLeast(k, m), own.poissonAtMost(k, m)]) {
          expect(p).toBeGreaterThanOrEqual(0);
          expect(p).toBeLessThanOrEqual(1);
        }
      },
    ),
  );
});
