/**
 * How long copying takes, as a range, whether it fits and is done in time, and what to save first.
 *
 * Sizes in decimal gigabytes (10^9 bytes), rates in megabytes a second (10^6), times in hours. The best case moves
 * everything at the slowest of link and drives, less the protocol's overhead; each file costs a fixed moment on top. The
 * worst case takes the drive at a fraction of its rate: a failing drive may run at a tenth (common practice, no source).
 * Sources of the link rates: see LINKS. Errors: a set larger than the drive it comes from is impossible.
 */
import { z } from 'zod';
import { LINK_NAMES, LINKS } from '../links.ts';
import { Impossible, number, oneOf, type Told, type Working, whole } from '../working.ts';

const DRIVES = { spinning: 150, 'solid-state': 500, nvme: 3000, stick: 30 } as const;
const DRIVE_NAMES = ['spinning', 'solid-state', 'nvme', 'stick'] as const;
/** Share of a drive's rate that is left in the worst case. Common practice, no source. */
const LEFT = { well: 0.5, suspect: 0.25, failing: 0.1 } as const;
/** Seconds for opening, closing and finding one file. Common practice, no source. */
const PER_FILE = { local: 0.005, network: 0.03 } as const;
const SECONDS_AN_HOUR = 3600;

const set = z.strictObject({
  name: z.string({ error: 'give a name' }).min(1, 'give a name').max(100, 'give at most 100 characters'),
  gigabytes: number('gigabytes, from 0 to 1000000', 0, 1_000_000),
  files: whole('files, from 0 to 1000000000', 0, 1_000_000_000).default(0),
  copyElsewhere: oneOf(['seen', 'believed', 'nowhere']).default('nowhere'),
  lastChangedDays: number('days since the last change, from 0 to 36500', 0, 36_500).default(0),
});

const input = z.strictObject({
  /** What is to be copied, in any order. */
  sets: z
    .array(set, { error: 'give a list of sets, each with name and gigabytes' })
    .min(1, 'give at least one')
    .max(200, 'give at most 200'),
  from: oneOf(DRIVE_NAMES),
  condition: oneOf(['well', 'suspect', 'failing']).default('failing'),
  to: oneOf(DRIVE_NAMES).default('spinning'),
  link: oneOf(LINK_NAMES),
  /** Measured, if it was: replaces what the kind of drive should do. */
  measuredMBps: number('megabytes a second, from 0.001 to 20000', 0.001, 20_000).optional(),
  freeGigabytes: number('free gigabytes at the target, from 0 to 1000000', 0, 1_000_000).optional(),
  hoursLeft: number('hours until it must be done, from 0 to 10000', 0, 10_000).optional(),
});
export type CopyTimeInput = z.infer<typeof input>;

const VERDICTS = ['fits', 'may-not-fit', 'does-not-fit', 'no-space'] as const;

const output = z.object({
  verdict: z.enum(VERDICTS),
  gigabytes: z.number(),
  files: z.number(),
  bottleneck: z.enum(['link', 'source', 'target', 'measured']),
  bestMBps: z.number(),
  worstMBps: z.number(),
  bestHours: z.number(),
  worstHours: z.number(),
  /** In the order in which to copy, with the hours by which each is done. */
  order: z.array(
    z.object({
      name: z.string(),
      gigabytes: z.number(),
      why: z.string(),
      doneBestHours: z.number(),
      doneWorstHours: z.number(),
    }),
  ),
  /** Sets that are certain to be done in the time left, and those that may be. Null without a deadline. */
  inTime: z.object({ surely: z.array(z.string()), perhaps: z.array(z.string()) }).nullable(),
});
export type CopyTimeOutput = z.infer<typeof output>;

type Set = z.infer<typeof set>;

/** Only copies first, then what was worked on last, then few large files before many small ones of the same size. */
const urgency = ({ copyElsewhere, lastChangedDays, files, gigabytes }: Set): number[] => [
  copyElsewhere === 'nowhere' ? 0 : copyElsewhere === 'believed' ? 1 : 2,
  lastChangedDays <= 30 ? 0 : 1,
  files / Math.max(gigabytes, 0.001),
];

const WHY = {
  nowhere: 'the only copy',
  believed: 'a copy elsewhere is only believed',
  seen: 'a copy was seen elsewhere',
} as const;

function inOrder(sets: readonly Set[]): Set[] {
  return sets.toSorted((a, b) => {
    const [left, right] = [urgency(a), urgency(b)];
    const at = left.findIndex((value, place) => value !== right[place]);
    return at === -1 ? 0 : left[at]! - right[at]!;
  });
}

function work(given: CopyTimeInput): CopyTimeOutput {
  const { sets, from, to, link, condition, measuredMBps, freeGigabytes, hoursLeft } = given;
  const names = new Set(sets.map(({ name }) => name));
  if (names.size < sets.length) throw new Impossible('sets', 'give every set a name of its own');
  const limits = {
    link: LINKS[link].MBps,
    source: measuredMBps ?? DRIVES[from],
    target: DRIVES[to],
  };
  const slowest = (Object.keys(limits) as (keyof typeof limits)[]).reduce((a, b) =>
    limits[b] < limits[a] ? b : a,
  );
  const best = limits[slowest];
  // A measured figure already is what the drive does now; it may still get worse.
  const worst = Math.min(limits.link, limits.target, limits.source * LEFT[condition]);
  const perFile = LINKS[link].network ? PER_FILE.network : PER_FILE.local;
  const hours = ({ gigabytes, files }: Set, rate: number) =>
    (gigabytes * 1000) / rate / SECONDS_AN_HOUR + (files * perFile) / SECONDS_AN_HOUR;
  let [doneBestHours, doneWorstHours] = [0, 0];
  const order = inOrder(sets).map(each => {
    doneBestHours += hours(each, best);
    doneWorstHours += hours(each, worst);
    return {
      name: each.name,
      gigabytes: each.gigabytes,
      why: WHY[each.copyElsewhere],
      doneBestHours,
      doneWorstHours,
    };
  });
  const gigabytes = sets.reduce((sum, each) => sum + each.gigabytes, 0);
  const inTime =
    hoursLeft === undefined
      ? null
      : {
          surely: order.filter(each => each.doneWorstHours <= hoursLeft).map(({ name }) => name),
          perhaps: order
            .filter(each => each.doneWorstHours > hoursLeft && each.doneBestHours <= hoursLeft)
            .map(({ name }) => name),
        };
  const verdict = (): CopyTimeOutput['verdict'] => {
    if (freeGigabytes !== undefined && freeGigabytes < gigabytes) return 'no-space';
    if (hoursLeft === undefined || doneWorstHours <= hoursLeft) return 'fits';
    return doneBestHours <= hoursLeft ? 'may-not-fit' : 'does-not-fit';
  };
  return {
    verdict: verdict(),
    gigabytes,
    files: sets.reduce((sum, { files }) => sum + files, 0),
    bottleneck: slowest === 'source' && measuredMBps !== undefined ? 'measured' : slowest,
    bestMBps: best,
    worstMBps: worst,
    bestHours: doneBestHours,
    worstHours: doneWorstHours,
    order,
    inTime,
  };
}

const BOTTLENECK = {
  link: 'the cable or network between them',
  source: 'the drive that is read',
  target: 'the drive that is written',
  measured: 'the rate that was measured',
} as const;

/** "40 minutes", "3.5 hours", "2.1 days". */
export function duration(hours: number): string {
  if (hours < 1 / 60) return 'under a minute';
  if (hours < 1) return `${Math.round(hours * 60)} minutes`;
  return hours < 48 ? `${hours.toFixed(1)} hours` : `${(hours / 24).toFixed(1)} days`;
}

function tell(
  { bestHours, worstHours, gigabytes, bottleneck, verdict, order, inTime }: CopyTimeOutput,
  given: CopyTimeInput,
): Told {
  const { condition, freeGigabytes, hoursLeft } = given;
  const says = [
    `${gigabytes} GB take ${duration(bestHours)} at best and ${duration(worstHours)} at worst; what holds it up is ${BOTTLENECK[bottleneck]}.`,
  ];
  if (verdict === 'no-space')
    says.push(`The target has only ${freeGigabytes} GB free: take a larger one first.`);
  if (inTime !== null) {
    says.push(
      verdict === 'fits'
        ? `That is done within the ${duration(hoursLeft!)} that are left.`
        : `In the ${duration(hoursLeft!)} that are left: surely ${listOf(inTime.surely)}; perhaps ${listOf(inTime.perhaps)}.`,
    );
  }
  if (condition === 'failing')
    says.push('Stop and switch it off as soon as it clicks, grinds or keeps starting.');
  return {
    says,
    table: [
      ['copy in this order', 'GB', 'because', 'done after'],
      ...order.map(({ name, gigabytes: size, why, doneBestHours, doneWorstHours }) => [
        name,
        String(size),
        why,
        `${duration(doneBestHours)} to ${duration(doneWorstHours)}`,
      ]),
    ],
    limits: [
      `A drive that is ${condition} is taken to run at ${LEFT[condition] * 100}% of its rate at worst (common practice); a drive can also stop altogether.`,
      'Link rates are what the standards allow, less usual overhead; a busy network has less.',
    ],
  };
}

const listOf = (names: readonly string[]): string => (names.length === 0 ? 'nothing' : names.join(', '));

export const copyTime: Working<CopyTimeInput, CopyTimeOutput> = {
  id: 'copy-time',
  title: 'how long copying takes, whether it fits, and what to save first',
  input: input as z.ZodType<CopyTimeInput>,
  output,
  example: {
    sets: [
      { name: 'measurements', gigabytes: 120, files: 900, copyElsewhere: 'nowhere', lastChangedDays: 1 },
      { name: 'photos', gigabytes: 300, files: 60000, copyElsewhere: 'believed', lastChangedDays: 400 },
    ],
    from: 'spinning',
    condition: 'failing',
    to: 'spinning',
    link: 'gigabit-ethernet',
    freeGigabytes: 1000,
    hoursLeft: 8,
  },
  verdicts: VERDICTS,
  work,
  verdict: ({ verdict }) => verdict,
  tell,
};
