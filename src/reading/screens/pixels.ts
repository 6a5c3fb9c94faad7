/** The pixels of a picture, the right way up, and back to a file. PNG by pngjs, JPEG by jpeg-js. */
import jpeg from 'jpeg-js';
import { PNG } from 'pngjs';
import { BadPicture } from '../pictures/bytes.ts';
import { turnOfJpeg } from '../pictures/jpeg.ts';
import type { PictureKind } from '../pictures/kind.ts';

/** Four bytes a pixel: red, green, blue, opacity. */
export interface Pixels {
  data: Uint8Array;
  width: number;
  height: number;
}

/** Kinds that are opened here; the third is opened by the reader itself. */
export type Opened = Exclude<PictureKind, 'image/webp'>;

/** A picture with more pixels is not opened. */
export const MOST_PIXELS = 25_000_000;
const MOST_MEGABYTES = 512;
/** 0 to 100: what a covered photo is written with. */
const QUALITY = 85;

export function decode(type: Opened, content: Uint8Array): Pixels {
  try {
    if (type === 'image/png') return opaque(PNG.sync.read(Buffer.from(content)));
    const pixels = jpeg.decode(content, {
      useTArray: true,
      formatAsRGBA: true,
      maxResolutionInMP: MOST_PIXELS / 1e6,
      maxMemoryUsageInMB: MOST_MEGABYTES,
    });
    return upright(pixels, turnOfJpeg(content));
  } catch (error) {
    throw new BadPicture(String(error));
  }
}

export function encode(type: Opened, { data, width, height }: Pixels): Uint8Array {
  if (type === 'image/jpeg') return jpeg.encode({ data, width, height }, QUALITY).data;
  const png = new PNG({ width, height });
  png.data = Buffer.from(data.buffer, data.byteOffset, data.byteLength);
  return PNG.sync.write(png);
}

/** What shines through is white, as on a page. */
function opaque({ data, width, height }: Pixels): Pixels {
  for (let at = 0; at < data.length; at += 4) {
    const share = data[at + 3]! / 255;
    if (share === 1) continue;
    for (let channel = at; channel < at + 3; channel++)
      data[channel] = data[channel]! * share + 255 * (1 - share);
    data[at + 3] = 255;
  }
  return { data, width, height };
}

/** `orientation` 1 to 8, as EXIF 2.3 counts: from 5 on rows and columns change places. */
function upright(pixels: Pixels, orientation: number): Pixels {
  if (orientation === 1) return pixels;
  const { width, height } = pixels;
  const swapped = orientation >= 5;
  const [w, h] = swapped ? [height, width] : [width, height];
  const fromRight = [2, 3, 7, 8].includes(orientation);
  const fromBelow = [3, 4, 6, 7].includes(orientation);
  const from = new Uint32Array(pixels.data.buffer, pixels.data.byteOffset, width * height);
  const to = new Uint32Array(w * h);
  for (let y = 0; y < h; y++)
    for (let x = 0; x < w; x++) {
      const [u, v] = swapped ? [y, x] : [x, y];
      to[y * w + x] = from[(fromBelow ? height - 1 - v : v) * width + (fromRight ? width - 1 - u : u)]!;
    }
  return { data: new Uint8Array(to.buffer), width: w, height: h };
}
