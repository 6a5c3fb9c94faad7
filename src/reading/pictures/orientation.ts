/** The one thing in a picture's metadata that must stay: which way up it is. Everything else there is left behind. */
import { ascii } from './kind.ts';

const ORIENTATION = 0x0112;
const SHORT = 3;

/** Which way up, 1 to 8, from a TIFF block as EXIF 2.3 lays it out; 1 when it does not say. */
export function orientationOf(tiff: Uint8Array): number {
  const view = new DataView(tiff.buffer, tiff.byteOffset, tiff.byteLength);
  if (tiff.length < 8) return 1;
  const order = ascii(tiff, 0, 2);
  if (order !== 'II' && order !== 'MM') return 1;
  const little = order === 'II';
  const directory = view.getUint32(4, little);
  if (directory + 2 > tiff.length) return 1;
  const count = view.getUint16(directory, little);
  for (let index = 0; index < count; index++) {
    const at = directory + 2 + index * 12;
    if (at + 12 > tiff.length) return 1;
    if (view.getUint16(at, little) !== ORIENTATION || view.getUint16(at + 2, little) !== SHORT) continue;
    const value = view.getUint16(at + 8, little);
    return value >= 1 && value <= 8 ? value : 1;
  }
  return 1;
}

/** A TIFF block that says which way up and nothing else. */
export function onlyOrientation(value: number): Uint8Array {
  const tiff = new Uint8Array(26);
  const view = new DataView(tiff.buffer);
  tiff.set([0x4d, 0x4d, 0x00, 0x2a]);
  view.setUint32(4, 8);
  view.setUint16(8, 1);
  view.setUint16(10, ORIENTATION);
  view.setUint16(12, SHORT);
  view.setUint32(14, 1);
  view.setUint16(18, value);
  return tiff;
}
