/** What a picture must be before it is kept: one of three kinds by its content, not too large, and without its metadata. */
import { BadPicture, type Stripped } from './bytes.ts';
import { stripJpeg } from './jpeg.ts';
import { kindOf, type PictureKind } from './kind.ts';
import { stripPng } from './png.ts';
import { stripWebp } from './webp.ts';

/** Bytes. */
export const LARGEST_FILE = 10 * 1024 * 1024;
/** Pixels along one side: beyond it a screen that opens the picture may run out of memory. */
const LONGEST_SIDE = 20_000;

export type Cleaned =
  | { ok: true; type: PictureKind; content: Uint8Array; width: number; height: number }
  | { ok: false; why: 'empty' | 'too-large' | 'heic' | 'other' | 'broken' | 'too-many-pixels' };

const STRIP: Record<PictureKind, (bytes: Uint8Array) => Stripped> = {
  'image/png': stripPng,
  'image/jpeg': stripJpeg,
  'image/webp': stripWebp,
};

/** Place, time, device and thumbnails are left out; not one pixel changes. */
export function clean(bytes: Uint8Array): Cleaned {
  if (bytes.length > LARGEST_FILE) return { ok: false, why: 'too-large' };
  const kind = kindOf(bytes);
  if (kind === 'empty' || kind === 'heic' || kind === 'other') return { ok: false, why: kind };
  try {
    const { content, width, height } = STRIP[kind](bytes);
    if (width === 0 || height === 0) return { ok: false, why: 'broken' };
    if (Math.max(width, height) > LONGEST_SIDE) return { ok: false, why: 'too-many-pixels' };
    return { ok: true, type: kind, content, width, height };
  } catch (error) {
    if (error instanceof BadPicture) return { ok: false, why: 'broken' };
    throw error;
  }
}
