/** Makes the letters stand out alike everywhere, whatever the light: dark on light, glare and shadow taken out. Pure. */
import type { Grey } from './grey.ts';

/** Half the width of the neighbourhood that a pixel is compared with, as a share of the longer side. */
const REACH = 1 / 45;
/** The share of pixels that may end up beyond black and white. */
const BEYOND = 0.005;
/** Less than so many shades between letters and ground are noise. */
const LEAST = 8;
/** Shades of the ground and, from there, of letters. */
const GROUND = 170;
const STRENGTH = 130;
/** Pixels that are looked at to tell how strong the letters are. */
const SAMPLE = 50_000;

export interface Even {
  grey: Grey;
  /** Places of pixels that stand out as letters do. */
  marks: { x: number; y: number }[];
}

export function even({ data, width, height }: Grey): Even {
  const reach = Math.max(4, Math.round(Math.max(width, height) * REACH));
  const away = blurred(data, width, height, reach);
  for (let at = 0; at < away.length; at++) away[at] = data[at]! - away[at]!;
  const most = Math.max(LEAST, strength(away));
  let skew = 0;
  for (let at = 0; at < away.length; at++) {
    const value = Math.max(-1, Math.min(1, away[at]! / most));
    away[at] = value;
    skew += value * value * value;
  }
  // Letters are the smaller part: where more stands out to the light side, they are light.
  const turn = skew > 0 ? -STRENGTH : STRENGTH;
  const out = new Uint8Array(data.length);
  const marks: Even['marks'] = [];
  const every = Math.max(1, Math.round(data.length / 1_000_000));
  for (let at = 0; at < out.length; at++) {
    const value = away[at]! * turn;
    out[at] = Math.max(0, Math.min(255, GROUND + value));
    if (value < -STRENGTH / 2 && at % every === 0) marks.push({ x: at % width, y: Math.floor(at / width) });
  }
  return { grey: { data: out, width, height }, marks };
}

/** Without the grain of a dark picture and the grid of a screen's dots: each pixel with its neighbours. */
export const calm = ({ data, width, height }: Grey): Grey => ({
  data: Uint8Array.from(blurred(data, width, height, 1)),
  width,
  height,
});

/** By how many shades the strongest pixels differ from what is around them. */
function strength(away: Float32Array): number {
  const every = Math.max(1, Math.floor(away.length / SAMPLE));
  const sample: number[] = [];
  for (let at = 0; at < away.length; at += every) sample.push(Math.abs(away[at]!));
  return sample.sort((a, b) => a - b)[Math.floor(sample.length * (1 - BEYOND))] ?? 0;
}

/** The mean of each neighbourhood, as running sums: first along rows, then along columns. */
function blurred(values: ArrayLike<number>, width: number, height: number, reach: number): Float32Array {
  const across = new Float32Array(width * height);
  for (let y = 0; y < height; y++) run(values, across, y * width, 1, width, reach);
  const both = new Float32Array(width * height);
  for (let x = 0; x < width; x++) run(across, both, x, width, height, reach);
  return both;
}

function run(
  from: ArrayLike<number>,
  to: Float32Array,
  start: number,
  step: number,
  count: number,
  reach: number,
) {
  let sum = 0;
  let inside = 0;
  for (let at = 0; at < count + reach; at++) {
    if (at < count) {
      sum += from[start + at * step]!;
      inside += 1;
    }
    const gone = at - 2 * reach - 1;
    if (gone >= 0 && gone < count) {
      sum -= from[start + gone * step]!;
      inside -= 1;
    }
    const middle = at - reach;
    if (middle >= 0 && middle < count) to[start + middle * step] = sum / inside;
  }
}
