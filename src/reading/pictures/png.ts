/** A PNG file without its metadata (W3C PNG, third edition): critical chunks and those that change how it is shown. */
import { BadPicture, joined, type Stripped } from './bytes.ts';
import { ascii } from './kind.ts';

const HEAD = 8;
/** Ancillary chunks that say how the picture is to be shown; text, time, EXIF and unknown ones go. */
const SHOWN = [
  'tRNS',
  'gAMA',
  'cHRM',
  'sRGB',
  'iCCP',
  'cICP',
  'sBIT',
  'pHYs',
  'bKGD',
  'acTL',
  'fcTL',
  'fdAT',
];
const CRITICAL = ['IHDR', 'PLTE', 'IDAT', 'IEND'];

export function stripPng(bytes: Uint8Array): Stripped {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const kept: Uint8Array[] = [bytes.subarray(0, HEAD)];
  let at = HEAD;
  let data = false;
  for (;;) {
    if (at + 12 > bytes.length) throw new BadPicture('it ends too soon');
    const length = view.getUint32(at);
    const type = ascii(bytes, at + 4, 4);
    const end = at + 12 + length;
    if (end > bytes.length) throw new BadPicture('it ends too soon');
    if (at === HEAD && (type !== 'IHDR' || length !== 13)) throw new BadPicture('its header is missing');
    if (type === 'IDAT') data = true;
    if (CRITICAL.includes(type) || SHOWN.includes(type)) kept.push(bytes.subarray(at, end));
    at = end;
    if (type === 'IEND') break;
  }
  if (!data) throw new BadPicture('there is no picture in it');
  return { content: joined(kept), width: view.getUint32(HEAD + 8), height: view.getUint32(HEAD + 12) };
}
