/**
 * Bytes out of text as people paste it: hex digits in any grouping and case, with or without offsets (hexadecimal, decimal or
 * octal), a column of letters at the right, lines left out and marked with `*`, quotation marks of a chat, or line breaks lost.
 * Where a dump has offsets they say how many bytes a line holds, so that letters at the right are never taken for bytes.
 */

interface Line {
  /** Counted from 1, as an editor shows it. */
  number: number;
  text: string;
}

interface Row extends Line {
  offset: string;
  rest: string;
}

export class Unreadable extends Error {}

/** More than any page has; a larger offset is no offset. */
const MOST = 4096;
const SEPARATORS = /[\s,;:|"'`>{}[\]()\u2013\u2014-]+/;
const DIGITS = /^([0-9a-f]+)h?$/i;

/** The groups of digits that a text begins with. */
function groups(text: string): string[] {
  const found: string[] = [];
  for (const piece of text.split(SEPARATORS)) {
    if (piece === '') continue;
    const digits = DIGITS.exec(piece)?.[1];
    if (digits === undefined) break;
    found.push(digits);
  }
  return found;
}

const pairs = (digits: string): number[] =>
  Array.from({ length: digits.length >> 1 }, (_, place) =>
    Number.parseInt(digits.slice(2 * place, 2 * place + 2), 16),
  );

/** Bytes of the groups, one for a group of one or two digits. Stops at a group that is no whole number of bytes. */
function bytesIn(found: readonly string[], swapped = false): number[] {
  const bytes: number[] = [];
  for (const digits of found) {
    if (digits.length <= 2) bytes.push(Number.parseInt(digits, 16));
    else if (digits.length % 2 === 1) break;
    else bytes.push(...(swapped && digits.length === 4 ? pairs(digits).reverse() : pairs(digits)));
  }
  return bytes;
}

const OFFSET = /^[\s>|[(]*([0-9a-f]{1,16})h?(?:[\])]*\s*[:|=]\s*|[\])]*\s+|[\])]*$)(.*)$/i;

/** A line that begins with an offset, followed by bytes or by nothing at all. */
function rowOf({ number, text }: Line): Row | null {
  const found = OFFSET.exec(text.replace(/^\s*(?:offset|address)\s*/i, ''));
  if (found === null) return null;
  const [, offset = '', rest = ''] = found;
  return rest === '' || bytesIn(groups(rest)).length > 0 ? { number, text, offset, rest } : null;
}

const isStar = ({ text }: Line): boolean => /^\s*\*\s*$/.test(text);

/** A whole number in this base, or NaN. */
const inBase = (digits: string, base: number): number =>
  base === 16 || [...digits].every(digit => Number(digit) < base)
    ? Number.parseInt(digits, base)
    : Number.NaN;

interface Layout {
  start: number;
  base: number;
  width: number;
}

/** What the offsets may mean, the longest lines first. None where the lines do not begin with offsets. */
function layouts(lines: readonly Line[]): Layout[] {
  const rows = lines.map(rowOf);
  return rows
    .flatMap((row, start) => {
      if (row === null || !/^0+$/.test(row.offset)) return [];
      const room = bytesIn(groups(row.rest)).length;
      const after = lines.slice(start + 1);
      const next = after.findIndex((_, place) => rows[start + 1 + place] !== null);
      if (next === -1) {
        const alone = /^[\s>|[(]*0+[\])]*\s*:/.test(row.text) && room > 0;
        return alone ? [{ start, base: 16, width: room }] : [];
      }
      if (after.slice(0, next).some(isStar)) {
        const width = [64, 32, 16, 8, 4].find(each => each <= room);
        return width === undefined ? [] : [{ start, base: 16, width }];
      }
      return [16, 10, 8].flatMap(base => {
        const width = inBase(rows[start + 1 + next]!.offset, base);
        return width >= 1 && width <= room ? [{ start, base, width }] : [];
      });
    })
    .toSorted((a, b) => b.width - a.width);
}

/** All dumps in the lines, one after another: a new one begins where the offset goes back to nothing. */
function dumped(lines: readonly Line[], { start, base, width }: Layout): number[] {
  const before: number[] = [];
  let bytes: number[] = [];
  let line: number[] = [];
  let star = false;
  const rows = lines.slice(start);
  const first = rowOf(rows[0]!)!;
  const swapped = isSwapped(first);
  const long = first.offset.length;
  rows.forEach((each, place) => {
    if (isStar(each)) {
      star = true;
      return;
    }
    const row = rowOf(each);
    // Long offsets all have the same length; a line of prose can begin with a word such as "add".
    const alike = row !== null && (long < 4 || row.offset.length === long);
    if (row === null || !alike) return;
    const offset = inBase(row.offset, base);
    if (Number.isNaN(offset)) throw new Unreadable(`line ${each.number} has the offset ${row.offset}`);
    if (row.rest === '' && offset === 0) return;
    if (offset === 0 && bytes.length > 0 && !star) {
      before.push(...bytes);
      bytes = [];
    }
    if (offset > MOST)
      throw new Unreadable(`line ${each.number} has the offset ${row.offset}, far too large`);
    if (star && line.length > 0) while (bytes.length < offset) bytes.push(line[bytes.length % width]!);
    star = false;
    if (offset !== bytes.length)
      throw new Unreadable(
        offset > bytes.length
          ? `before line ${each.number} (offset ${row.offset}) ${offset - bytes.length} bytes are missing`
          : `line ${each.number} goes back to offset ${row.offset}`,
      );
    if (row.rest === '') return;
    line = bytesIn(groups(row.rest), swapped).slice(0, width);
    const last = !rows.slice(place + 1).some(other => (rowOf(other)?.rest ?? '') !== '');
    if (line.length < width && !last)
      throw new Unreadable(`line ${each.number} has ${line.length} bytes that can be read, of ${width}`);
    bytes.push(...line);
  });
  if (star) throw new Unreadable('it ends in *, so its last line is missing');
  return [...before, ...bytes];
}

/** Dumps of 16-bit words have offsets of seven digits without a colon, and show each word's greater byte first. */
const isSwapped = ({ offset, text, rest }: Row): boolean =>
  offset.length === 7 && !text.includes(':') && groups(rest)[0]?.length === 4;

/** What lines without offsets may mean, the likeliest first. */
function plain(lines: readonly Line[]): number[][] {
  const found = lines.map(({ text }) => groups(text)).filter(each => each.length > 0);
  const all = found.flat();
  const joined = all.join('');
  const whole = joined.length % 2 === 0 ? [pairs(joined)] : [];
  const single = all.every(({ length }) => length <= 2) ? [bytesIn(all)] : [];
  // A column of letters at the right can look like more digits: then most lines hold as many bytes as the shorter ones.
  const usual = usualSize(found);
  const cut = found.flatMap(each => bytesIn(each).slice(0, usual));
  return [...single, ...whole, cut];
}

/** How many bytes most lines hold. */
function usualSize(found: readonly (readonly string[])[]): number {
  const often = new Map<number, number>();
  for (const each of found) {
    const size = bytesIn(each).length;
    often.set(size, (often.get(size) ?? 0) + 1);
  }
  return [...often].toSorted(([a, timesA], [b, timesB]) => timesB - timesA || a - b)[0]?.[0] ?? 0;
}

/** The first line that holds less than most others, the last one aside: there something is wrong. */
function shortLine(lines: readonly Line[]): string {
  const usual = usualSize(lines.map(({ text }) => groups(text)).filter(each => each.length > 0));
  const at = lines.slice(1, -1).find(({ text }) => bytesIn(groups(text)).length < usual && lines.length > 3);
  return at === undefined ? '' : `, and line ${at.number} has fewer than the others`;
}

function linesOf(text: string): Line[] {
  const flat = text
    .replace(/\\x|\b0x/gi, ' ')
    .replace(/&gt;/g, '>')
    .replace(/[ \t]+(?=[0-9a-f]{4,16}:[ \t])/gi, text.trim().includes('\n') ? ' ' : '\n')
    .replace(/\|[ \t]+(?=[0-9a-f]{7,8}(?:[ \t]|$))/gi, '|\n');
  return flat
    .split(/\r\n|\r|\n/)
    .map((line, place) => ({ number: place + 1, text: line }))
    .filter(({ text: line }) => !/^\s*(?:`{3}.*)?$/.test(line));
}

/**
 * The bytes of a paste. `fits` says which of several meanings is wanted, `expected` how that is told to people.
 * Throws an `Unreadable` that says what is wrong, where, and what is expected.
 */
export function bytesOf(
  text: string,
  fits: (bytes: readonly number[]) => boolean,
  expected: string,
): number[] {
  const lines = linesOf(text);
  let why: string | null = null;
  for (const layout of layouts(lines)) {
    try {
      const bytes = dumped(lines, layout);
      if (fits(bytes)) return bytes;
      why ??= `there are ${bytesThere(bytes.length)}`;
    } catch (error) {
      if (!(error instanceof Unreadable)) throw error;
      why ??= error.message;
    }
  }
  const meant = plain(lines).find(fits);
  if (meant !== undefined) return meant;
  throw new Unreadable(`${why ?? troubleOf(lines)}; expected ${expected}`);
}

const bytesThere = (length: number): string => (length === 1 ? '1 byte' : `${length} bytes`);

function troubleOf(lines: readonly Line[]): string {
  const digits = lines.flatMap(line => groups(line.text)).join('').length;
  if (digits === 0) return 'there is no hex in it';
  const [likeliest, another] = plain(lines);
  if (another === undefined && digits % 2 === 1)
    return `${digits} hex digits make no whole bytes${shortLine(lines)}`;
  return `there are ${bytesThere(likeliest!.length)}${shortLine(lines)}`;
}
