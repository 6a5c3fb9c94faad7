/** What a file is, told from its first bytes and never from its name. */

export type PictureKind = 'image/png' | 'image/jpeg' | 'image/webp';

/** `heic` also stands for its relatives in the same container. */
export type Told = PictureKind | 'heic' | 'other' | 'empty';

const PNG = [0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a];
const HEIC_BRANDS = ['heic', 'heix', 'heim', 'heis', 'hevc', 'hevx', 'mif1', 'msf1', 'avif', 'avis'];

export function kindOf(bytes: Uint8Array): Told {
  if (bytes.length === 0) return 'empty';
  if (PNG.every((byte, at) => bytes[at] === byte)) return 'image/png';
  if (bytes[0] === 0xff && bytes[1] === 0xd8 && bytes[2] === 0xff) return 'image/jpeg';
  if (ascii(bytes, 0, 4) === 'RIFF' && ascii(bytes, 8, 4) === 'WEBP') return 'image/webp';
  if (ascii(bytes, 4, 4) === 'ftyp' && HEIC_BRANDS.includes(ascii(bytes, 8, 4))) return 'heic';
  return 'other';
}

export const ascii = (bytes: Uint8Array, at: number, length: number): string =>
  String.fromCharCode(...bytes.subarray(at, at + length));
