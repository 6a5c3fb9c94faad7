/**
 * The storage reliability counters of Windows, as `Get-PhysicalDisk | Get-StorageReliabilityCounter | ConvertTo-Json` prints
 * them. Fields, sizes and meanings: Microsoft, MSFT_StorageReliabilityCounter. Null, empty or missing: not reported.
 */
import { z } from 'zod';
import { Impossible } from '../working.ts';
import { celsius, count, type Figure, type Reading } from './reading.ts';

interface Field {
  id: string;
  bits: number;
  means: string;
  /** Zero stands for "not known": no drive runs at 0 °C, and none is made for no head parking. Common practice, no source. */
  zeroIsNone?: true;
}

const FIELDS: Record<string, Field> = {
  Wear: { id: 'life-used', bits: 8, means: 'rated life used, in percent' },
  Temperature: { id: 'temperature', bits: 8, means: 'degrees Celsius', zeroIsNone: true },
  TemperatureMax: { id: 'temperature-limit', bits: 8, means: 'degrees Celsius', zeroIsNone: true },
  PowerOnHours: { id: 'hours-on', bits: 16, means: 'hours switched on' },
  ReadErrorsTotal: { id: 'all-read-errors', bits: 64, means: 'read errors' },
  ReadErrorsCorrected: { id: 'mended-read-errors', bits: 64, means: 'read errors mended' },
  ReadErrorsUncorrected: { id: 'unmended-read-errors', bits: 64, means: 'read errors not mended' },
  WriteErrorsTotal: { id: 'all-write-errors', bits: 64, means: 'write errors' },
  WriteErrorsCorrected: { id: 'mended-write-errors', bits: 64, means: 'write errors mended' },
  WriteErrorsUncorrected: { id: 'unmended-write-errors', bits: 64, means: 'write errors not mended' },
  StartStopCycleCount: { id: 'start-stops', bits: 32, means: 'spindle starts and stops' },
  StartStopCycleCountMax: {
    id: 'start-stops-limit',
    bits: 32,
    means: 'starts and stops it is made for',
    zeroIsNone: true,
  },
  LoadUnloadCycleCount: { id: 'head-parkings', bits: 32, means: 'head parkings' },
  LoadUnloadCycleCountMax: {
    id: 'head-parkings-limit',
    bits: 32,
    means: 'head parkings it is made for',
    zeroIsNone: true,
  },
  ReadLatencyMax: { id: 'slowest-read', bits: 64, means: 'milliseconds' },
  WriteLatencyMax: { id: 'slowest-write', bits: 64, means: 'milliseconds' },
  FlushLatencyMax: { id: 'slowest-flush', bits: 64, means: 'milliseconds' },
};
const TELLING = /errors$|^life-used$/;
const KNOWN = new Map(
  [...Object.keys(FIELDS), 'DeviceId', 'ManufactureDate', 'UniqueId', 'ObjectId'].map(name => [
    name.toLowerCase(),
    name,
  ]),
);

const shape = (field: Field) =>
  z
    .unknown()
    .optional()
    .meta({
      type: 'integer',
      minimum: 0,
      maximum: field.bits === 64 ? Number.MAX_SAFE_INTEGER : 2 ** field.bits - 1,
      description: `${field.means}; null where it is not reported; above 9007199254740991 in quotes`,
    });

/** Values are read in `windows`, which names the field when one cannot be. */
export const windowsCounters = z.looseObject(
  Object.fromEntries(Object.entries(FIELDS).map(([name, field]) => [name, shape(field)])),
);

const isObject = (value: unknown): value is Record<string, unknown> =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

/** Counters of one drive or several, bare or wrapped as older shells do; null for anything else. */
export function countersIn(value: unknown): Record<string, unknown>[] | null {
  if (Array.isArray(value)) return value.every(isObject) ? value : null;
  if (!isObject(value)) return null;
  if (Array.isArray(value.value) && value.value.length > 0 && value.value.every(isObject)) return value.value;
  return isKnown(value) || Object.keys(value).length === 0 ? [value] : null;
}

const isKnown = (drive: object): boolean => Object.keys(drive).some(name => KNOWN.has(name.toLowerCase()));

/** Counters themselves, where an input is expected that has them in a field. */
export const isCounters = (value: unknown): boolean => {
  const found = countersIn(value) ?? [];
  return found.length > 0 && found.every(isKnown);
};

/** `Name : value` lines, as the shell prints them when nothing turns them into JSON. */
export function countersInLines(text: string): Record<string, unknown>[] | null {
  const drives: Record<string, unknown>[] = [];
  for (const line of text.split(/\r\n|\r|\n/)) {
    const [, given = '', value = ''] = /^\s*([A-Za-z]+)\s*:\s*(.*?)\s*$/.exec(line) ?? [];
    const name = KNOWN.get(given.toLowerCase());
    if (name === undefined) continue;
    if (drives.length === 0 || name in drives.at(-1)!) drives.push({});
    drives.at(-1)![name] = value === '' ? null : value;
  }
  return drives.length > 0 ? drives : null;
}

/** Numbers too long for JSON's are put in quotes first, so that none of their digits is lost. */
export const parseExactly = (text: string): unknown =>
  JSON.parse(text.replace(/(:\s*)(\d{16,})(?=\s*[,}\]])/g, '$1"$2"'));

const DEGREES = /^Temperature/;

/** A whole number from JSON or text; null where it is not reported. */
function numberIn(value: unknown, name: string, where: string): bigint | null {
  const refuse = (why: string): never => {
    throw new Impossible(
      `${where}.${name}`,
      `${why}; give a whole number from 0, or null where it is not reported`,
    );
  };
  if (value === null || value === undefined || value === '') return null;
  if (typeof value === 'string' && /^-?\d{1,40}$/.test(value.trim())) {
    const whole = BigInt(value.trim());
    return whole < 0n && !DEGREES.test(name) ? refuse(`${whole} is below zero`) : whole;
  }
  if (typeof value !== 'number' || !Number.isFinite(value)) return refuse('that is no number');
  if (!Number.isInteger(value)) return refuse('that is no whole number');
  if (value < 0 && !DEGREES.test(name)) return refuse(`${value} is below zero`);
  // What a full field of 64 bits becomes in a reader that keeps 53 of them.
  if (value === 2 ** 64) return (1n << 64n) - 1n;
  if (!Number.isSafeInteger(value)) return refuse('figures above 9007199254740991 are wanted in quotes');
  return BigInt(value);
}

function figureOf({ id, bits, zeroIsNone }: Field, value: bigint | null): Figure {
  if (value === 0n && zeroIsNone) return { value: null };
  if (id.startsWith('temperature')) {
    if (value === 255n) return { value: null, note: 'no-sensor' };
    return celsius(value === null ? null : Number(value));
  }
  return count(id, value, bits);
}

/** `where`: how the field is called in messages. */
export function windows(given: Record<string, unknown>, where: string): Reading {
  const byName = new Map<string, unknown>();
  for (const [key, value] of Object.entries(given)) {
    const name = KNOWN.get(key.toLowerCase());
    if (name !== undefined) byName.set(name, value);
  }
  if (byName.size === 0 && Object.keys(given).length > 0)
    throw new Impossible(
      where,
      'none of the fields is there that Windows reports, such as Wear or ReadErrorsTotal',
    );
  const figures = new Map(
    Object.entries(FIELDS).map(([name, field]) => [
      field.id,
      figureOf(field, numberIn(byName.get(name), name, where)),
    ]),
  );
  const device = String(byName.get('DeviceId') ?? '');
  return {
    kind: 'windows-counters',
    drive: /^\d{1,9}$/.test(device) ? device : null,
    figures,
    declared: [],
    remarks: [],
    tells: [...figures].some(([id, { value }]) => TELLING.test(id) && value !== null),
  };
}
