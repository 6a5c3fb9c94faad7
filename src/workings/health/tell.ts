/** What was found, for people: the answer, why, what to do, a few figures. */
import type { Told } from '../working.ts';
import type { HealthInput, HealthOutput } from './index.ts';
import type { Verdict } from './reading.ts';
import { SILENT } from './worth.ts';

type One = HealthOutput['drives'][number];
type Figure = One['figures'][string];

const HEADLINES: Record<Verdict, string> = {
  'past-its-limit': 'Past its limit: the drive says itself that it can no longer be relied on.',
  'act-soon': 'Act soon: there are signs that come before failure.',
  watch: 'Watch it: something stands out that need not be the drive failing.',
  'nothing-reported': 'Nothing is reported. That does not make it healthy: many drives fail without a sign.',
  'no-reading': 'No reading: nothing came through that could tell how the drive is.',
};

const ADVICE: Record<Verdict, string> = {
  'past-its-limit':
    'Leave it on while it reads, copy what exists only there first, then replace it. No repair, no test that writes. If it clicks or grinds, switch it off instead.',
  'act-soon':
    'Copy what exists only there now, then plan to replace it. If it clicks or grinds, switch it off instead.',
  watch:
    'Make sure that a copy exists, and read it again in a week: what grows matters more than what stands there.',
  'nothing-reported':
    'Go by what is noticed: noise, slowness and files that cannot be read count more than this page. See that a copy exists.',
  'no-reading':
    'Ask again with the drive straight at the computer, without adapter or hub, but only if starting it is safe. Till then treat it by its symptoms.',
};

/** All that speaks is not the drive's own: then the drive is not the one to replace. */
const ELSEWHERE: Record<string, string> = {
  cable:
    'Reseat or change the cable, or look at the backplane, before anybody blames the drive; then read it again.',
  power: 'Look at the power before anybody blames the drive; then read it again.',
  heat: 'Bring it back to its temperature first: air, fan, dust, or a rest. Then read it again.',
  reading: 'Make sure first that the readings are of this drive, and read it again.',
};

function advice({ verdict, reasons }: One): string {
  const [first, ...others] = [...new Set(reasons.map(({ points }) => points))];
  const elsewhere = first === undefined || others.length > 0 ? undefined : ELSEWHERE[first];
  return verdict === 'past-its-limit' ? ADVICE[verdict] : (elsewhere ?? ADVICE[verdict]);
}

/** Longer than any count of a drive. */
const LONG = 20;
const SIZES = ['bytes', 'kB', 'MB', 'GB', 'TB', 'PB'] as const;

const CAUTIONS: Record<string, string> = {
  cable:
    'Work inside a machine is for people whom your site allows it: switched off, lead out, battery and static thought of. In an array without margin nothing is reseated.',
  power:
    'Measuring in a running machine is for qualified people, by your site rules. Nobody opens a power supply.',
};

const number = (value: number | string): string => {
  if (typeof value === 'number') return value.toLocaleString('en');
  return value.length > LONG ? `about 10^${value.length - 1}` : BigInt(value).toLocaleString('en');
};

function shown({ value, unit }: Pick<Figure, 'value' | 'unit'>): string {
  if (value === null) return 'not reported';
  const digits = String(value).length;
  const size = Math.min(Math.floor((digits - 1) / 3), SIZES.length - 1);
  const one = value === 1 ? unit.replace(/s$/, '') : unit;
  if (unit !== 'bytes' || size === 0 || digits > LONG)
    return `${number(value)}${unit === '' ? '' : ` ${one}`}`;
  return `${number(Number((Number(value) / 1000 ** size).toPrecision(4)))} ${SIZES[size]}`;
}

const NOTES = {
  packed: 'several numbers in one field',
  absurd: 'cannot be',
  'at-maximum': 'its field is full',
  'no-sensor': 'no sensor',
} as const;

/** Shown whether they stand out or not. */
const ALWAYS = [
  'temperature',
  'hours-on',
  'times-on',
  'unsafe-stops',
  'life-used',
  'spare-left',
  'spare-limit',
  'unmended-errors',
  'unmended-read-errors',
  'unmended-write-errors',
  'sectors-replaced',
  'sectors-waiting',
  'sectors-unreadable',
  'late-commands',
  'link-errors',
  'bytes-written',
];

function rows({ figures, reasons, drive }: One, several: boolean): string[][] {
  const blamed = new Set(reasons.map(({ figure }) => figure));
  return Object.entries(figures)
    .filter(
      ([id, { note, value }]) =>
        blamed.has(id) ||
        note === 'absurd' ||
        note === 'at-maximum' ||
        (ALWAYS.includes(id) && !(several && value === null)),
    )
    .map(([, figure]) => {
      const { name, note, own } = figure;
      const scale = own === null ? '' : `own scale ${own.now}, limit ${own.limit ?? 'not given'}`;
      return [
        several ? `${drive ?? '?'}: ${name}` : name,
        shown(figure),
        [note === null ? '' : NOTES[note], scale].filter(part => part !== '').join(', '),
      ];
    });
}

const absurd = ({ figures }: One): string[] =>
  Object.entries(figures)
    .filter(([, { note }]) => note === 'absurd')
    .map(([id, figure]) =>
      id === 'hours-on'
        ? `${shown(figure)} switched on cannot be: that is ${Math.round(Number(figure.value) / 8766).toLocaleString('en')} years without a break. The drive may count minutes or seconds, or keep something else there; it is left out.`
        : `${figure.name}: ${shown(figure)} cannot be, so it is left out.`,
    );

const MOST_REASONS = 6;

function about(one: One, name: string): string[] {
  const { verdict, reasons, remarks, chance } = one;
  const studies = [
    ...new Set(reasons.flatMap(({ worth }) => (worth === null ? [] : [`${worth.says} (${worth.source})`]))),
  ];
  return [
    `${name}${HEADLINES[verdict]}`,
    ...reasons.slice(0, MOST_REASONS).map(({ why }) => `- ${why}`),
    ...(reasons.length > MOST_REASONS ? [`- And ${reasons.length - MOST_REASONS} more.`] : []),
    ...absurd(one),
    ...remarks,
    ...(verdict === 'nothing-reported' ? [SILENT] : studies),
    ...(chance === null
      ? []
      : [
          `Put in figures: if ${chance.priorPercent}% of such drives fail in a year, among those that look like this it is about ${chance.afterPercent.toPrecision(2)}%.`,
        ]),
    advice(one),
  ];
}

function trendSays({ trend }: HealthOutput): string[] {
  if (trend === null) return [];
  const over = trend.days === null ? 'between the readings' : `in ${Number(trend.days.toFixed(1))} days`;
  const quiet = trend.counters.every(({ grew }) => Number(grew) === 0);
  return [
    quiet
      ? `Over ${trend.readings} readings none of its counts grew ${over}.`
      : `Over ${trend.readings} readings, ${over}: see the table for what grew.`,
    ...trend.counters
      .filter(({ resets }) => resets > 0)
      .map(({ name }) => `${name}: the count went back, so it was reset; what stands there now is new.`),
    ...trend.counters
      .filter(({ wraps }) => wraps > 0)
      .map(({ name }) => `${name}: the count reached the end of its field and began again.`),
    ...(trend.daysToRatedLife === null
      ? []
      : [
          `At this pace its rated life is used up in about ${Math.round(trend.daysToRatedLife).toLocaleString('en')} days; that is a rating, not an end.`,
        ]),
  ];
}

export function tell(output: HealthOutput, { readings }: HealthInput): Told {
  const { drives, trend } = output;
  const several = drives.length > 1;
  const heads = trend === null ? ['', 'reading', 'note'] : ['', 'first', 'last', 'grew', 'a day'];
  const body =
    trend === null
      ? drives.flatMap(each => rows(each, several))
      : trend.counters.map(({ name, first, last, grew, perDay }) => [
          name,
          number(first),
          number(last),
          number(grew),
          perDay === null ? '' : String(Number(perDay.toPrecision(3))),
        ]);
  const cautions = Object.entries(CAUTIONS)
    .filter(([points]) => drives.some(({ reasons }) => reasons.some(each => each.points === points)))
    .map(([, caution]) => caution);
  return {
    ...(cautions.length > 0 && { cautions }),
    says: [
      ...drives.flatMap((each, place) =>
        about(each, several ? `Drive ${each.drive ?? `${place + 1} of the list`}: ` : ''),
      ),
      ...trendSays(output),
    ].filter((line, place, all) => line !== SILENT || all.indexOf(line) === place),
    ...(body.length > 0 && { table: [heads, ...body] }),
    limits: [
      'A drive reports what its maker chose to count; nothing here tells that a drive is well.',
      'Studies are of drives in computing centres; they say how much a sign is worth among many, not when this drive stops.',
      ...(drives.some(({ kind }) => kind === 'ata-smart')
        ? ['What an ATA attribute counts is its maker’s choice; it is read here as most of them use it.']
        : []),
      ...(readings.length > 0
        ? ['That all readings are of one drive is taken for granted: they hold no serial number.']
        : []),
    ],
  };
}
