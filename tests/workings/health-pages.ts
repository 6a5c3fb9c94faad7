/** Pages made a second way, for the tests of health: through a DataView, from the published offsets alone. */
import fc from 'fast-check';

export interface NvmePage {
  warnings: number;
  kelvin: number;
  spare: number;
  spareLimit: number;
  used: number;
  counters: readonly bigint[];
  minutes: readonly number[];
  sensors: readonly number[];
}

/** Offsets of the ten counters of 16 bytes, in the order of the specification. */
const COUNTERS = [32, 48, 64, 80, 96, 112, 128, 144, 160, 176];

export function nvmePage(page: NvmePage): Uint8Array {
  const bytes = new Uint8Array(512);
  const view = new DataView(bytes.buffer);
  view.setUint8(0, page.warnings);
  view.setUint16(1, page.kelvin, true);
  view.setUint8(3, page.spare);
  view.setUint8(4, page.spareLimit);
  view.setUint8(5, page.used);
  page.counters.forEach((value, place) => {
    view.setBigUint64(COUNTERS[place]!, value & 0xffff_ffff_ffff_ffffn, true);
    view.setBigUint64(COUNTERS[place]! + 8, value >> 64n, true);
  });
  page.minutes.forEach((value, place) => {
    view.setUint32(192 + 4 * place, value, true);
  });
  page.sensors.forEach((value, place) => {
    view.setUint16(200 + 2 * place, value, true);
  });
  return bytes;
}

export const QUIET: NvmePage = {
  warnings: 0,
  kelvin: 310,
  spare: 100,
  spareLimit: 10,
  used: 5,
  counters: [1000n, 2000n, 3000n, 4000n, 60n, 400n, 6000n, 9n, 0n, 0n],
  minutes: [0, 0],
  sensors: [311],
};

export const anyNvme: fc.Arbitrary<NvmePage> = fc.record({
  warnings: fc.nat(63),
  kelvin: fc.nat(65_535),
  spare: fc.nat(255),
  spareLimit: fc.nat(255),
  used: fc.nat(255),
  counters: fc.array(
    fc.oneof(
      fc.bigInt(0n, 1000n),
      fc.bigInt(0n, (1n << 128n) - 1n),
      fc.constant(0x6161_6161_3020_3131_3a20_6465_6164_2062n),
    ),
    { minLength: 10, maxLength: 10 },
  ),
  minutes: fc.array(fc.nat(0xffff_ffff), { minLength: 2, maxLength: 2 }),
  sensors: fc.array(fc.nat(65_535), { minLength: 8, maxLength: 8 }),
});

export interface Attribute {
  id: number;
  flags: number;
  now: number;
  worst: number;
  raw: number;
}

/** The last byte makes all 512 add up to a multiple of 256. */
function summedUp(bytes: Uint8Array): Uint8Array {
  let sum = 0;
  for (let place = 0; place < 511; place++) sum += bytes[place]!;
  bytes[511] = (256 - (sum % 256)) % 256;
  return bytes;
}

export function ataPage(attributes: readonly Attribute[], selfTest = 0): Uint8Array {
  const bytes = new Uint8Array(512);
  const view = new DataView(bytes.buffer);
  view.setUint16(0, 16, true);
  attributes.forEach(({ id, flags, now, worst, raw }, place) => {
    const at = 2 + 12 * place;
    view.setUint8(at, id);
    view.setUint16(at + 1, flags, true);
    view.setUint8(at + 3, now);
    view.setUint8(at + 4, worst);
    view.setUint32(at + 5, raw % 2 ** 32, true);
    view.setUint16(at + 9, Math.floor(raw / 2 ** 32), true);
  });
  view.setUint8(363, selfTest << 4);
  view.setUint16(368, 3, true);
  return summedUp(bytes);
}

export function limitsPage(limits: readonly (readonly [number, number])[]): Uint8Array {
  const bytes = new Uint8Array(512);
  bytes[0] = 16;
  limits.forEach(([id, limit], place) => {
    bytes.set([id, limit], 2 + 12 * place);
  });
  return summedUp(bytes);
}

export const plain = (id: number, raw: number): Attribute => ({ id, flags: 0x32, now: 100, worst: 100, raw });

export const anyAta: fc.Arbitrary<Attribute[]> = fc.uniqueArray(
  fc.record({
    id: fc.integer({ min: 1, max: 255 }),
    flags: fc.nat(63),
    now: fc.integer({ min: 1, max: 253 }),
    worst: fc.integer({ min: 1, max: 253 }),
    raw: fc.oneof(
      fc.nat(100),
      fc.nat(2 ** 31),
      fc.maxSafeNat().map(n => n % 2 ** 48),
    ),
  }),
  { minLength: 1, maxLength: 30, selector: ({ id }) => id },
);

export const hex = (bytes: Uint8Array): string => Buffer.from(bytes).toString('hex');

const rowsOf = (bytes: Uint8Array, width: number): Uint8Array[] =>
  Array.from({ length: Math.ceil(bytes.length / width) }, (_, place) =>
    bytes.subarray(place * width, (place + 1) * width),
  );
const letters = (row: Uint8Array): string =>
  [...row].map(byte => (byte >= 0x20 && byte < 0x7f ? String.fromCharCode(byte) : '.')).join('');
const pairs = (row: Uint8Array, separator = ' '): string =>
  [...row].map(byte => byte.toString(16).padStart(2, '0')).join(separator);
const offset = (place: number, digits: number, base = 16): string =>
  place.toString(base).padStart(digits, '0');

/** Rows with equal neighbours left out, as dumps do. */
function starred(bytes: Uint8Array, row: (row: Uint8Array, at: number) => string, end: string): string {
  const lines: string[] = [];
  let before = '';
  rowsOf(bytes, 16).forEach((each, place) => {
    const same = hex(each) === before;
    before = hex(each);
    if (!same) lines.push(row(each, 16 * place));
    else if (lines.at(-1) !== '*') lines.push('*');
  });
  return [...lines, end].join('\n');
}

/** One page as people paste it, by the name of the manner. */
export const LAYOUTS: Record<string, (bytes: Uint8Array) => string> = {
  'one long line': hex,
  'one long line of capitals': bytes => hex(bytes).toUpperCase(),
  'lines broken anywhere': bytes => hex(bytes).replace(/.{77}/g, '$&\n'),
  'bytes with blanks': bytes =>
    rowsOf(bytes, 16)
      .map(row => pairs(row))
      .join('\n'),
  'bytes with blanks in one line': bytes => pairs(bytes),
  'lines of 20 bytes, ended as Windows does': bytes =>
    rowsOf(bytes, 20)
      .map(row => pairs(row))
      .join('\r\n'),
  'colons between': bytes =>
    rowsOf(bytes, 32)
      .map(row => pairs(row, ':'))
      .join('\n'),
  'dashes between': bytes => pairs(bytes, '-').toUpperCase(),
  'a list in a program': bytes =>
    `{\n${rowsOf(bytes, 12)
      .map(row => [...row].map(byte => `0x${byte.toString(16)}`).join(', '))
      .join(',\n')}\n};`,
  'escapes in a text': bytes => `"\\x${pairs(bytes, '\\x')}"`,
  'a list of decimals in JSON': bytes => JSON.stringify([...bytes]),
  'letters at the right, without offsets': bytes =>
    rowsOf(bytes, 16)
      .map(row => `${pairs(row)}  ${letters(row)}`)
      .join('\n'),
  'offset with a colon, words of two bytes, letters': bytes =>
    rowsOf(bytes, 16)
      .map((row, place) => {
        const words = rowsOf(row, 2).map(word => pairs(word, ''));
        return `${offset(16 * place, 8)}: ${words.join(' ')}  ${letters(row)}`;
      })
      .join('\n'),
  'offset, two blocks of eight, letters between bars': bytes =>
    rowsOf(bytes, 16)
      .map(
        (row, place) =>
          `${offset(16 * place, 8)}  ${pairs(row.subarray(0, 8))}  ${pairs(row.subarray(8))}  |${letters(row)}|`,
      )
      .join('\n'),
  'the same, equal lines left out': bytes =>
    starred(
      bytes,
      (row, at) =>
        `${offset(at, 8)}  ${pairs(row.subarray(0, 8))}  ${pairs(row.subarray(8))}  |${letters(row)}|`,
      '00000200',
    ),
  'words of two bytes, greater byte first, equal lines left out': bytes =>
    starred(
      bytes,
      (row, at) =>
        `${offset(at, 7)} ${rowsOf(row, 2)
          .map(([low = 0, high = 0]) => offset(high * 256 + low, 4))
          .join(' ')}`,
      '0000200',
    ),
  'octal offsets, letters between marks, equal lines left out': bytes =>
    starred(bytes, (row, at) => `${offset(at, 7, 8)} ${pairs(row)}  >${letters(row)}<`, '0001000'),
  'decimal offsets': bytes =>
    rowsOf(bytes, 16)
      .map((row, place) => `${offset(16 * place, 4, 10)}  ${pairs(row)}`)
      .join('\n'),
  'a heading of columns, capitals, a prompt before and after': bytes =>
    [
      'PS C:\\> Format-Hex log.bin',
      '',
      '           Path: C:\\log.bin',
      '',
      '           00 01 02 03 04 05 06 07 08 09 0A 0B 0C 0D 0E 0F',
      '',
      ...rowsOf(bytes, 16).map(
        (row, place) => `${offset(16 * place, 8)}   ${pairs(row).toUpperCase()}  ${letters(row)}`,
      ),
      '',
      'PS C:\\>',
    ].join('\r\n'),
  'quoted in a chat': bytes =>
    rowsOf(bytes, 16)
      .map((row, place) => `> ${offset(16 * place, 8)}: ${pairs(row)}  ${letters(row)}`)
      .join('\n'),
  'in a fence': bytes =>
    `\`\`\`\n${rowsOf(bytes, 16)
      .map((row, place) => `0x${offset(16 * place, 4)}: ${pairs(row)}`)
      .join('\n')}\n\`\`\``,
  'line breaks lost': bytes =>
    rowsOf(bytes, 16)
      .map((row, place) => `${offset(16 * place, 8)}: ${pairs(row)}`)
      .join(' '),
};
