/**
 * What a drive or an array should reach, from seek and rotation or from its class, and how a measured figure stands to it:
 * operations a second, or instead the rate of one large file (sequential.ts).
 *
 * A spinning drive's random access takes seek + half a turn (30000 / rpm ms) + transfer; operations a second are 1000 over
 * that (Arpaci-Dusseau, Operating Systems: Three Easy Pieces, 37.4). With a queue the rate is requests outstanding over
 * latency (Little's law). Arrays: the same book's figure 38.8, extended to RAID 6 and 10 by their write penalty. Sizes in
 * kilobytes (1000 bytes), times in milliseconds, rates in megabytes (10^6 bytes) a second. Errors: rotation without rpm;
 * too few members for the level; both figures at once; small requests of a drive whose class nobody knows.
 */
import { z } from 'zod';
import { Impossible, number, oneOf, type Told, type Working, whole } from '../working.ts';
import { reach, type Sequential, standsTo, THROUGH, tellSequential } from './sequential.ts';

/** Operations a second that a class of solid-state drive should reach. Common practice, no source. */
const CLASSES = {
  'sata-solid-state': { least: 3_000, most: 90_000, latencyMs: 0.1 },
  'nvme-solid-state': { least: 20_000, most: 1_000_000, latencyMs: 0.08 },
  'usb-stick': { least: 5, most: 1_500, latencyMs: 5 },
} as const;
const CLASS_NAMES = ['spinning', 'sata-solid-state', 'nvme-solid-state', 'usb-stick', 'unknown'] as const;
const LEVELS = ['single', '0', '1', '5', '6', '10'] as const;

/** Operations on members that one small write costs. RAID 0, 1, 5: the book's figure 38.8; 6 and 10: common practice. */
const WRITE_COST = { single: 1, '0': 1, '1': 2, '5': 4, '6': 6, '10': 2 } as const;
const LEAST_MEMBERS = { single: 1, '0': 2, '1': 2, '5': 3, '6': 4, '10': 4 } as const;
/** Command queuing lets a spinning drive choose the nearest request: about a third more at depth 32. Common practice, no source. */
const TURN_MS = 30_000;
const SLOW = 0.5;
const VERY_SLOW = 0.1;

const input = z.strictObject({
  class: oneOf(CLASS_NAMES),
  rpm: number('turns a minute, from 3000 to 20000', 3000, 20_000).optional(),
  seekMs: number('milliseconds, from 0.1 to 50', 0.1, 50).optional(),
  transferMBps: number('megabytes a second, from 1 to 20000', 1, 20_000).optional(),
  requestKB: number('kilobytes, from 0.5 to 100000', 0.5, 100_000).default(4),
  /** Requests outstanding at once. */
  queue: whole('requests outstanding, from 1 to 65536', 1, 65_536).default(1),
  /** Milliseconds that one request takes, where it was measured: rate is queue over latency. */
  latencyMs: number('milliseconds, from 0.001 to 100000', 0.001, 100_000).optional(),
  level: oneOf(LEVELS).default('single'),
  members: whole('members, from 1 to 1000', 1, 1000).default(1),
  readShare: number('a share from 0 to 1', 0, 1).default(0.7),
  measuredIops: number('operations a second, from 0 to 100000000', 0, 1e8).optional(),
  /** Instead of small requests: the rate at which one large file moves. */
  measuredMBps: number('megabytes a second, from 0 to 1000000', 0, 1e6).optional(),
  /** What it is connected through. */
  link: oneOf(THROUGH).optional(),
});
export type IopsInput = z.infer<typeof input>;

const VERDICTS = [
  'as-expected',
  'slow',
  'very-slow',
  'like-usb-2',
  'faster-than-expected',
  'not-measured',
] as const;

const smallRequests = z.object({
  verdict: z.enum(VERDICTS),
  /** One member's: milliseconds for a random request, and operations a second. */
  requestMs: z.number(),
  memberIops: z.number(),
  memberMBps: z.number(),
  /** Of the whole, by the book's rules for the level; for a mix of reads and writes as stated. */
  readIops: z.number(),
  writeIops: z.number(),
  mixedIops: z.number(),
  /** The range a measured figure is held against. */
  expected: z.object({ low: z.number(), high: z.number() }),
  /** Requests that must be outstanding to reach the mixed rate at the measured or expected latency (Little's law). */
  outstanding: z.number(),
  /** Little's law on the measured latency, where one was given. */
  rateByLatency: z.number().nullable(),
});
const largeFile = z.object({
  verdict: z.enum(VERDICTS),
  /** The range a measured rate is held against, in megabytes a second, and what bounds it. */
  expectedMBps: z.object({ low: z.number(), high: z.number(), bound: z.enum(['drive', 'link']) }),
});
const output = z.union([largeFile, smallRequests]);
export type IopsOutput = z.infer<typeof output>;

function member({ class: kind, rpm, seekMs, transferMBps, requestKB, latencyMs }: IopsInput) {
  if (kind === 'spinning') {
    if (rpm === undefined)
      throw new Impossible('rpm', 'give the turns a minute of a spinning drive, such as 7200');
    const seek = seekMs ?? (rpm >= 15_000 ? 3.5 : rpm >= 10_000 ? 4.5 : rpm >= 7200 ? 8.5 : 11);
    const transfer = requestKB / (transferMBps ?? 150);
    const requestMs = seek + TURN_MS / rpm + transfer;
    return { requestMs, low: 1000 / requestMs, high: 1000 / requestMs };
  }
  if (kind === 'unknown') throw new Impossible('class', 'give the class of drive, or measuredMBps');
  if (rpm !== undefined) throw new Impossible('rpm', 'a solid-state drive does not turn; leave it out');
  const { least, most, latencyMs: usual } = CLASSES[kind];
  const carried = transferMBps === undefined ? Number.POSITIVE_INFINITY : (transferMBps * 1000) / requestKB;
  return { requestMs: latencyMs ?? usual, low: Math.min(least, carried), high: Math.min(most, carried) };
}

function work(given: IopsInput): IopsOutput {
  const { level, members, queue, latencyMs, readShare, measuredIops, requestKB } = given;
  if (members < LEAST_MEMBERS[level])
    throw new Impossible('members', `level ${level} needs at least ${LEAST_MEMBERS[level]}`);
  if (level === 'single' && members > 1)
    throw new Impossible('level', 'give the level of the array, such as 5');
  if (level === '10' && members % 2 === 1)
    throw new Impossible('members', 'level 10 needs an even number, two to a mirror');
  if (isLarge(given)) {
    if (measuredIops !== undefined)
      throw new Impossible(
        'measuredMBps',
        'give this or measuredIops: small requests and a large file are held against different ranges',
      );
    const expectedMBps = reach(given);
    return { verdict: standsTo(given, expectedMBps), expectedMBps };
  }
  const one = member(given);
  const reads = (each: number) => each * members;
  const writes = (each: number) => (each * members) / WRITE_COST[level];
  // Each operation of the mix costs the members one read, or what a write costs.
  const mixed = (each: number) => (each * members) / (readShare + (1 - readShare) * WRITE_COST[level]);
  const { requestMs, low, high } = one;
  const memberIops =
    given.class === 'spinning' ? low : Math.min(high, Math.max(low, (queue * 1000) / requestMs));
  // A spinning drive is given room for caching and for choosing the nearest request.
  const expected =
    given.class === 'spinning'
      ? { low: mixed(low) * 0.8, high: mixed(high) * 2 }
      : { low: mixed(low), high: mixed(high) };
  return {
    verdict: judge(measuredIops, expected),
    requestMs,
    memberIops,
    memberMBps: (memberIops * requestKB) / 1000,
    readIops: reads(memberIops),
    writeIops: writes(memberIops),
    mixedIops: mixed(memberIops),
    expected,
    outstanding: (mixed(memberIops) * (latencyMs ?? requestMs)) / 1000,
    rateByLatency: latencyMs === undefined ? null : (queue * 1000) / latencyMs,
  };
}

const isLarge = (given: IopsInput): given is IopsInput & Sequential => given.measuredMBps !== undefined;

function judge(
  measured: number | undefined,
  { low, high }: { low: number; high: number },
): IopsOutput['verdict'] {
  if (measured === undefined) return 'not-measured';
  if (measured < low * VERY_SLOW) return 'very-slow';
  if (measured < low * SLOW) return 'slow';
  return measured > high * 1.5 ? 'faster-than-expected' : 'as-expected';
}

const rounded = (figure: number): string => Number(figure.toPrecision(3)).toLocaleString('en');

function tell(output: IopsOutput, given: IopsInput): Told {
  if ('expectedMBps' in output)
    return isLarge(given) ? tellSequential(given, output.expectedMBps) : { says: [], limits: [] };
  const { measuredIops, requestKB, readShare, level, members, queue, latencyMs } = given;
  const {
    expected,
    mixedIops,
    requestMs,
    memberIops,
    memberMBps,
    readIops,
    writeIops,
    outstanding,
    rateByLatency,
    verdict,
  } = output;
  const whole = level === 'single' ? 'The drive' : `The array (level ${level}, ${members} members)`;
  const judged = {
    'as-expected': 'That is what it should reach: the drive is not what is slow.',
    slow: 'That is less than half of what it should reach: look at errors, heat, cable and what else is running.',
    'very-slow':
      'That is less than a tenth of what it should reach. A drive that tries again and again is that slow: save the data first, then read its health.',
    'faster-than-expected':
      'That is more than the drive itself can do: a cache answered, so the figure says nothing about the drive.',
    'like-usb-2': null,
    'not-measured': null,
  }[verdict];
  return {
    says: [
      `${whole} should reach about ${rounded(mixedIops)} operations a second with ${requestKB} kB requests, ${Math.round(readShare * 100)}% of them reads (${rounded(expected.low)} to ${rounded(expected.high)}).`,
      ...(measuredIops === undefined ? [] : [`Measured: ${rounded(measuredIops)}. ${judged}`]),
      ...(rateByLatency === null
        ? []
        : [
            `${queue} outstanding at ${latencyMs} ms make ${rounded(rateByLatency)} operations a second (Little's law).`,
          ]),
    ],
    table: [
      ['', 'figure'],
      ['one random request', `${requestMs.toFixed(3)} ms`],
      ['one member', `${rounded(memberIops)} a second, ${rounded(memberMBps)} MB/s`],
      ['reads only', `${rounded(readIops)} a second`],
      ['writes only', `${rounded(writeIops)} a second`],
      ['outstanding to keep it busy', rounded(outstanding)],
    ],
    limits: [
      'Small random requests; one long sequential read is hundreds of times faster on a spinning drive.',
      'Where seek time or rate were not given, usual ones of the class are taken (common practice). A write cache can hide a slow drive for a while.',
    ],
  };
}

export const iops: Working<IopsInput, IopsOutput> = {
  id: 'iops',
  title: 'what a drive or an array should reach, and how a measured figure stands to it',
  input: input as z.ZodType<IopsInput>,
  output,
  example: { class: 'spinning', rpm: 7200, seekMs: 8.5, transferMBps: 150, requestKB: 4, measuredIops: 6 },
  verdicts: VERDICTS,
  work,
  verdict: ({ verdict }) => verdict,
  tell,
};
