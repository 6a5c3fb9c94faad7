/** A WebP file without its metadata (RFC 9649): the EXIF and XMP chunks and unknown ones go, the picture's own stay. */
import { BadPicture, joined, type Stripped } from './bytes.ts';
import { ascii } from './kind.ts';
import { onlyOrientation, orientationOf } from './orientation.ts';

const HEAD = 12;
const PICTURE = ['VP8 ', 'VP8L', 'VP8X', 'ALPH', 'ANIM', 'ANMF', 'ICCP'];
const HAS_EXIF = 0x08;
const HAS_XMP = 0x04;

export function stripWebp(bytes: Uint8Array): Stripped {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const end = 8 + view.getUint32(4, true);
  if (end > bytes.length) throw new BadPicture('it ends too soon');
  const kept: Uint8Array[] = [];
  let extended: Uint8Array | undefined;
  let size: Pick<Stripped, 'width' | 'height'> | undefined;
  let orientation = 1;
  for (let at = HEAD; at + 8 <= end; ) {
    const type = ascii(bytes, at, 4);
    const length = view.getUint32(at + 4, true);
    const next = at + 8 + length + (length % 2);
    if (at + 8 + length > end) throw new BadPicture('it ends too soon');
    const body = bytes.subarray(at + 8, at + 8 + length);
    if (type === 'EXIF') orientation = orientationOf(tiffOf(body));
    if (PICTURE.includes(type)) {
      const chunk = Uint8Array.from(bytes.subarray(at, Math.min(next, bytes.length)));
      if (type === 'VP8X') extended = chunk;
      size ??= sizeOf(type, body);
      kept.push(chunk);
    }
    at = next;
  }
  if (size === undefined) throw new BadPicture('there is no picture in it');
  if (extended !== undefined) {
    extended[8] = (extended[8] ?? 0) & ~(HAS_EXIF | HAS_XMP);
    if (orientation !== 1) {
      extended[8] |= HAS_EXIF;
      kept.push(exifChunk(orientation));
    }
  }
  const content = joined([bytes.subarray(0, HEAD), ...kept]);
  new DataView(content.buffer).setUint32(4, content.length - 8, true);
  return { content, ...size };
}

/** Some programs put JPEG's own mark before the block. */
const tiffOf = (body: Uint8Array) => (ascii(body, 0, 4) === 'Exif' ? body.subarray(6) : body);

function sizeOf(type: string, body: Uint8Array): Pick<Stripped, 'width' | 'height'> | undefined {
  const at = (index: number) => body[index] ?? 0;
  if (type === 'VP8X')
    return {
      width: 1 + (at(4) | (at(5) << 8) | (at(6) << 16)),
      height: 1 + (at(7) | (at(8) << 8) | (at(9) << 16)),
    };
  if (type === 'VP8 ') return { width: at(6) | ((at(7) & 0x3f) << 8), height: at(8) | ((at(9) & 0x3f) << 8) };
  if (type === 'VP8L')
    return {
      width: 1 + (at(1) | ((at(2) & 0x3f) << 8)),
      height: 1 + ((at(2) >> 6) | (at(3) << 2) | ((at(4) & 0x0f) << 10)),
    };
  return undefined;
}

function exifChunk(orientation: number): Uint8Array {
  const tiff = onlyOrientation(orientation);
  const head = new Uint8Array(8);
  head.set(new TextEncoder().encode('EXIF'));
  new DataView(head.buffer).setUint32(4, tiff.length, true);
  return joined([head, tiff]);
}
