/**
 * How a drive is, by what it reports: the NVMe health log, ATA SMART (data, limits, return status), SCSI log pages, or what
 * Windows counts; and what grows between readings.
 *
 * Pages are hex as people paste it; counters are JSON. Temperatures are degrees Celsius, sizes bytes. Counters are exact: a
 * JSON number up to 9007199254740991, decimal digits in quotes above. Null is "not reported" and never taken for zero. Layouts
 * and their sources: nvme.ts, ata.ts, scsi.ts, windows.ts; likelihoods: worth.ts. Errors name the field and say what is
 * expected: wrong lengths, a wrong checksum, bytes missing inside a paste, mixed kinds, counts below zero.
 */
import { z } from 'zod';
import { Impossible, number, oneOf, type Working } from '../working.ts';
import { STATUSES, statusOf } from './ata.ts';
import { gravest, inOrder, reasonsOf, verdictOf } from './judge.ts';
import { nameOf, unitOf } from './names.ts';
import { asCounters, readingsOf } from './read.ts';
import { exact, KINDS, NOTES, POINTS, type Reading, type Reason, VERDICTS } from './reading.ts';
import { tell } from './tell.ts';
import { inTime, type Timed, type Trend, trendOf } from './trend.ts';
import { isCounters, windowsCounters } from './windows.ts';
import { after, ratioOf } from './worth.ts';

const MOST_TEXT = 12_000;
const text = (what: string) =>
  z
    .string({ error: `give ${what}` })
    .max(MOST_TEXT, `give at most ${MOST_TEXT} letters`)
    .describe(what);

/** A list in an option is taken apart at its commas; text is put together again. */
const isText = (given: unknown): given is string[] =>
  Array.isArray(given) && given.length > 0 && given.every(part => typeof part === 'string');

const counters = z.preprocess(
  // Text is taken as well: what a shell wrote into a file is not always plain JSON.
  given => asCounters(isText(given) ? given.join(',') : given) ?? given,
  z.union(
    [
      windowsCounters,
      z.array(windowsCounters).min(1, 'there is no drive in it').max(200, 'give at most 200 drives'),
    ],
    { error: 'give what Get-StorageReliabilityCounter | ConvertTo-Json prints' },
  ),
);
const reading = {
  page: text('a page in hex: 512 bytes of NVMe or ATA, or a SCSI log page').optional(),
  thresholds: text("the ATA drive's page of limits in hex, 512 bytes").optional(),
  status: z
    .preprocess(
      given => (typeof given === 'string' ? statusOf(given) : given),
      z.enum(STATUSES, {
        error: `give one of: ${STATUSES.join(', ')}; or LBA middle and high in hex, 4F C2 or F4 2C`,
      }),
    )
    .optional(),
  counters: counters.optional(),
};

const input = z.preprocess(
  // What Windows prints can be handed over as it is.
  given => (isCounters(given) ? { counters: given } : given),
  z.strictObject({
    ...reading,
    /** Told from the content, unless given. */
    kind: oneOf(KINDS).optional(),
    drive: oneOf(['spinning', 'solid-state']).optional(),
    /** What its maker allows, where the drive does not say. */
    mostCelsius: number('degrees Celsius, from 20 to 120', 20, 120).optional(),
    /** Of 100 such drives, how many fail in a year. 1 to 4 are common (Schroeder and Gibson, FAST 2007). */
    priorPercent: number('percent that fail in a year, from 0.01 to 50', 0.01, 50).default(1.5),
    /** Instead of one reading: several of one drive, with their times or in their order. */
    readings: z
      .array(
        z.strictObject({
          at: z
            .string({ error: 'give a date or time such as 2026-03-01T09:30:00Z' })
            .max(40, 'give at most 40 letters')
            .optional(),
          ...reading,
        }),
        { error: 'give a list of readings, each with at and page or counters' },
      )
      .max(400, 'give at most 400 readings')
      .default([]),
  }),
);
export type HealthInput = z.infer<typeof input>;

/** A JSON number, or decimal digits where that would lose some. */
const value = z.union([z.number(), z.string()]);
const why = z.object({
  verdict: z.enum(['past-its-limit', 'act-soon', 'watch']),
  points: z.enum(POINTS),
  figure: z.string().nullable(),
  why: z.string(),
  worth: z.object({ says: z.string(), ratio: z.number().nullable(), source: z.string() }).nullable(),
});

const output = z.object({
  verdict: z.enum(VERDICTS),
  /** One, or as many as Windows listed. */
  drives: z.array(
    z.object({
      drive: z.string().nullable(),
      kind: z.enum(KINDS).nullable(),
      verdict: z.enum(VERDICTS),
      reasons: z.array(why),
      /** By what they count; null where it is not reported. */
      figures: z.record(
        z.string(),
        z.object({
          name: z.string(),
          unit: z.string(),
          value: value.nullable(),
          note: z.enum(NOTES).nullable(),
          own: z.object({ now: z.int(), worst: z.int(), limit: z.int().nullable() }).nullable(),
        }),
      ),
      remarks: z.array(z.string()),
      /** By the study of five counts, for ATA drives that are not solid-state. */
      chance: z.object({ priorPercent: z.number(), ratio: z.number(), afterPercent: z.number() }).nullable(),
    }),
  ),
  trend: z
    .object({
      from: z.string().nullable(),
      to: z.string().nullable(),
      days: z.number().nullable(),
      readings: z.int(),
      counters: z.array(
        z.object({
          figure: z.string(),
          name: z.string(),
          first: value,
          last: value,
          grew: value,
          perDay: z.number().nullable(),
          resets: z.int(),
          wraps: z.int(),
        }),
      ),
      daysToRatedLife: z.number().nullable(),
    })
    .nullable(),
});
export type HealthOutput = z.infer<typeof output>;

function driveOf(
  { kind, drive, figures, remarks, tells }: Reading,
  reasons: readonly Reason[],
  given: HealthInput,
): HealthOutput['drives'][number] {
  const spinning = kind === 'ata-smart' && given.drive !== 'solid-state';
  const ratio = spinning ? ratioOf(figures) : null;
  const { priorPercent } = given;
  return {
    drive,
    kind,
    verdict: verdictOf(reasons, tells),
    reasons: [...reasons],
    figures: Object.fromEntries(
      [...figures].map(([id, figure]) => [
        id,
        {
          name: nameOf(id),
          unit: unitOf(id),
          value: figure.value === null ? null : exact(figure.value),
          note: figure.note ?? null,
          own: figure.own ?? null,
        },
      ]),
    ),
    remarks,
    chance: ratio === null ? null : { priorPercent, ratio, afterPercent: after(priorPercent, ratio) },
  };
}

const told = (trend: Trend): HealthOutput['trend'] => ({
  ...trend,
  counters: trend.counters.map(each => ({
    ...each,
    first: exact(each.first),
    last: exact(each.last),
    grew: exact(each.grew),
  })),
});

function work(given: HealthInput): HealthOutput {
  const { readings, kind } = given;
  if (readings.length > 0) return overTime(given);
  const drives = readingsOf(given, kind, '').map(each => driveOf(each, reasonsOf(each, given), given));
  return { verdict: gravest(drives.map(({ verdict }) => verdict)), drives, trend: null };
}

function overTime(given: HealthInput): HealthOutput {
  const { readings, kind } = given;
  const alone = (['page', 'thresholds', 'status', 'counters'] as const).find(
    field => given[field] !== undefined,
  );
  if (alone !== undefined) throw new Impossible(alone, 'put it into readings, as one of them');
  const timed = inTime(
    readings.map((each, place) => {
      const found = readingsOf(each, kind, `readings.${place}.`);
      if (found.length > 1)
        throw new Impossible(`readings.${place}.counters`, 'give one drive, the same in every reading');
      return { at: each.at, reading: found[0]! };
    }),
  );
  const telling = timed.filter(({ reading: { tells } }) => tells);
  const kinds = new Set(telling.map(each => each.reading.kind));
  if (kinds.size > 1)
    throw new Impossible('readings', `they are of different kinds (${[...kinds].join(', ')}); give one kind`);
  const names = new Set(telling.flatMap(each => each.reading.drive ?? []));
  if (names.size > 1)
    throw new Impossible('readings', `they are of different drives (${[...names].join(', ')}); give one`);
  const last = telling.at(-1) ?? timed.at(-1)!;
  const trend = telling.length > 1 ? trendOf(telling) : null;
  const reasons = inOrder([...(trend?.reasons ?? []), ...reasonsOf(last.reading, given)]);
  const one = driveOf(last.reading, reasons, given);
  const remarks = last === timed.at(-1) ? one.remarks : [...one.remarks, silentAtLast(last)];
  return {
    verdict: one.verdict,
    drives: [{ ...one, remarks }],
    trend: trend === null ? null : told(trend.trend),
  };
}

const silentAtLast = ({ at }: Timed): string =>
  `The latest reading shows nothing; this is of ${at ?? 'the last one that does'}. A drive that falls silent is a sign of its own, unless it now hangs on another adapter.`;

export const health: Working<HealthInput, HealthOutput> = {
  id: 'health',
  title: 'how a drive is, by what it reports, and what grows between readings',
  input: input as z.ZodType<HealthInput>,
  output,
  example: {
    page: [
      '00000000  00 39 01 64 0a 07 00 00  00 00 00 00 00 00 00 00  |.9.d............|',
      '00000010  00 00 00 00 00 00 00 00  00 00 00 00 00 00 00 00  |................|',
      '00000020  33 ea 19 00 00 00 00 00  00 00 00 00 00 00 00 00  |3...............|',
      '00000030  7a 5b 0c 01 00 00 00 00  00 00 00 00 00 00 00 00  |z[..............|',
      '00000040  6b 26 fa 00 00 00 00 00  00 00 00 00 00 00 00 00  |k&..............|',
      '00000050  2b 6d 20 08 00 00 00 00  00 00 00 00 00 00 00 00  |+m .............|',
      '00000060  92 01 00 00 00 00 00 00  00 00 00 00 00 00 00 00  |................|',
      '00000070  7d 01 00 00 00 00 00 00  00 00 00 00 00 00 00 00  |}...............|',
      '00000080  bb 1c 00 00 00 00 00 00  00 00 00 00 00 00 00 00  |................|',
      '00000090  8f 00 00 00 00 00 00 00  00 00 00 00 00 00 00 00  |................|',
      '000000a0  02 00 00 00 00 00 00 00  00 00 00 00 00 00 00 00  |................|',
      '000000b0  1f 00 00 00 00 00 00 00  00 00 00 00 00 00 00 00  |................|',
      '000000c0  00 00 00 00 00 00 00 00  00 00 00 00 00 00 00 00  |................|',
      '*',
      '00000200',
    ].join('\n'),
  },
  verdicts: VERDICTS,
  work,
  verdict: ({ verdict }) => verdict,
  tell,
};
