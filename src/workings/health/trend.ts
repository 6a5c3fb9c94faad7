/**
 * Several readings of one drive: what grows and how fast. A count that falls was reset, or its field of 16, 32, 48 or 64 bits
 * was full and began again (told from how near it was to the end); either way what stands there now is new.
 */
import { Impossible } from '../working.ts';
import { counts, nameOf } from './names.ts';
import { type Kind, type Reading, type Reason, reason } from './reading.ts';

const FIELD_BITS: Record<Kind, readonly number[]> = {
  'nvme-log': [128],
  'ata-smart': [16, 32, 48],
  'scsi-log': [8, 16, 32, 64],
  'windows-counters': [16, 32, 64],
};

/** Growing, these foretell failure. */
const GRAVE = [
  'unmended-errors',
  'unmended-read-errors',
  'unmended-write-errors',
  'unmended-check-errors',
  'sectors-replaced',
  'replacing-sectors',
  'sectors-waiting',
  'sectors-unreadable',
  'inner-mismatch',
  'spin-retries',
] as const;
const MEANINGS: Record<string, Pick<Reason, 'points' | 'why'>> = {
  'link-errors': {
    points: 'cable',
    why: 'Checksum errors on the link are still growing: reseat or change the cable, or look at the backplane.',
  },
  'unsafe-stops': { points: 'power', why: 'It still loses power without warning: look at the power first.' },
  'late-commands': {
    points: 'drive',
    why: 'More commands were not done in time: the drive, its cable or its power.',
  },
};
const TOLD: readonly string[] = [...GRAVE, ...Object.keys(MEANINGS)];
const MS_A_DAY = 86_400_000;
/** A shorter time says nothing about wear. Common practice, no source. */
const LEAST_DAYS = 7;

export interface Timed {
  at: string | undefined;
  reading: Reading;
}

export interface Counted {
  figure: string;
  name: string;
  first: bigint | number;
  last: bigint | number;
  /** Sum of all steps upward, resets and wraps taken into account. */
  grew: bigint | number;
  perDay: number | null;
  resets: number;
  wraps: number;
}

export interface Trend {
  from: string | null;
  to: string | null;
  days: number | null;
  readings: number;
  counters: Counted[];
  /** Days until the rated life is used up at this pace; null where that cannot be said. */
  daysToRatedLife: number | null;
}

const TIME = /^(\d{4}-\d\d-\d\d)(?:[T ](\d\d:\d\d(?::\d\d(?:\.\d{1,9})?)?)(Z|[+-]\d\d:\d\d)?)?$/;

/** Milliseconds of a time, NaN where it is none; one without a zone is taken as UTC. */
function moment(at: string): number {
  const [, date = '', time = '00:00', zone = 'Z'] = TIME.exec(at.trim()) ?? [];
  const day = Date.parse(`${date}T00:00:00Z`);
  // 30 February is no day, though some readers make it 2 March.
  if (Number.isNaN(day) || !new Date(day).toISOString().startsWith(date)) return Number.NaN;
  return Date.parse(`${date}T${time}${zone}`);
}

export function inTime(timed: readonly Timed[]): Timed[] {
  const without = timed.findIndex(({ at }) => at === undefined);
  if (without !== -1 && timed.some(({ at }) => at !== undefined))
    throw new Impossible(`readings.${without}.at`, 'give the time of every reading, or of none');
  if (without !== -1) return [...timed];
  const wrong = timed.findIndex(({ at }) => Number.isNaN(moment(at!)));
  if (wrong !== -1)
    throw new Impossible(
      `readings.${wrong}.at`,
      'give a date or time such as 2026-03-01 or 2026-03-01T09:30:00Z',
    );
  const sorted = timed.toSorted((a, b) => moment(a.at!) - moment(b.at!));
  const twice = sorted.findIndex(
    ({ at }, place) => place > 0 && moment(at!) === moment(sorted[place - 1]!.at!),
  );
  if (twice !== -1) throw new Impossible('readings', `two readings have the same time, ${sorted[twice]!.at}`);
  return sorted;
}

interface Step {
  grew: bigint;
  how: 'up' | 'reset' | 'wrap';
}

function stepOf(before: bigint, now: bigint, kind: Kind): Step {
  if (now >= before) return { grew: now - before, how: 'up' };
  const full = FIELD_BITS[kind]
    .map(bits => 1n << BigInt(bits))
    .find(size => before < size && before >= size - size / 16n && now < size / 16n);
  return full === undefined ? { grew: now, how: 'reset' } : { grew: now + full - before, how: 'wrap' };
}

function counted(id: string, values: readonly bigint[], kind: Kind, days: number | null): Counted {
  const level = !counts(id);
  const steps = values.slice(1).map((value, place) => stepOf(values[place]!, value, kind));
  const first = values[0]!;
  const last = values.at(-1)!;
  const grew = level ? last - first : steps.reduce((sum, step) => sum + step.grew, 0n);
  const times = (how: Step['how']) => (level ? 0 : steps.filter(step => step.how === how).length);
  return {
    figure: id,
    name: nameOf(id),
    first,
    last,
    grew,
    perDay: days === null ? null : Number(grew) / days,
    resets: times('reset'),
    wraps: times('wrap'),
  };
}

/** Does a level that may fall again, such as doubtful sectors, rise anywhere on the way? */
const rises = (values: readonly bigint[]): boolean =>
  values.some((value, place) => place > 0 && value > values[place - 1]!);

export function trendOf(timed: readonly Timed[]): { trend: Trend; reasons: Reason[] } {
  const [first, last] = [timed[0]!, timed.at(-1)!];
  const kind = last.reading.kind!;
  const days =
    first.at === undefined || last.at === undefined ? null : (moment(last.at) - moment(first.at)) / MS_A_DAY;
  const series = [...last.reading.figures.keys()].flatMap(id => {
    const values = timed.flatMap(({ reading }) => {
      const { value, note } = reading.figures.get(id) ?? { value: null };
      return typeof value === 'bigint' && note !== 'absurd' && note !== 'at-maximum' ? [value] : [];
    });
    return values.length > 1 ? [{ id, values, counter: counted(id, values, kind, days) }] : [];
  });
  const grown = series.filter(({ id, values, counter }) => (counts(id) ? counter.grew > 0 : rises(values)));
  const grave = grown.filter(({ id }) => (GRAVE as readonly string[]).includes(id));
  const used = series.find(({ id }) => id === 'life-used')?.counter;
  const hours = series.find(({ id }) => id === 'hours-on')?.counter;
  const spare = series.find(({ id }) => id === 'spare-left')?.counter;
  return {
    trend: {
      from: first.at ?? null,
      to: last.at ?? null,
      days,
      readings: timed.length,
      counters: series
        .filter(
          ({ id, counter }) =>
            (counts(id) && counter.grew > 0) ||
            (!id.startsWith('attribute-') && counter.first !== counter.last) ||
            (TOLD.includes(id) && counter.last > 0),
        )
        .map(({ counter }) => counter),
      daysToRatedLife: lifeLeft(used, days),
    },
    reasons: [
      ...(grave.length > 0
        ? [
            reason(
              'act-soon',
              'drive',
              grave[0]!.id,
              `Its errors are growing: ${grave.map(({ counter }) => `${counter.name.toLowerCase()} from ${counter.first} to ${counter.last}`).join('; ')}.`,
            ),
          ]
        : []),
      ...grown.flatMap(({ id }) => {
        const meaning = MEANINGS[id];
        return meaning === undefined ? [] : [reason('watch', meaning.points, id, meaning.why)];
      }),
      ...(spare !== undefined && spare.grew < 0
        ? [
            reason(
              'watch',
              'wear',
              'spare-left',
              `Its spare blocks fell from ${spare.first}% to ${spare.last}%.`,
            ),
          ]
        : []),
      ...(hours !== undefined && odd(hours, days)
        ? [
            reason(
              'watch',
              'reading',
              'hours-on',
              `Its hours went from ${hours.first} to ${hours.last}: that does not fit the time between. Another drive, or a count that was reset?`,
            ),
          ]
        : []),
    ],
  };
}

/** Hours that go back without a full field, or faster than time does. */
const odd = ({ grew, resets }: Counted, days: number | null): boolean =>
  resets > 0 || (days !== null && Number(grew) > days * 24 * 1.05 + 25);

function lifeLeft(used: Counted | undefined, days: number | null): number | null {
  if (used === undefined || days === null || days < LEAST_DAYS || used.grew <= 0 || used.last >= 100)
    return null;
  return (100 - Number(used.last)) / (Number(used.grew) / days);
}
