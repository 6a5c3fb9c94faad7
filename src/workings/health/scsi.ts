/**
 * SCSI log pages, greatest byte first: a header of four bytes, then parameters, each with code, control byte, length and value.
 * Layout and meanings: SPC-4, 7.3.8 (2Fh), 7.3.11 (06h), 7.3.14, 7.3.22 and 7.3.23 (03h, 05h, 02h), 7.3.21 (0Dh); share of
 * endurance used (11h): scsi_all.h of FreeBSD; meaning of 5Dh: T10's list of sense codes.
 */
import { big, count, type Figure, type Reading, type Reason, reason } from './reading.ts';

const PAGES = [0x02, 0x03, 0x05, 0x06, 0x0d, 0x11, 0x2f] as const;
const COUNTED: Record<number, string> = { 2: 'write', 3: 'read', 5: 'check' };
/** Of a temperature: there is no valid one. */
const NO_READING = 0xff;

/** How long a page says it is, null where it is none of those read here. */
export function scsiLength(bytes: readonly number[]): number | null {
  const code = (bytes[0] ?? 0) & 0x3f;
  const plain = ((bytes[0] ?? 0) & 0x40) === 0 && bytes[1] === 0;
  return bytes.length >= 4 && plain && (PAGES as readonly number[]).includes(code)
    ? 4 + bytes[2]! * 256 + bytes[3]!
    : null;
}

interface Parameter {
  code: number;
  value: readonly number[];
}

/** The parameters, or null where the last one is cut off. */
function parametersOf(bytes: readonly number[]): Parameter[] | null {
  const found: Parameter[] = [];
  for (let at = 4; at < bytes.length; ) {
    const length = bytes[at + 3];
    if (length === undefined || at + 4 + length > bytes.length) return null;
    found.push({ code: bytes[at]! * 256 + bytes[at + 1]!, value: bytes.slice(at + 4, at + 4 + length) });
    at += 4 + length;
  }
  return found;
}

const degrees = (value: number | undefined): Figure =>
  value === undefined || value === NO_READING ? { value: null, note: 'no-sensor' } : { value };

function predicted([code = 0, qualifier = 0]: readonly number[]): Reason[] {
  if (code === 0) return [];
  const sense = `${hex(code)} ${hex(qualifier)}`;
  if (code === 0x5d)
    return qualifier === 0xff
      ? [reason('watch', 'reading', null, 'It foretells its failure as a drill: sense code 5D FF is a test.')]
      : [reason('past-its-limit', 'drive', null, `It foretells its own failure (sense code ${sense}).`)];
  // 0Bh 01h: specified temperature exceeded.
  if (code === 0x0b && qualifier === 1)
    return [reason('act-soon', 'heat', 'temperature', 'It says that it is too hot (sense code 0B 01).')];
  return [reason('act-soon', 'drive', null, `It reports an exception about itself (sense code ${sense}).`)];
}

const hex = (byte: number): string => byte.toString(16).toUpperCase().padStart(2, '0');

function figureOf(page: number, { code, value }: Parameter): [string, Figure][] {
  if (value.length === 0) return [];
  const bits = 8 * value.length;
  const kind = COUNTED[page];
  if (kind !== undefined) {
    if (code === 3) return [[`mended-${kind}-errors`, count('', big(value), bits)]];
    if (code === 6) return [[`unmended-${kind}-errors`, count('', big(value), bits)]];
    return [];
  }
  if (page === 0x06 && code === 0) return [['other-errors', count('', big(value), bits)]];
  if (page === 0x0d && code === 0) return [['temperature', degrees(value[1])]];
  if (page === 0x0d && code === 1) return [['temperature-limit', degrees(value[1])]];
  if (page === 0x11 && code === 1 && value.length === 4) return [['life-used', { value: BigInt(value[3]!) }]];
  if (page === 0x2f && code === 0) return [['temperature', degrees(value[2])]];
  return [];
}

/** Null where the page does not hold together. */
export function scsi(bytes: readonly number[]): Reading | null {
  const page = bytes[0]! & 0x3f;
  const parameters = parametersOf(bytes);
  if (parameters === null) return null;
  const figures = new Map(parameters.flatMap(each => figureOf(page, each)));
  const exceptions = page === 0x2f ? parameters.filter(({ code }) => code === 0) : [];
  return {
    kind: 'scsi-log',
    drive: null,
    figures,
    declared: exceptions.flatMap(({ value }) => predicted(value)),
    remarks: ['This is one log page of several; the others may say more.'],
    tells:
      exceptions.length > 0 ||
      [...figures].some(([id, { value }]) => !id.startsWith('temperature') && value !== null),
  };
}
