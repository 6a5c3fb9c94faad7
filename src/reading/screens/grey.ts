/** A picture in shades of grey, and how its points got where they are. Pure. */
import type { Pixels } from './pixels.ts';

export interface Grey {
  /** One byte a pixel, 0 is black. */
  data: Uint8Array;
  width: number;
  height: number;
}

/** In shades of grey and so many times as large: an average where it shrinks, straight lines between pixels where it grows. */
export function greyOf({ data, width, height }: Pixels, scale: number): Grey {
  const full = new Uint8Array(width * height);
  for (let at = 0, from = 0; at < full.length; at++, from += 4)
    full[at] = (data[from]! * 77 + data[from + 1]! * 150 + data[from + 2]! * 29) >> 8;
  const grey = { data: full, width, height };
  if (scale === 1) return grey;
  return scale < 1 ? shrunk(grey, scale) : grown(grey, scale);
}

function shrunk({ data, width, height }: Grey, scale: number): Grey {
  const [w, h] = [Math.max(1, Math.round(width * scale)), Math.max(1, Math.round(height * scale))];
  const out = new Uint8Array(w * h);
  for (let y = 0; y < h; y++) {
    const top = Math.floor((y * height) / h);
    const bottom = Math.max(top + 1, Math.floor(((y + 1) * height) / h));
    for (let x = 0; x < w; x++) {
      const left = Math.floor((x * width) / w);
      const right = Math.max(left + 1, Math.floor(((x + 1) * width) / w));
      let sum = 0;
      for (let row = top; row < bottom; row++)
        for (let at = row * width + left; at < row * width + right; at++) sum += data[at]!;
      out[y * w + x] = sum / ((bottom - top) * (right - left));
    }
  }
  return { data: out, width: w, height: h };
}

const grown = (grey: Grey, scale: number): Grey =>
  drawn(grey, Math.round(grey.width * scale), Math.round(grey.height * scale), (x, y) => [
    (x + 0.5) / scale - 0.5,
    (y + 0.5) / scale - 0.5,
  ]);

/** A new picture, each of its points taken from where `from` says; beyond the edge it is the edge's shade. */
export function drawn(
  { data, width, height }: Grey,
  w: number,
  h: number,
  from: (x: number, y: number) => readonly [number, number],
): Grey {
  const out = new Uint8Array(w * h);
  for (let y = 0; y < h; y++)
    for (let x = 0; x < w; x++) {
      const [u, v] = from(x, y);
      const left = Math.max(0, Math.min(width - 1, Math.floor(u)));
      const top = Math.max(0, Math.min(height - 1, Math.floor(v)));
      const fx = Math.max(0, Math.min(1, u - left));
      const fy = Math.max(0, Math.min(1, v - top));
      const right = Math.min(width - 1, left + 1);
      const upper = top * width;
      const lower = Math.min(height - 1, top + 1) * width;
      const above = data[upper + left]! * (1 - fx) + data[upper + right]! * fx;
      const below = data[lower + left]! * (1 - fx) + data[lower + right]! * fx;
      out[y * w + x] = above * (1 - fy) + below * fy;
    }
  return { data: out, width: w, height: h };
}
