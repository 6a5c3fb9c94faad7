/** A picture as the reader gets it: large enough, evenly lit, its lines level; and where on the picture a place in it is. Pure. */
import { calm, even } from './even.ts';
import { drawn, type Grey, greyOf } from './grey.ts';
import type { Pixels } from './pixels.ts';
import { tiltOf } from './tilt.ts';

/** Pixels, from the upper left corner. */
export interface Box {
  x: number;
  y: number;
  width: number;
  height: number;
}

export interface View {
  grey: Grey;
  /** A box of the view as the box of the picture that covers it. */
  onPicture(box: Box): Box;
}

/** The longer side is made smaller than this, and larger than that, as far as twice. */
const LARGEST = 2600;
const SMALLEST = 1700;
/** A smaller tilt does not matter. Radians. */
const LEVEL = 0.006;

/** `quarters`: turned by so many quarters clockwise first, for pictures that lie on their side. `plain`: as it is lit. */
export function viewOf(pixels: Pixels, { quarters, plain }: { quarters: number; plain: boolean }): View {
  const longer = Math.max(pixels.width, pixels.height);
  const scale = longer > LARGEST ? LARGEST / longer : Math.max(1, Math.min(2, SMALLEST / longer));
  const full = greyOf(pixels, scale);
  const turned = quarter(full, quarters);
  const lit = even(calm(turned));
  const tilt = tiltOf(lit.marks);
  const angle = Math.abs(tilt) < LEVEL ? 0 : tilt;
  const shown = plain ? turned : lit.grey;
  const { width, height } = turned;
  const w = Math.ceil(width * Math.cos(angle) + height * Math.abs(Math.sin(angle)));
  const h = Math.ceil(height * Math.cos(angle) + width * Math.abs(Math.sin(angle)));
  const [cos, sin] = [Math.cos(angle), Math.sin(angle)];
  const back = (x: number, y: number) => {
    const [dx, dy] = [x - w / 2, y - h / 2];
    return [dx * cos - dy * sin + width / 2, dx * sin + dy * cos + height / 2] as const;
  };
  return {
    grey: angle === 0 ? shown : drawn(shown, w, h, back),
    onPicture: box => {
      const corners = cornersOf(box)
        .map(([x, y]) => back(x, y))
        .map(([x, y]) => unturned(full, quarters, x, y));
      return around(corners.map(([x, y]) => [x / scale, y / scale]));
    },
  };
}

type Point = readonly [number, number];

const cornersOf = ({ x, y, width, height }: Box): Point[] => [
  [x, y],
  [x + width, y],
  [x, y + height],
  [x + width, y + height],
];

function around(points: readonly Point[]): Box {
  const [xs, ys] = [points.map(([x]) => x), points.map(([, y]) => y)];
  const [x, y] = [Math.floor(Math.min(...xs)), Math.floor(Math.min(...ys))];
  return { x, y, width: Math.ceil(Math.max(...xs)) - x, height: Math.ceil(Math.max(...ys)) - y };
}

function quarter(grey: Grey, quarters: number): Grey {
  if (quarters === 0) return grey;
  const { data, width, height } = grey;
  const [w, h] = quarters === 2 ? [width, height] : [height, width];
  const out = new Uint8Array(data.length);
  for (let y = 0; y < h; y++)
    for (let x = 0; x < w; x++) {
      const [u, v] = unturned(grey, quarters, x, y, 1);
      out[y * w + x] = data[v * width + u]!;
    }
  return { data: out, width: w, height: h };
}

/** Where a place was before the turn. `pixel`: 1 for whole pixels, whose places count from 0. */
function unturned({ width, height }: Grey, quarters: number, x: number, y: number, pixel = 0): Point {
  if (quarters === 1) return [y, height - pixel - x];
  if (quarters === 2) return [width - pixel - x, height - pixel - y];
  if (quarters === 3) return [width - pixel - y, x];
  return [x, y];
}
