/**
 * Shares and failure rates, none without its interval and its count.
 *
 * A share of n has Wilson's and the exact interval. Failures per drive-year are failures over drive-days / 365, in percent, as
 * the published drive statistics count them; their interval is exact for a Poisson count (Garwood). Sources: statistics.ts.
 * Errors: more hits than tries, no tries, no drive-days.
 */
import { z } from 'zod';
import { countBelow, countInterval, shareInterval, wilson } from '../statistics.ts';
import { Impossible, number, type Told, type Working, whole } from '../working.ts';

const DAYS_A_YEAR = 365;
/** Fewer failures or tries than these say little. Common practice, no source. */
const FEW = 5;

const name = z.string({ error: 'give a name' }).min(1, 'give a name').max(100, 'give at most 100 characters');
const input = z.strictObject({
  shares: z
    .array(
      z.strictObject({
        name,
        hits: whole('hits, from 0 to 1000000000', 0, 1e9),
        total: whole('the total, from 1 to 1000000000', 1, 1e9),
      }),
      { error: 'give a list, each with name, hits and total' },
    )
    .max(500, 'give at most 500')
    .default([]),
  failures: z
    .array(
      z.strictObject({
        name,
        failures: whole('failures, from 0 to 10000000', 0, 1e7),
        driveDays: number('drive-days, from 0.01 to 1000000000000', 0.01, 1e12),
      }),
      { error: 'give a list, each with name, failures and driveDays' },
    )
    .max(500, 'give at most 500')
    .default([]),
  confidence: number('a confidence between 0.5 and 0.9999', 0.5, 0.9999).default(0.95),
});
export type RatesInput = z.infer<typeof input>;

const VERDICTS = ['enough', 'little', 'nothing'] as const;
const interval = z.object({ low: z.number(), high: z.number() });

const output = z.object({
  verdict: z.enum(VERDICTS),
  shares: z.array(
    z.object({
      name: z.string(),
      hits: z.int(),
      total: z.int(),
      share: z.number(),
      wilson: interval,
      exact: interval,
    }),
  ),
  /** Percent a drive-year. `below`: with the same confidence no more than this, one-sided. */
  failures: z.array(
    z.object({
      name: z.string(),
      failures: z.int(),
      driveDays: z.number(),
      percentAYear: z.number(),
      interval,
      below: z.number(),
    }),
  ),
});
export type RatesOutput = z.infer<typeof output>;

function work({ shares, failures, confidence }: RatesInput): RatesOutput {
  if (shares.length + failures.length === 0) throw new Impossible('shares', 'give shares, failures, or both');
  const impossible = shares.findIndex(({ hits, total }) => hits > total);
  if (impossible !== -1)
    throw new Impossible(`shares.${impossible}.hits`, 'there are more hits than the total');
  const counts = [...shares.map(({ total }) => total), ...failures.map(each => each.failures)];
  return {
    verdict:
      Math.max(...counts) === 0 ? 'nothing' : counts.every(count => count >= FEW) ? 'enough' : 'little',
    shares: shares.map(each => ({
      ...each,
      share: each.hits / each.total,
      wilson: wilson(each.hits, each.total, confidence),
      exact: shareInterval(each.hits, each.total, confidence),
    })),
    failures: failures.map(each => {
      const percent = (count: number) => (100 * count) / (each.driveDays / DAYS_A_YEAR);
      const { low, high } = countInterval(each.failures, confidence);
      return {
        ...each,
        percentAYear: percent(each.failures),
        interval: { low: percent(low), high: percent(high) },
        below: percent(countBelow(each.failures, confidence)),
      };
    }),
  };
}

const percent = (share: number): string => `${(share * 100).toFixed(1)}%`;

function tell({ shares, failures, verdict }: RatesOutput, { confidence }: RatesInput): Told {
  const sure = `${Number((confidence * 100).toFixed(2))}%`;
  const rows = [
    ...shares.map(each => [
      each.name,
      `${each.hits} of ${each.total}`,
      percent(each.share),
      `${percent(each.wilson.low)} to ${percent(each.wilson.high)}`,
    ]),
    ...failures.map(each => [
      each.name,
      `${each.failures} in ${Math.round(each.driveDays).toLocaleString('en')} drive-days`,
      `${each.percentAYear.toFixed(2)}% a year`,
      `${each.interval.low.toFixed(2)}% to ${each.interval.high.toFixed(2)}%`,
    ]),
  ];
  return {
    says: [
      {
        enough: 'Compare the intervals, not the figures alone: where two overlap widely, nothing is shown.',
        little: 'Some of these rest on few cases: their intervals are wide, and they rank nothing yet.',
        nothing: 'Nothing has failed yet; only the upper end of the interval says anything.',
      }[verdict],
    ],
    table: [['', 'counted', 'rate', `${sure} interval`], ...rows],
    limits: [
      "Shares: Wilson's interval. Failures: the exact interval of a Poisson count; a year has 365 days.",
      'Cases are taken to be independent; a bad batch, a hot room or one clumsy user makes intervals too narrow.',
    ],
  };
}

export const rates: Working<RatesInput, RatesOutput> = {
  id: 'rates',
  title: 'shares and failures per drive-year, each with its interval',
  input: input as z.ZodType<RatesInput>,
  output,
  example: {
    shares: [{ name: 'fixed without a technician', hits: 81, total: 263 }],
    failures: [
      { name: 'model A, 4 TB', failures: 12, driveDays: 182_500 },
      { name: 'model B, 8 TB', failures: 1, driveDays: 128_292 },
    ],
  },
  verdicts: VERDICTS,
  work,
  verdict: ({ verdict }) => verdict,
  tell,
};
