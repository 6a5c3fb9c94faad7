/** By how much the lines of a picture run downhill. Pure. */

/** Degrees either way that are looked at; a picture turned further lies on its side. */
const MOST = 20;
const COARSE = 1;
const FINE = 0.1;
/** Points that are looked at. */
const ENOUGH = 30_000;

/** Radians, clockwise: seen along the lines, what is written falls into the fewest rows. */
export function tiltOf(marks: readonly { x: number; y: number }[]): number {
  const every = Math.max(1, Math.floor(marks.length / ENOUGH));
  const sample = marks.filter((_, at) => at % every === 0);
  if (sample.length < 50) return 0;
  const rough = best(sample, 0, MOST, COARSE);
  return (best(sample, rough, COARSE, FINE) * Math.PI) / 180;
}

function best(
  marks: readonly { x: number; y: number }[],
  around: number,
  reach: number,
  step: number,
): number {
  let angle = 0;
  let most = Number.NEGATIVE_INFINITY;
  for (let tried = around - reach; tried <= around + reach + 1e-9; tried += step) {
    const sharp = sharpness(marks, (tried * Math.PI) / 180);
    // Upright unless another angle is clearly better.
    const score = Math.abs(tried) < step / 2 ? sharp * 1.02 : sharp;
    if (score > most) {
      most = score;
      angle = tried;
    }
  }
  return angle;
}

/** How unevenly the points fall into rows of two pixels. */
function sharpness(marks: readonly { x: number; y: number }[], angle: number): number {
  const [cos, sin] = [Math.cos(angle), Math.sin(angle)];
  const rows = new Map<number, number>();
  for (const { x, y } of marks) {
    const row = Math.round((y * cos - x * sin) / 2);
    rows.set(row, (rows.get(row) ?? 0) + 1);
  }
  let sum = 0;
  for (const count of rows.values()) sum += count * count;
  return sum;
}
