/** Text that came as a file, and a drive's page that came as its bare bytes, as text. */

/** Bytes: a log of a few hours has less. */
export const LARGEST_TEXT = 1024 * 1024;
/** A drive's health page as the drive hands it over: NVMe and ATA alike. */
const PAGE = 512;
/** What no text has in it. */
const CONTROL = /[^\P{Cc}\t\n\f\r]/u;

/** Null: neither. A page comes out in hex, sixteen bytes a line. */
export function textOf(bytes: Uint8Array): string | null {
  const text = decoded(bytes);
  if (text !== null) return text;
  if (bytes.length !== PAGE) return null;
  const hex = Array.from(bytes, byte => byte.toString(16).padStart(2, '0'));
  return hex.map((byte, at) => byte + ((at + 1) % 16 === 0 ? '\n' : ' ')).join('');
}

function decoded(bytes: Uint8Array): string | null {
  try {
    const text = new TextDecoder(encodingOf(bytes), { fatal: true }).decode(bytes);
    return text.trim() === '' || CONTROL.test(text) ? null : text;
  } catch {
    return null;
  }
}

/** What Windows' own shell writes into a file is UTF-16, and says so with its first two bytes. */
function encodingOf([first, second]: Uint8Array): string {
  if (first === 0xff && second === 0xfe) return 'utf-16le';
  return first === 0xfe && second === 0xff ? 'utf-16be' : 'utf-8';
}
