/** From what was given to readings: which kind it is, whether it holds together, and what is wrong where it does not. */
import { Impossible } from '../working.ts';
import { ata, looksAta, looksLikeLimits, type Status, sumsUp } from './ata.ts';
import { bytesOf, Unreadable } from './hex.ts';
import { looksNvme, nvme } from './nvme.ts';
import { blank, isUniform, type Kind, type Reading } from './reading.ts';
import { scsi, scsiLength } from './scsi.ts';
import { countersIn, countersInLines, parseExactly, windows } from './windows.ts';

export interface Given {
  page?: string | undefined;
  thresholds?: string | undefined;
  status?: Status | undefined;
  counters?: unknown;
}

const PAGE = 512;
const EXPECTED =
  '512 bytes in hex (NVMe or ATA; with the page of limits after it 1024), or a whole SCSI log page';
const SILENT =
  'The page holds one byte over and over, so nobody answered: USB adapters and some controllers pass no reading on.';

/** A file of text that came in as the hex of its bytes, because it is not all plain letters. */
function textBehind(text: string): string {
  const digits = text.trim();
  if (!/^(?:fffe|efbbbf|7b|5b)(?:[0-9a-f]{2})+$/i.test(digits)) return text;
  const bytes = Uint8Array.from(digits.match(/../g)!, pair => Number.parseInt(pair, 16));
  return new TextDecoder(/^fffe/i.test(digits) ? 'utf-16le' : 'utf-8').decode(bytes);
}

function parsed(text: string): unknown {
  const inside = textBehind(text)
    .replace(/^\ufeff/, '')
    .trim();
  if (!/^[[{]/.test(inside)) return undefined;
  try {
    return parseExactly(inside);
  } catch {
    return undefined;
  }
}

const isBytes = (value: unknown): value is number[] =>
  Array.isArray(value) &&
  value.length > 0 &&
  value.every(byte => Number.isInteger(byte) && byte >= 0 && byte <= 255);

/** Counters wherever they were put: JSON as it is, or as text, or the lines a shell prints. */
export function asCounters(given: unknown): Record<string, unknown>[] | null {
  if (typeof given !== 'string') return countersIn(given);
  return countersIn(parsed(given)) ?? countersInLines(textBehind(given));
}

function bytesIn(
  text: string,
  field: string,
  fits: (bytes: readonly number[]) => boolean,
  expected: string,
): number[] {
  const listed = parsed(text);
  if (isBytes(listed)) {
    if (fits(listed)) return listed;
    throw new Impossible(field, `there are ${listed.length} bytes; expected ${expected}`);
  }
  try {
    return bytesOf(text, fits, expected);
  } catch (error) {
    if (error instanceof Unreadable) throw new Impossible(field, error.message);
    throw error;
  }
}

const isScsi = (bytes: readonly number[], kind: Kind | undefined): boolean => {
  const length = scsiLength(bytes);
  return length !== null && (kind === 'scsi-log' ? bytes.length >= length : bytes.length === length);
};

/** By its layout alone; null where it could be many things. */
function layoutOf(bytes: readonly number[]): 'nvme-log' | 'ata-smart' | null {
  if (looksNvme(bytes)) return 'nvme-log';
  return looksAta(bytes) && sumsUp(bytes) ? 'ata-smart' : null;
}

function kindOf(bytes: readonly number[], kind: Kind | undefined, field: string): 'nvme-log' | 'ata-smart' {
  const layout = layoutOf(bytes);
  if (kind === undefined) {
    if (layout !== null) return layout;
    if (looksAta(bytes)) return 'ata-smart';
    throw new Impossible(
      field,
      'this looks like neither an NVMe health log nor ATA SMART data; give kind if it is one of them',
    );
  }
  if (kind !== 'nvme-log' && kind !== 'ata-smart')
    throw new Impossible('kind', `${field} holds 512 bytes of hex; leave kind out`);
  if (layout !== null && layout !== kind)
    throw new Impossible('kind', `by its layout ${field} is ${layout}; leave kind out`);
  return kind;
}

function checkAta(bytes: readonly number[], field: string): void {
  if (!sumsUp(bytes))
    throw new Impossible(
      field,
      `the checksum is wrong: all 512 bytes should add up to a multiple of 256, and ${bytes.reduce((sum, byte) => sum + byte, 0) % 256} is left over. A byte was lost or changed on the way; paste it again`,
    );
  // Every revision so far fits in the lower byte; a sum does not notice bytes that changed places.
  if (bytes[1] !== 0)
    throw new Impossible(field, 'the bytes seem to be swapped in pairs; paste it byte by byte');
}

function limitsIn(text: string, field: string): number[] {
  const bytes = bytesIn(text, field, ({ length }) => length === PAGE, '512 bytes in hex, the page of limits');
  checkAta(bytes, field);
  if (!isUniform(bytes) && !looksLikeLimits(bytes))
    throw new Impossible(field, 'this is no page of limits: after each limit ten empty bytes are expected');
  return bytes;
}

function pageReading(given: Given & { page: string }, kind: Kind | undefined, prefix: string): Reading {
  const field = `${prefix}page`;
  const all = bytesIn(
    given.page,
    field,
    bytes => (kind !== 'scsi-log' && [PAGE, 2 * PAGE].includes(bytes.length)) || isScsi(bytes, kind),
    EXPECTED,
  );
  if (kind === undefined ? isScsi(all, kind) : kind === 'scsi-log') {
    without(given, ['thresholds', 'status'], 'a SCSI log page', prefix);
    const reading = scsi(all.slice(0, scsiLength(all)!));
    if (reading === null) throw new Impossible(field, 'the last parameter of this SCSI log page is cut off');
    return reading;
  }
  const bytes = all.slice(0, PAGE);
  const limitBytes = all.length > PAGE ? all.slice(PAGE) : undefined;
  if (isUniform(bytes)) return blank(kind ?? null, SILENT);
  const meant = kindOf(bytes, kind, field);
  if (meant === 'nvme-log') {
    without(given, ['thresholds', 'status'], 'an NVMe health log', prefix);
    if (limitBytes !== undefined)
      throw new Impossible(field, 'there are 1024 bytes; an NVMe health log has 512');
    return nvme(bytes);
  }
  checkAta(bytes, field);
  if (!looksAta(bytes))
    throw new Impossible(field, 'this is no ATA SMART data: attributes with different numbers are expected');
  if (looksLikeLimits(bytes))
    throw new Impossible(field, 'this is the page of limits; give it as thresholds, beside the data page');
  if (limitBytes !== undefined && given.thresholds !== undefined)
    throw new Impossible(`${prefix}thresholds`, 'the limits are in page already; give them once');
  const limits =
    given.thresholds === undefined ? limitBytes : limitsIn(given.thresholds, `${prefix}thresholds`);
  if (limitBytes !== undefined) {
    checkAta(limitBytes, field);
    if (!looksLikeLimits(limitBytes))
      throw new Impossible(field, 'the second 512 bytes are no page of limits');
  }
  return ata(bytes, limits === undefined || isUniform(limits) ? undefined : limits, given.status);
}

function without(given: Given, fields: readonly (keyof Given)[], what: string, prefix: string): void {
  const extra = fields.find(field => given[field] !== undefined);
  if (extra !== undefined) throw new Impossible(`${prefix}${extra}`, `${what} has none; leave it out`);
}

/** One reading, or those of several drives where Windows lists several. `prefix` goes before the names of fields. */
export function readingsOf(given: Given, kind: Kind | undefined, prefix: string): Reading[] {
  const inPage = given.page === undefined ? null : asCounters(given.page);
  if (given.page !== undefined && given.counters !== undefined)
    throw new Impossible(
      `${prefix}counters`,
      'give either page or counters, not both: they are of two kinds',
    );
  const counters = inPage ?? (given.counters === undefined ? null : asCounters(given.counters));
  const field = `${prefix}${inPage === null ? 'counters' : 'page'}`;
  if (counters !== null) {
    if (kind !== undefined && kind !== 'windows-counters')
      throw new Impossible('kind', `${kind} is hex, and ${field} holds counters of Windows; leave kind out`);
    without(given, ['thresholds', 'status'], 'what Windows counts', prefix);
    if (counters.length === 0) throw new Impossible(field, 'there is no drive in it');
    return counters.map((each, place) => windows(each, counters.length === 1 ? field : `${field}.${place}`));
  }
  if (given.counters !== undefined)
    throw new Impossible(
      field,
      'give what Get-StorageReliabilityCounter | ConvertTo-Json prints, with fields such as Wear or ReadErrorsTotal',
    );
  if (given.page !== undefined) return [pageReading({ ...given, page: given.page }, kind, prefix)];
  if (given.thresholds !== undefined)
    throw new Impossible(`${prefix}thresholds`, 'limits say nothing alone; give the data page as page');
  if (given.status === undefined)
    throw new Impossible(`${prefix}page`, 'give a page in hex, counters as JSON, or status');
  if (kind !== undefined && kind !== 'ata-smart')
    throw new Impossible('kind', 'status is of an ATA drive; leave kind out');
  return [ata(undefined, undefined, given.status)];
}
