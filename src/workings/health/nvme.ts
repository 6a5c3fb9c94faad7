/**
 * The NVMe SMART / Health Information log page (log 02h), 512 bytes, least byte first. Layout: struct nvme_smart_log of the
 * Linux kernel and NVME_HEALTH_INFO_LOG of Windows, which agree; meanings: Microsoft's page on the latter. Bit 5 of the
 * critical warnings: the manual pages of the NVMe library of Linux.
 */
import {
  allOnes,
  celsius,
  count,
  type Figure,
  little,
  type Reading,
  type Reason,
  reason,
} from './reading.ts';

/** A data unit is 1000 times 512 bytes, rounded up, whatever the drive's block size. */
const DATA_UNIT = 512_000n;
const KELVIN = 273.15;

const WARNINGS: readonly Reason[] = [
  reason('past-its-limit', 'drive', 'spare-left', 'It says that its spare blocks are below their limit.'),
  reason(
    'act-soon',
    'heat',
    'temperature',
    'It says that its temperature is outside its limits, above or below.',
  ),
  reason(
    'past-its-limit',
    'drive',
    null,
    'It says that it can no longer be relied on, after errors of its medium or inside it.',
  ),
  reason('past-its-limit', 'drive', null, 'It has turned read-only: it takes nothing new any more.'),
  reason(
    'past-its-limit',
    'drive',
    null,
    'What keeps its cache over a power loss has failed: with the power, the last writes are lost.',
  ),
  reason(
    'past-its-limit',
    'drive',
    null,
    'Its persistent memory region has turned read-only or cannot be relied on.',
  ),
];

const COUNTERS = {
  'read-commands': 64,
  'write-commands': 80,
  'busy-minutes': 96,
  'times-on': 112,
  'hours-on': 128,
  'unsafe-stops': 144,
  'unmended-errors': 160,
  'logged-errors': 176,
} as const;

const SMALL_COUNTERS = {
  'minutes-hot': 192,
  'minutes-critical': 196,
  'slowed-lightly': 216,
  'slowed-heavily': 220,
  'seconds-slowed-lightly': 224,
  'seconds-slowed-heavily': 228,
} as const;

/** Zero kelvin: not measured, or there is no such sensor. */
const degrees = (bytes: readonly number[], at: number): Figure => {
  const kelvin = Number(little(bytes, at, 2));
  return celsius(kelvin === 0 ? null : Number((kelvin - KELVIN).toFixed(2)));
};

function dataUnits(bytes: readonly number[], at: number, id: string): Figure {
  const units = little(bytes, at, 16);
  const { note } = count(id, units * DATA_UNIT);
  return units === allOnes(128)
    ? { value: units * DATA_UNIT, note: 'at-maximum' }
    : { value: units * DATA_UNIT, ...(note && { note }) };
}

/** Those bytes are reserved in every revision read, so a page of another kind does not have them empty. */
export const looksNvme = (bytes: readonly number[]): boolean =>
  bytes.length === 512 && [...bytes.slice(7, 32), ...bytes.slice(256)].every(byte => byte === 0);

export function nvme(bytes: readonly number[]): Reading {
  const warnings = bytes[0]!;
  const figures = new Map<string, Figure>([
    ['temperature', degrees(bytes, 1)],
    ['spare-left', count('spare-left', BigInt(bytes[3]!))],
    ['spare-limit', count('spare-limit', BigInt(bytes[4]!))],
    ['life-used', { value: BigInt(bytes[5]!), ...(bytes[5] === 255 && { note: 'at-maximum' as const }) }],
    ['bytes-read', dataUnits(bytes, 32, 'bytes-read')],
    ['bytes-written', dataUnits(bytes, 48, 'bytes-written')],
    ...Object.entries(COUNTERS).map(([id, at]) => [id, count(id, little(bytes, at, 16), 128)] as const),
    ...Object.entries(SMALL_COUNTERS).map(([id, at]) => [id, count(id, little(bytes, at, 4), 32)] as const),
    ...Array.from(
      { length: 8 },
      (_, place) => [`sensor-${place + 1}`, degrees(bytes, 200 + 2 * place)] as const,
    ).filter(([, { value }]) => value !== null),
  ]);
  const unknown = warnings & 0xc0;
  return {
    kind: 'nvme-log',
    drive: null,
    figures,
    declared: WARNINGS.filter((_, bit) => ((warnings >> bit) & 1) === 1),
    remarks: [
      ...(unknown === 0
        ? []
        : [`It sets warning bits (0x${unknown.toString(16)}) that have no published meaning.`]),
      ...(bytes[6] === 0
        ? []
        : [`A group of its blocks warns of itself (endurance group summary 0x${bytes[6]!.toString(16)}).`]),
    ],
    tells: true,
  };
}
