/** Text that came as a file, and a drive's page that came as its bare bytes, as text. */

/** Bytes: a log of a few hours has less. */
export const LARGEST_TEXT = 1024 * 1024;
/** A drive's health page as the drive hands it over: NVMe and ATA alike. */
const PAGE = 512;
/** What no text has in it. */
const CONTROL = /[^\P{Cc}\t\n\f\r]/u;
/** A terminal's colours, as programs that think they write to one leave them in a file. */
const COLOURS = new RegExp(`${String.fromCharCode(0x1b)}\\[[0-9;]{0,40}m`, 'g');
/** What old programs put at a file's end. */
const ENDS = [0, 0x1a];
/** A page of the web is nobody's reading: mostly it is the sign-in page of whoever keeps the file. */
const WEB_PAGE = /^\s*(?:<!doctype html|<html)\b/i;

/** Null: neither. A page comes out in hex, sixteen bytes a line. */
export function textOf(bytes: Uint8Array): string | null {
  const text = decoded(bytes);
  if (text !== null) return WEB_PAGE.test(text) ? null : text;
  if (!isPage(bytes)) return null;
  const hex = Array.from(bytes, byte => byte.toString(16).padStart(2, '0'));
  return hex.map((byte, at) => byte + ((at + 1) % 16 === 0 ? '\n' : ' ')).join('');
}

function decoded(bytes: Uint8Array): string | null {
  for (const encoding of encodingsOf(bytes)) {
    try {
      const text = new TextDecoder(encoding, { fatal: true })
        .decode(withoutEnd(bytes, encoding))
        .replace(COLOURS, '');
      if (text.trim() !== '' && !CONTROL.test(text)) return text;
    } catch {
      // Another encoding, or none.
    }
  }
  return null;
}

function withoutEnd(bytes: Uint8Array, encoding: string): Uint8Array {
  if (encoding.startsWith('utf-16')) return bytes;
  return bytes.subarray(0, bytes.findLastIndex(byte => !ENDS.includes(byte)) + 1);
}

/** What Windows' own shell writes into a file is UTF-16, and says so with its first two bytes; older programs write its code page. */
function encodingsOf([first, second]: Uint8Array): string[] {
  if (first === 0xff && second === 0xfe) return ['utf-16le'];
  return first === 0xfe && second === 0xff ? ['utf-16be'] : ['utf-8', 'windows-1252'];
}

/**
 * Bytes that are no page of a drive may be anything, a key among it. The sum of an ATA page is 0 (ATA/ATAPI Command Set, SMART
 * data structure); an NVMe log begins with a warning byte, a temperature in kelvin and shares of at most 100 percent (NVM Express).
 */
function isPage(bytes: Uint8Array): boolean {
  if (bytes.length !== PAGE) return false;
  const sum = bytes.reduce((total, byte) => (total + byte) & 255, 0);
  const kelvin = bytes[1]! + 256 * bytes[2]!;
  const nvme =
    bytes[0]! < 64 &&
    (kelvin === 0 || (kelvin > 200 && kelvin < 450)) &&
    bytes[3]! <= 100 &&
    bytes[4]! <= 100;
  return nvme || (sum === 0 && bytes.some(byte => byte !== 0));
}
