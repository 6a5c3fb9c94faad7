/**
 * Are so many reports about one share or one site more than chance?
 *
 * The expected count is the past rate times the window; the chance of this many or more is the exact upper tail of the Poisson
 * distribution. One report is added to the past (Laplace's rule), so that a thing nobody ever reported is not called
 * impossible. Windows in minutes, the past in days and working hours a day. Two people in different rooms within half an hour
 * always tell the desk, whatever the figures say (common practice, no source). Errors: windows longer than the past.
 */
import { z } from 'zod';
import { poissonAtLeast } from '../statistics.ts';
import { Impossible, number, type Told, type Working, whole } from '../working.ts';

const HALF_AN_HOUR = 30;
/** Reports are independent only as long as people do not tell each other; so a third look at the level is taken. */
const LEVEL = 0.01;

const input = z.strictObject({
  reports: whole('reports, from 0 to 100000', 0, 100_000),
  /** Of how many places, such as rooms or sites, they come. */
  places: whole('places, from 1 to 100000', 1, 100_000).default(1),
  windowMinutes: number('minutes, from 1 to 100000', 1, 100_000),
  pastReports: whole('past reports of the same thing, from 0 to 10000000', 0, 10_000_000).optional(),
  pastDays: number('days that the past reports cover, from 1 to 36500', 1, 36_500).optional(),
  hoursADay: number('working hours a day, from 1 to 24', 1, 24).default(10),
  /** Instead of a past: the expected count in the window. */
  expected: number('the expected count, above 0 and up to 100000', 1e-9, 100_000).optional(),
  level: number('a chance between 0.000001 and 0.5', 1e-6, 0.5).default(LEVEL),
});
export type OutageInput = z.infer<typeof input>;

const VERDICTS = ['more-than-chance', 'tell-the-desk', 'could-be-chance'] as const;

const output = z.object({
  verdict: z.enum(VERDICTS),
  expected: z.number(),
  expectedFrom: z.enum(['the past', 'given']),
  /** Chance of this many or more. */
  chance: z.number(),
  /** The fewest reports in such a window that are more than chance. */
  alarmFrom: z.int(),
});
export type OutageOutput = z.infer<typeof output>;

function expectedIn({ expected, pastReports, pastDays, hoursADay, windowMinutes }: OutageInput): number {
  if (expected !== undefined) return expected;
  if (pastReports === undefined || pastDays === undefined)
    throw new Impossible('pastReports', 'give pastReports and pastDays, or expected');
  const minutes = pastDays * hoursADay * 60;
  if (windowMinutes > minutes)
    throw new Impossible('windowMinutes', 'the window is longer than the past it is held against');
  return ((pastReports + 1) * windowMinutes) / minutes;
}

function work(given: OutageInput): OutageOutput {
  const { reports, places, windowMinutes, level } = given;
  const expected = expectedIn(given);
  const chance = poissonAtLeast(reports, expected);
  const apart = reports >= 2 && places >= 2 && windowMinutes <= HALF_AN_HOUR;
  return {
    // One person is never an outage, however rare it was so far.
    verdict:
      reports >= 2 && chance <= level ? 'more-than-chance' : apart ? 'tell-the-desk' : 'could-be-chance',
    expected,
    expectedFrom: given.expected === undefined ? 'the past' : 'given',
    chance,
    alarmFrom: fewestAbove(expected, level),
  };
}

/** The fewest, from two on, that come by chance no more often than `level`. */
function fewestAbove(expected: number, level: number): number {
  let [low, high] = [1, 2];
  while (poissonAtLeast(high, expected) > level) [low, high] = [high, high * 2];
  while (high - low > 1) {
    const middle = Math.floor((low + high) / 2);
    if (poissonAtLeast(middle, expected) > level) low = middle;
    else high = middle;
  }
  return high;
}

/** "1 in 600", "33 in 100". */
const odds = (chance: number): string => {
  if (chance >= 0.01) return `${(chance * 100).toFixed(chance < 0.1 ? 1 : 0)} in 100`;
  return chance < 1e-9
    ? 'less than 1 in a thousand million'
    : `1 in ${Number((1 / chance).toPrecision(2)).toLocaleString('en')}`;
};

function tell({ verdict, expected, chance, alarmFrom }: OutageOutput, given: OutageInput): Told {
  const { reports, windowMinutes, pastReports, pastDays, hoursADay } = given;
  const first = {
    'more-than-chance': 'This is more than chance: treat it as an outage until shown otherwise.',
    'tell-the-desk':
      'The figures alone do not show an outage, but two places within half an hour are looked at by the desk.',
    'could-be-chance': 'This can be chance.',
  }[verdict];
  return {
    says: [
      first,
      `${reports} reports in ${windowMinutes} minutes; ${Number(expected.toPrecision(3))} are expected, so ${reports} or more come by chance ${odds(chance)} times. From ${alarmFrom} on it would be more than chance.`,
    ],
    limits: [
      given.expected === undefined
        ? `Expected from ${pastReports} reports in ${pastDays} days of ${hoursADay} hours, one added.`
        : 'The expected count was given, not worked out.',
      'Reports are taken to come independently and evenly through working hours; on a Monday morning more are usual.',
    ],
  };
}

export const outage: Working<OutageInput, OutageOutput> = {
  id: 'outage',
  title: 'are so many reports of one thing more than chance',
  input: input as z.ZodType<OutageInput>,
  output,
  example: { reports: 4, places: 3, windowMinutes: 30, pastReports: 12, pastDays: 90 },
  verdicts: VERDICTS,
  work,
  verdict: ({ verdict }) => verdict,
  tell,
};
