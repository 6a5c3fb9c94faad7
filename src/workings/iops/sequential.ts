/** What copying one large file should reach, in megabytes (10^6 bytes) a second, and how a measured rate stands to it. */
import { LINK_NAMES, LINKS } from '../links.ts';
import type { Told } from '../working.ts';

/** As links, and `usb` where nobody knows which USB it is. */
export const THROUGH = [...LINK_NAMES, 'usb'] as const;
type Through = (typeof THROUGH)[number];

/**
 * Of one drive, reading or writing. Common practice, no source, but for the least of sticks and cards: the slowest speed class
 * writes 2 MB/s (SD Association). `unknown`: anything that stores.
 */
const CLASSES = {
  spinning: { least: 80, most: 300 },
  'sata-solid-state': { least: 200, most: 560 },
  'nvme-solid-state': { least: 800, most: 14_000 },
  'usb-stick': { least: 2, most: 450 },
  unknown: { least: 2, most: 14_000 },
} as const;
/** Nothing that stores is meant to be slower. */
const LEAST = CLASSES['usb-stick'].least;
/** A fast drive on USB 2.0 shows up to this much. Common practice; what fits into the standard's frames is 53.2. */
const USB_2_MOST = 40;
const SLOW = 0.5;
const VERY_SLOW = 0.1;

/** Drives that move data at once: Three Easy Pieces, figure 38.8; for RAID 6 and 10 by the same reasoning. */
const AT_ONCE = {
  single: () => 1,
  '0': (n: number) => n,
  '1': (n: number) => n / 2,
  '5': (n: number) => n - 1,
  '6': (n: number) => n - 2,
  '10': (n: number) => n / 2,
} as const;

export interface Sequential {
  class: keyof typeof CLASSES;
  level: keyof typeof AT_ONCE;
  members: number;
  link?: Through | undefined;
  measuredMBps: number;
}

export interface Range {
  low: number;
  high: number;
  /** What bounds it. */
  bound: 'drive' | 'link';
}

export function reach({ class: kind, level, members, link }: Sequential): Range {
  const { least, most } = CLASSES[kind];
  const drives = AT_ONCE[level](members);
  const [slowest, fastest] = carried(link);
  return {
    low: Math.min(least * drives, slowest),
    high: Math.min(most * drives, fastest),
    bound: fastest < most * drives ? 'link' : 'drive',
  };
}

function carried(link: Through | undefined): [slowest: number, fastest: number] {
  if (link === undefined) return [Number.POSITIVE_INFINITY, Number.POSITIVE_INFINITY];
  return link === 'usb'
    ? [LINKS['usb-2'].MBps, LINKS['usb-3-10g'].MBps]
    : [LINKS[link].MBps, LINKS[link].MBps];
}

export function standsTo(given: Sequential, { low, high }: Range) {
  const { measuredMBps: measured, link } = given;
  const usb = link === 'usb' || link === 'usb-3-5g' || link === 'usb-3-10g';
  // On USB 2.0 it would be slow from here down.
  const slowOn2 = Math.min(low, LINKS['usb-2'].MBps) * SLOW;
  const tenth = usb ? Math.min(low * VERY_SLOW, slowOn2) : low * VERY_SLOW;
  if (measured < Math.max(tenth, Math.min(LEAST, low))) return 'very-slow';
  if (usb && measured >= slowOn2 && measured <= USB_2_MOST) return 'like-usb-2';
  if (measured < low * SLOW) return 'slow';
  return measured > high * 1.5 ? 'faster-than-expected' : 'as-expected';
}

const JUDGED = {
  'very-slow':
    'Nothing that works well is that slow: it tries again and again. Save the data first, then read its health.',
  'like-usb-2':
    'That is what USB 2.0 carries: try another port and cable, straight at the computer, before the drive is suspected.',
  slow: 'That is less than half of what it should reach: look at errors, heat, cable and what else is running.',
  'faster-than-expected':
    'That is more than it can do: a cache took it, so the figure says nothing about the drive.',
  'as-expected': 'That is what it should reach: the drive is not what is slow.',
} as const;

const rounded = (figure: number): string => Number(figure.toPrecision(3)).toLocaleString('en');

export function tellSequential(given: Sequential, range: Range): Told {
  const { low, high, bound } = range;
  const held = bound === 'link' ? '; its connection allows no more' : '';
  const verdict = standsTo(given, range);
  const kindUnknown = given.class === 'unknown';
  const should = kindUnknown
    ? 'What kind of drive it is, is not known.'
    : `One large file should move at ${rounded(low)} to ${rounded(high)} MB a second${held}.`;
  const judged =
    kindUnknown && verdict === 'as-expected' ? 'Nothing in that points at the drive.' : JUDGED[verdict];
  return {
    says: [`${should} Measured: ${rounded(given.measuredMBps)} MB a second. ${judged}`],
    limits: [
      'One large file: many small ones are slow on any drive. A long write may fall to a fraction once a cache is full.',
      'Ranges of the classes are common practice; link rates are those of the standards, less their overhead.',
    ],
  };
}
