/** A JPEG file without its metadata (ISO/IEC 10918-1, annex B): the coded picture itself is copied byte for byte. */
import { BadPicture, joined, type Stripped } from './bytes.ts';
import { ascii } from './kind.ts';
import { onlyOrientation, orientationOf } from './orientation.ts';

const SOS = 0xda;
const EOI = 0xd9;
const COM = 0xfe;
const EXIF = 'Exif\0\0';

export function stripJpeg(bytes: Uint8Array): Stripped {
  const kept: Uint8Array[] = [bytes.subarray(0, 2)];
  let width = 0;
  let height = 0;
  let orientation = 1;
  let at = 2;
  for (;;) {
    // Fill bytes may stand before a marker.
    while (bytes[at] === 0xff && bytes[at + 1] === 0xff) at += 1;
    if (bytes[at] !== 0xff) throw new BadPicture('a marker is missing');
    const marker = bytes[at + 1];
    if (marker === undefined) throw new BadPicture('it ends too soon');
    if (marker === EOI) {
      if (width === 0) throw new BadPicture('there is no picture in it');
      // Whatever stands behind the end (a second picture, a film clip) has metadata of its own and goes.
      kept.push(bytes.subarray(at, at + 2));
      break;
    }
    const length = ((bytes[at + 2] ?? 0) << 8) | (bytes[at + 3] ?? 0);
    const end = at + 2 + length;
    if (length < 2 || end > bytes.length) throw new BadPicture('it ends too soon');
    const segment = bytes.subarray(at, end);
    if (marker >= 0xc0 && marker <= 0xcf && ![0xc4, 0xc8, 0xcc].includes(marker)) {
      height = ((segment[5] ?? 0) << 8) | (segment[6] ?? 0);
      width = ((segment[7] ?? 0) << 8) | (segment[8] ?? 0);
    }
    if (marker === 0xe1 && ascii(segment, 4, 6) === EXIF) orientation = orientationOf(segment.subarray(10));
    if (keeps(marker, segment)) kept.push(segment);
    at = end;
    if (marker === SOS) {
      const scanEnd = endOfScan(bytes, at);
      kept.push(bytes.subarray(at, scanEnd));
      at = scanEnd;
    }
  }
  if (orientation !== 1) kept.splice(1, 0, exifSegment(orientation));
  return { content: joined(kept), width, height };
}

/** Which way up it is, 1 to 8, as EXIF counts; 1 when it does not say. */
export function turnOfJpeg(bytes: Uint8Array): number {
  for (let at = 2; bytes[at] === 0xff && bytes[at + 1] !== SOS; ) {
    const length = ((bytes[at + 2] ?? 0) << 8) | (bytes[at + 3] ?? 0);
    if (bytes[at + 1] === 0xe1 && ascii(bytes, at + 4, 6) === EXIF)
      return orientationOf(bytes.subarray(at + 10, at + 2 + length));
    at += 2 + length;
  }
  return 1;
}

/** Application segments say how to show the colours (JFIF, ICC profile, Adobe), or they are metadata. */
function keeps(marker: number, segment: Uint8Array): boolean {
  if (marker === COM) return false;
  if (marker < 0xe0 || marker > 0xef) return true;
  if (marker === 0xe0) return ascii(segment, 4, 5) === 'JFIF\0';
  if (marker === 0xe2) return ascii(segment, 4, 12) === 'ICC_PROFILE\0';
  return marker === 0xee && ascii(segment, 4, 5) === 'Adobe';
}

/** Coded data runs until a marker that is neither a stuffed zero nor a restart. */
function endOfScan(bytes: Uint8Array, from: number): number {
  for (let at = bytes.indexOf(0xff, from); at !== -1; at = bytes.indexOf(0xff, at + 1)) {
    const next = bytes[at + 1];
    if (next === undefined) break;
    if (next !== 0x00 && next !== 0xff && !(next >= 0xd0 && next <= 0xd7)) return at;
  }
  throw new BadPicture('it ends too soon');
}

function exifSegment(orientation: number): Uint8Array {
  const tiff = onlyOrientation(orientation);
  const head = Uint8Array.from([0xff, 0xe1, 0, 8 + tiff.length]);
  return joined([head, new TextEncoder().encode(EXIF), tiff]);
}
