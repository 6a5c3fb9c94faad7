/** Black boxes over parts of a picture: what was there is gone from its pixels. */
import type { Pixels } from './pixels.ts';
import type { Box } from './view.ts';

/** A box is made larger by this share of its shorter side, so that no edge of a letter is left. */
const MARGIN = 0.25;
const BLACK = [0, 0, 0, 255];

export function blacken({ data, width, height }: Pixels, box: Box): void {
  const margin = Math.ceil(Math.min(box.width, box.height) * MARGIN);
  const [left, top] = [Math.max(0, box.x - margin), Math.max(0, box.y - margin)];
  const right = Math.min(width, box.x + box.width + margin);
  const bottom = Math.min(height, box.y + box.height + margin);
  for (let y = top; y < bottom; y++) for (let x = left; x < right; x++) data.set(BLACK, (y * width + x) * 4);
}
