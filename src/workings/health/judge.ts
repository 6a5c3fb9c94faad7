/** What the figures of a reading mean. Limits are common practice, no source, where none is named. */
import { type Figure, type Reading, type Reason, reason, type Verdict, type Worth } from './reading.ts';
import { FIVE, FLAGGED, FLASH, LINKS, SCANNED, WEAR } from './worth.ts';

export type Drive = 'spinning' | 'solid-state';

export interface Known {
  drive?: Drive | undefined;
  /** Given by hand: the warmest that its maker allows. */
  mostCelsius?: number | undefined;
}

/** A few replaced sectors that stay as they are can be borne for years; more than that hardly stay. */
const MANY_REPLACED = 10n;
const OFTEN_UNSAFE = 10n;
const NEARLY_WORN = 90n;
const NEAR_SPARE_LIMIT = 5n;
/** Microsoft: more than 10 seconds can mean trouble with the drive or the host adapter. */
const SLOW_MS = 10_000n;
/** Usual limits of operation, in degrees Celsius (one web page, weak; limits of the drive itself go first). */
const WARMEST = { spinning: 60, 'solid-state': 70 } as const;
const COLDEST = 0;

type Judge = (n: bigint, all: ReadonlyMap<string, Figure>) => Reason | null;

const plural = (n: bigint, one: string, more: string): string =>
  n === 1n ? `1 ${one}` : `${n.toLocaleString('en')} ${more}`;

const whole = (all: ReadonlyMap<string, Figure>, id: string): bigint | null => {
  const value = all.get(id)?.value ?? null;
  return typeof value === 'bigint' ? value : null;
};

const some =
  (verdict: 'act-soon' | 'watch', id: string, says: (n: bigint) => string): Judge =>
  n =>
    n > 0n ? reason(verdict, 'drive', id, says(n)) : null;

const unmended = (id: string, doing: string): [string, Judge] => [
  id,
  some('act-soon', id, n => `${plural(n, 'error', 'errors')} in ${doing} that it could not mend.`),
];

/** Errors in all, where it is not said how many of them were not mended. */
const unclear =
  (id: string, doing: string): Judge =>
  (n, all) => {
    if (whole(all, `unmended-${doing}-errors`) !== null) return null;
    const open = n - (whole(all, `mended-${doing}-errors`) ?? 0n);
    return open > 0n
      ? reason(
          'watch',
          'drive',
          id,
          `${plural(open, `${doing} error`, `${doing} errors`)} of which it does not say whether they were mended.`,
        )
      : null;
  };

const pastMade =
  (id: string): Judge =>
  (n, all) => {
    const most = whole(all, `${id}-limit`);
    return most !== null && n > most
      ? reason(
          'watch',
          'wear',
          id,
          `It has done ${n.toLocaleString('en')}, and is made for ${most.toLocaleString('en')}.`,
        )
      : null;
  };

const slow =
  (id: string, what: string): Judge =>
  n =>
    n > SLOW_MS
      ? reason(
          'watch',
          'drive',
          id,
          `${what} once took ${Math.round(Number(n) / 1000).toLocaleString('en')} seconds: the drive, its cable or its controller.`,
        )
      : null;

const JUDGES: ReadonlyMap<string, Judge> = new Map<string, Judge>([
  [
    'unmended-errors',
    some(
      'act-soon',
      'unmended-errors',
      n => `${plural(n, 'data error', 'data errors')} that it could not mend: something on it was lost.`,
    ),
  ],
  unmended('unmended-read-errors', 'reading'),
  unmended('unmended-write-errors', 'writing'),
  unmended('unmended-check-errors', 'checking'),
  ['all-read-errors', unclear('all-read-errors', 'read')],
  ['all-write-errors', unclear('all-write-errors', 'write')],
  [
    'sectors-waiting',
    some(
      'act-soon',
      'sectors-waiting',
      n => `${plural(n, 'sector', 'sectors')} it could not read and has not replaced yet.`,
    ),
  ],
  [
    'sectors-unreadable',
    some(
      'act-soon',
      'sectors-unreadable',
      n => `Its own scan found ${plural(n, 'sector', 'sectors')} that cannot be read.`,
    ),
  ],
  [
    'sectors-replaced',
    n =>
      some(
        n >= MANY_REPLACED ? 'act-soon' : 'watch',
        'sectors-replaced',
        () => `${plural(n, 'sector has', 'sectors have')} been replaced by spares.`,
      )(n, new Map()),
  ],
  [
    'replacing-sectors',
    some('watch', 'replacing-sectors', n => `It replaced sectors ${plural(n, 'time', 'times')}.`),
  ],
  [
    'inner-mismatch',
    some(
      'act-soon',
      'inner-mismatch',
      n => `${plural(n, 'time', 'times')} data changed on the way through the drive itself.`,
    ),
  ],
  [
    'spin-retries',
    some(
      'act-soon',
      'spin-retries',
      n => `It needed ${plural(n, 'more try', 'more tries')} to reach its speed: the motor, or weak power.`,
    ),
  ],
  [
    'late-commands',
    some(
      'watch',
      'late-commands',
      n =>
        `${plural(n, 'command was', 'commands were')} not done in time: the drive, its cable or its power.`,
    ),
  ],
  [
    'link-errors',
    n =>
      n > 0n
        ? reason(
            'watch',
            'cable',
            'link-errors',
            `${plural(n, 'checksum error', 'checksum errors')} on the way between drive and computer: the cable, a connector or the backplane, not the drive. The count never goes back; it has to stop growing.`,
          )
        : null,
  ],
  [
    'unsafe-stops',
    (n, all) => {
      const times = whole(all, 'times-on');
      return n >= OFTEN_UNSAFE && times !== null && n * 4n >= times
        ? reason(
            'watch',
            'power',
            'unsafe-stops',
            `The power went ${plural(n, 'time', 'times')} without warning, in ${plural(times, 'time', 'times')} switched on: look at the power, the plug and how the machine is switched off.`,
          )
        : null;
    },
  ],
  [
    'life-used',
    n =>
      n >= NEARLY_WORN
        ? reason(
            'watch',
            'wear',
            'life-used',
            `${n === 255n ? 'More than 254' : n}% of the life its maker rates is used. That alone is no failure; plan the change.`,
          )
        : null,
  ],
  [
    'spare-left',
    (n, all) => {
      const least = whole(all, 'spare-limit');
      if (least === null || least === 0n || least > 100n) return null;
      if (n < least)
        return reason(
          'past-its-limit',
          'drive',
          'spare-left',
          `${n}% spare blocks are left, below its limit of ${least}%.`,
        );
      return n - least <= NEAR_SPARE_LIMIT
        ? reason(
            'watch',
            'drive',
            'spare-left',
            `${n}% spare blocks are left, close to its limit of ${least}%.`,
          )
        : null;
    },
  ],
  [
    'minutes-critical',
    n =>
      n > 0n
        ? reason(
            'watch',
            'heat',
            'minutes-critical',
            `It has been above its critical temperature for ${plural(n, 'minute', 'minutes')} in its life.`,
          )
        : null,
  ],
  ['start-stops', pastMade('start-stops')],
  ['head-parkings', pastMade('head-parkings')],
  ['slowest-read', slow('slowest-read', 'Reading')],
  ['slowest-write', slow('slowest-write', 'Writing')],
  ['slowest-flush', slow('slowest-flush', 'Emptying its cache')],
]);

function heat({ kind, figures, declared }: Reading, { drive, mostCelsius }: Known): Reason | null {
  const { value, note } = figures.get('temperature') ?? { value: null };
  if (value === null || note === 'absurd' || declared.some(({ points }) => points === 'heat')) return null;
  const own = mostCelsius ?? figures.get('temperature-limit')?.value ?? null;
  const usual = WARMEST[drive ?? (kind === 'nvme-log' ? 'solid-state' : 'spinning')];
  if (own !== null && value > own)
    return reason('act-soon', 'heat', 'temperature', `${value} °C, and it may run at ${own} °C at most.`);
  if (own === null && value > usual)
    return reason(
      'watch',
      'heat',
      'temperature',
      `${value} °C is warmer than most such drives are made for (${usual} °C).`,
    );
  return value < COLDEST
    ? reason('watch', 'heat', 'temperature', `${value} °C is colder than most drives are made for.`)
    : null;
}

/** What a study says about this figure on such a drive. */
function worthOf(figure: string | null, { kind }: Reading, { drive }: Known): Worth | null {
  if (figure === 'link-errors') return LINKS;
  if (figure === 'life-used') return WEAR;
  const flash = drive === 'solid-state' || (drive === undefined && kind === 'nvme-log');
  if (flash) return figure === 'unmended-errors' ? FLASH : null;
  if (kind !== 'ata-smart') return null;
  if (figure === 'sectors-unreadable') return SCANNED;
  return (FIVE as readonly (string | null)[]).includes(figure) ? FLAGGED : null;
}

/** Two weak signs at once are a strong one. */
function several(figures: ReadonlyMap<string, Figure>): Reason[] {
  const there = FIVE.filter(id => (figures.get(id)?.value ?? 0) > 0);
  return there.length > 1
    ? [
        reason(
          'act-soon',
          'drive',
          null,
          `${there.length} of the five counts that go with failure are above zero at once.`,
        ),
      ]
    : [];
}

const WEIGHT = { watch: 1, 'act-soon': 2, 'past-its-limit': 3 } as const;

/** The gravest first. */
export function reasonsOf(reading: Reading, known: Known): Reason[] {
  const { figures, declared } = reading;
  const judged = [...figures].flatMap(([id, { value, note }]) => {
    const judge = JUDGES.get(id);
    return judge === undefined || typeof value !== 'bigint' || note === 'absurd'
      ? []
      : [judgedAs(judge(value, figures), note)];
  });
  const spareSaid = declared.some(({ figure }) => figure === 'spare-left');
  return inOrder(
    [...declared, ...judged, heat(reading, known), ...several(figures)]
      .filter(each => each !== null)
      .filter(each => !(spareSaid && judged.includes(each) && each.figure === 'spare-left'))
      .map(each => ({ ...each, worth: each.worth ?? worthOf(each.figure, reading, known) })),
  );
}

const judgedAs = (found: Reason | null, note: Figure['note']): Reason | null =>
  found !== null && note === 'at-maximum' && found.points !== 'wear'
    ? { ...found, why: `${found.why} The count is as high as its field can hold: full, stuck or never used.` }
    : found;

export const inOrder = (reasons: readonly Reason[]): Reason[] =>
  reasons.toSorted((a, b) => WEIGHT[b.verdict] - WEIGHT[a.verdict]);

export const verdictOf = (reasons: readonly Reason[], tells: boolean): Verdict =>
  inOrder(reasons)[0]?.verdict ?? (tells ? 'nothing-reported' : 'no-reading');

const GRAVITY: readonly Verdict[] = ['nothing-reported', 'no-reading', 'watch', 'act-soon', 'past-its-limit'];

/** Of several drives the one that needs somebody first; one that says nothing comes before one without trouble. */
export const gravest = (verdicts: readonly Verdict[]): Verdict =>
  verdicts.toSorted((a, b) => GRAVITY.indexOf(b) - GRAVITY.indexOf(a))[0]!;
