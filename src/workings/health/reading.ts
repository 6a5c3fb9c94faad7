/** What one reading of one drive holds, whatever it came from. Counters are exact: whole numbers of any size. */

export const KINDS = ['nvme-log', 'ata-smart', 'scsi-log', 'windows-counters'] as const;
export type Kind = (typeof KINDS)[number];

export const VERDICTS = ['past-its-limit', 'act-soon', 'watch', 'nothing-reported', 'no-reading'] as const;
export type Verdict = (typeof VERDICTS)[number];

/** What a reason points at. A drive is not replaced for its cable. */
export const POINTS = ['drive', 'cable', 'power', 'heat', 'wear', 'reading'] as const;
export type Points = (typeof POINTS)[number];

/** `packed`: its maker keeps several numbers in one field. `absurd`: no drive can have that. `at-maximum`: the field is full. */
export const NOTES = ['packed', 'absurd', 'at-maximum', 'no-sensor'] as const;
export type Note = (typeof NOTES)[number];

export interface Figure {
  /** Null: not reported, which is not zero. Whole numbers are exact; temperatures have decimals. */
  value: bigint | number | null;
  note?: Note;
  /** The drive's own scale of an ATA attribute: 253 down to 1, and the limit below which it should not fall. */
  own?: { now: number; worst: number; limit: number | null };
}

export interface Worth {
  says: string;
  /** How many times as likely among drives that fail, where the study gives it. */
  ratio: number | null;
  source: string;
}

export interface Reason {
  verdict: 'past-its-limit' | 'act-soon' | 'watch';
  points: Points;
  /** The figure it is about, where there is one. */
  figure: string | null;
  why: string;
  worth: Worth | null;
}

export interface Reading {
  /** Null where nothing came through that could tell. */
  kind: Kind | null;
  /** As the system numbers it; null where the reading does not say. */
  drive: string | null;
  figures: Map<string, Figure>;
  /** What the drive says of itself. */
  declared: Reason[];
  /** Told besides: what is odd and judged by nobody. */
  remarks: string[];
  /** It holds something in which trouble would show. A temperature alone does not. */
  tells: boolean;
}

/** What is left of a page that holds one byte over and over: nobody answered. */
export const blank = (kind: Kind | null, remark: string): Reading => ({
  kind,
  drive: null,
  figures: new Map(),
  declared: [],
  remarks: [remark],
  tells: false,
});

/** Numbers that every JSON reader keeps; larger ones as decimal digits. */
export const exact = (value: bigint | number): number | string =>
  typeof value === 'number' ? value : value <= Number.MAX_SAFE_INTEGER ? Number(value) : String(value);

export const reason = (
  verdict: Reason['verdict'],
  points: Points,
  figure: string | null,
  why: string,
  worth: Worth | null = null,
): Reason => ({ verdict, points, figure, why, worth });

/** Bytes, least one first. */
export function little(bytes: readonly number[], at: number, length: number): bigint {
  let value = 0n;
  for (let place = length - 1; place >= 0; place--) value = (value << 8n) | BigInt(bytes[at + place]!);
  return value;
}

/** Bytes, greatest one first. */
export const big = (bytes: readonly number[]): bigint =>
  bytes.reduce((value, byte) => (value << 8n) | BigInt(byte), 0n);

export const allOnes = (bits: number): bigint => (1n << BigInt(bits)) - 1n;

/** Bytes past which no drive can have been read or written: 20 years at 10 GB a second are 6.3e18. Arithmetic. */
const MOST_BYTES = 10n ** 19n;
/** 20 years at two million commands a second are 1.3e15. Arithmetic. */
const MOST_COMMANDS = 10n ** 16n;
/** Nearly 23 years without a break; drives with these counters have not been made for longer. Common practice, no source. */
export const MOST_HOURS = 200_000n;

const ABSURD: Record<string, bigint> = {
  'hours-on': MOST_HOURS,
  'busy-minutes': MOST_HOURS * 60n,
  'bytes-read': MOST_BYTES,
  'bytes-written': MOST_BYTES,
  'read-commands': MOST_COMMANDS,
  'write-commands': MOST_COMMANDS,
  'times-on': 100_000_000n,
  'spare-left': 100n,
  'spare-limit': 100n,
  'life-used': 255n,
};
const COLDEST = -60;
const HOTTEST = 150;

/** A count as the drive gives it. `bits`: the size of its field, if it may be full. */
export function count(id: string, value: bigint | null, bits?: number): Figure {
  if (value === null) return { value };
  if (bits !== undefined && value === allOnes(bits)) return { value, note: 'at-maximum' };
  const most = ABSURD[id];
  return most !== undefined && value > most ? { value, note: 'absurd' } : { value };
}

export const celsius = (value: number | null): Figure =>
  value !== null && (value < COLDEST || value > HOTTEST) ? { value, note: 'absurd' } : { value };

export const isUniform = (bytes: readonly number[]): boolean => bytes.every(byte => byte === bytes[0]);
