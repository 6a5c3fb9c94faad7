/**
 * ATA SMART: the data page, the page of limits (thresholds), 512 bytes each, least byte first, and the return status. Layout:
 * hdsmart.h (Linux), atasmart.h (OpenBSD), ntdddisk.h (Windows), which agree. Both pages sum to 0 modulo 256. Whether falling
 * to the limit foretells failure or tells of age only: flag bit 0 (SFF-8035i revision 2, page 19).
 */
import { ATTRIBUTES, SECOND_CHOICE, WEARS } from './attributes.ts';
import { count, type Figure, little, MOST_HOURS, type Reading, type Reason, reason } from './reading.ts';

interface Entry {
  id: number;
  foretells: boolean;
  now: number;
  worst: number;
  raw: bigint;
}

const SLOTS = Array.from({ length: 30 }, (_, place) => 2 + 12 * place);

export const sumsUp = (bytes: readonly number[]): boolean =>
  bytes.reduce((sum, byte) => sum + byte, 0) % 256 === 0;

const used = (bytes: readonly number[]): number[] => SLOTS.filter(at => (bytes[at] ?? 0) !== 0);

/** Entries with numbers of their own; or none, and what the drive can do after them. */
export function looksAta(bytes: readonly number[]): boolean {
  const ids = used(bytes).map(at => bytes[at]);
  const some = ids.length > 0 || (bytes[368] ?? 0) !== 0;
  return bytes.length === 512 && some && new Set(ids).size === ids.length;
}

/** The page of limits has nothing after an entry's limit. */
export const looksLikeLimits = (bytes: readonly number[]): boolean =>
  used(bytes).length > 0 && used(bytes).every(at => bytes.slice(at + 2, at + 12).every(byte => byte === 0));

const SELF_TESTS: Record<number, Reason> = {
  3: reason('act-soon', 'drive', null, 'Its own last test could not be finished for an error in the drive.'),
  4: reason('past-its-limit', 'drive', null, 'Its own last test failed, in a part it could not name.'),
  5: reason('past-its-limit', 'drive', null, 'Its own last test failed: its electronics.'),
  6: reason('past-its-limit', 'drive', null, 'Its own last test failed: the mechanics of its heads.'),
  7: reason('act-soon', 'drive', null, 'Its own last test failed: it could not read a place.'),
  8: reason('act-soon', 'drive', null, 'Its own last test failed, and it suspects damage by handling.'),
};

const STATUS = {
  passed: [],
  exceeded: [
    reason(
      'past-its-limit',
      'drive',
      null,
      'It says of itself that a limit is passed which foretells its failure.',
    ),
  ],
  'not-passed-on': [],
} as const;
export type Status = keyof typeof STATUS;
export const STATUSES = ['passed', 'exceeded', 'not-passed-on'] as const;

/** LBA middle and high as the drive leaves them: 4F C2 passed, F4 2C exceeded; nothing came back from behind an adapter. */
export function statusOf(text: string): string {
  const registers = [...text.matchAll(/\b(?:0x)?([0-9a-f]{4}|[0-9a-f]{2})h?\b/gi)]
    .flatMap(([, digits = '']) => digits.match(/../g) ?? [])
    .map(byte => byte.toLowerCase());
  const meant = { '4fc2': 'passed', '2cf4': 'exceeded', '0000': 'not-passed-on', ffff: 'not-passed-on' };
  return meant[registers.toSorted().join('') as keyof typeof meant] ?? text;
}

const entriesOf = (bytes: readonly number[]): Entry[] =>
  used(bytes).map(at => ({
    id: bytes[at]!,
    foretells: (bytes[at + 1]! & 1) === 1,
    now: bytes[at + 3]!,
    worst: bytes[at + 4]!,
    raw: little(bytes, at + 5, 6),
  }));

const limitsOf = (bytes: readonly number[] | undefined): Map<number, number> =>
  new Map(used(bytes ?? []).map(at => [bytes![at]!, bytes![at + 1]!]));

/** The number in a raw field of six bytes, which makers fill in their own ways. */
function readRaw(id: string, raw: bigint): Figure {
  if (id === 'temperature') {
    // Degrees in the lowest byte, often the extremes above it; all zero where there is no sensor.
    const degrees = Number(raw & 0xffn);
    if (raw === 0n) return { value: null, note: 'no-sensor' };
    return degrees > 150 ? { value: degrees, note: 'absurd' } : { value: degrees };
  }
  if (id === 'late-commands' && raw > 0xffffn) {
    // Three counts side by side, each of them of late commands; the largest is told.
    const parts = [raw & 0xffffn, (raw >> 16n) & 0xffffn, raw >> 32n];
    return { value: parts.reduce((most, part) => (part > most ? part : most)), note: 'packed' };
  }
  const low = raw & 0xffffffffn;
  if (id === 'hours-on' && raw !== low && low <= MOST_HOURS) return { value: low, note: 'packed' };
  return count(id, raw, 48);
}

function ownScale(id: string, { now, worst, foretells }: Entry, limit: number | null): Reason[] {
  if (limit === null || limit === 0 || Math.min(now, worst) > limit) return [];
  const scale = `by its own scale (${now}, worst ${worst}, limit ${limit})`;
  if (id === 'temperature')
    return now <= limit
      ? [reason('act-soon', 'heat', id, `It is too hot ${scale}.`)]
      : [reason('watch', 'heat', id, `It has been too hot ${scale}.`)];
  if (now > limit)
    return [
      foretells
        ? reason('act-soon', 'drive', id, `It has been past a limit that foretells failure, ${scale}.`)
        : reason('watch', 'wear', id, `It has been past a limit of age or use, ${scale}.`),
    ];
  return [
    foretells
      ? reason('past-its-limit', 'drive', id, `It is past a limit that foretells failure, ${scale}.`)
      : reason('act-soon', 'wear', id, `It is past the age or use it was made for, ${scale}.`),
  ];
}

export function ata(
  bytes: readonly number[] | undefined,
  limitBytes: readonly number[] | undefined,
  status: Status | undefined,
): Reading {
  const figures = new Map<string, Figure>();
  const declared: Reason[] = status === undefined ? [] : [...STATUS[status]];
  const entries = bytes === undefined ? [] : entriesOf(bytes);
  const limits = limitsOf(limitBytes);
  const present = new Set(entries.map(({ id }) => ATTRIBUTES[id]));
  for (const entry of entries) {
    const usual = ATTRIBUTES[entry.id] ?? SECOND_CHOICE[entry.id];
    const taken = ATTRIBUTES[entry.id] === undefined && present.has(usual);
    const id = usual === undefined || taken ? `attribute-${entry.id}` : usual;
    const limit = limits.get(entry.id) ?? null;
    const { now, worst } = entry;
    figures.set(id, { ...readRaw(id, entry.raw), own: { now, worst, limit } });
    declared.push(...ownScale(usual === 'temperature' ? 'temperature' : id, entry, limit));
    if ((WEARS as readonly number[]).includes(entry.id) && now <= 10 && limits.get(entry.id) === undefined)
      declared.push(
        reason(
          'watch',
          'wear',
          id,
          `Attribute ${entry.id} stands at ${now} of 100; on many solid-state drives that is the life that is left.`,
        ),
      );
  }
  const test = bytes === undefined ? undefined : SELF_TESTS[bytes[363]! >> 4];
  const stopped = bytes !== undefined && (bytes[362]! & 0x7f) === 6;
  return {
    kind: 'ata-smart',
    drive: null,
    figures,
    declared: [
      ...declared,
      ...(test === undefined ? [] : [test]),
      ...(stopped
        ? [reason('watch', 'drive', null, 'Its scan in the background stopped with an error.')]
        : []),
    ],
    remarks: remarksOf(bytes, limitBytes, status),
    tells: entries.length > 0 || status === 'passed' || status === 'exceeded',
  };
}

function remarksOf(
  bytes: readonly number[] | undefined,
  limitBytes: readonly number[] | undefined,
  status: Status | undefined,
): string[] {
  const said: string[] = [];
  if (bytes !== undefined && bytes[363]! >> 4 === 15)
    said.push(`Its own test is running, with ${(bytes[363]! & 15) * 10}% left; let it end.`);
  if (bytes !== undefined && limitBytes === undefined)
    said.push('Its page of limits is not there, so its own scales could not be held against them.');
  if (bytes !== undefined && used(bytes).length === 0)
    said.push('It passes on no attribute; an adapter may keep them back.');
  if (status === 'not-passed-on') said.push('Its own verdict did not come through.');
  if (bytes === undefined && status === 'passed')
    said.push('All it says is that no limit of its own is passed; its counts are not there.');
  return said;
}
