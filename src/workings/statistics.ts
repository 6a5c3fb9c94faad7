/**
 * Counts and shares with what is known of their uncertainty. Definitions: the Poisson and binomial distributions' own sums;
 * Wilson's score interval (Journal of the American Statistical Association 22, 1927, 209-212); exact intervals by inverting
 * the sums (Clopper and Pearson, Biometrika 26, 1934, 404-413; Garwood, Biometrika 28, 1936, 437-442).
 */

export interface Interval {
  low: number;
  high: number;
}

/** Lanczos' approximation (g = 7, nine terms), good to about 15 digits for x > 0. Checked against published libraries. */
const LANCZOS = [
  0.99999999999980993, 676.5203681218851, -1259.1392167224028, 771.32342877765313, -176.61502916214059,
  12.507343278686905, -0.13857109526572012, 9.9843695780195716e-6, 1.5056327351493116e-7,
];

/** Natural logarithm of n!; exact sums for small n, so that nothing is lost where most counts are. */
export function logFactorial(n: number): number {
  if (n < 60) {
    let sum = 0;
    for (let each = 2; each <= n; each++) sum += Math.log(each);
    return sum;
  }
  const base = n + 7.5;
  const series = LANCZOS.reduce((sum, term, place) => (place === 0 ? term : sum + term / (n + place)), 0);
  return 0.5 * Math.log(2 * Math.PI) + (n + 0.5) * Math.log(base) - base + Math.log(series);
}

/** Relative size below which further terms change nothing. */
const TINY = 1e-17;

/** Chance of exactly `count` when `mean` are expected. */
export const poisson = (count: number, mean: number): number =>
  mean === 0 ? (count === 0 ? 1 : 0) : Math.exp(count * Math.log(mean) - mean - logFactorial(count));

/** Chance of `count` or more. Sums the shorter side, so that small chances keep their digits. */
export function poissonAtLeast(count: number, mean: number): number {
  if (count <= 0) return 1;
  if (count > mean) {
    let term = poisson(count, mean);
    let sum = term;
    for (let each = count + 1; term > sum * TINY; each++) {
      term *= mean / each;
      sum += term;
    }
    return Math.min(1, sum);
  }
  return 1 - poissonAtMost(count - 1, mean);
}

/** Chance of `count` or fewer. */
export function poissonAtMost(count: number, mean: number): number {
  if (count < 0) return 0;
  if (count >= mean) return 1 - poissonAtLeast(count + 1, mean);
  let term = poisson(count, mean);
  let sum = term;
  for (let each = count; each > 0 && term > sum * TINY; each--) {
    term *= each / mean;
    sum += term;
  }
  return Math.min(1, sum);
}

/** Chance of `hits` or more among `total`, each with chance `p`: the regularised incomplete beta function. */
export function binomialAtLeast(hits: number, total: number, p: number): number {
  if (hits <= 0) return 1;
  if (p <= 0) return 0;
  if (p >= 1) return 1;
  const [a, b] = [hits, total - hits + 1];
  // The fraction converges fast on this side of the mean; the other side is told from the misses.
  if (p > (a + 1) / (a + b + 2)) return 1 - binomialAtLeast(b, total, 1 - p);
  const ways = logFactorial(total) - logFactorial(a - 1) - logFactorial(b - 1);
  const front = Math.exp(ways + a * Math.log(p) + b * Math.log1p(-p)) / a;
  return Math.min(1, front * betaFraction(a, b, p));
}

/** Terms after which nothing changes any more; their number grows with the root of the counts. */
const MOST_TERMS = 200_000;

/** The continued fraction of the incomplete beta function, by Lentz's method (Abramowitz and Stegun 26.5.8). */
function betaFraction(a: number, b: number, x: number): number {
  const floor = (value: number) =>
    Math.abs(value) < Number.MIN_VALUE * 1e20 ? Number.MIN_VALUE * 1e20 : value;
  let c = 1;
  let d = 1 / floor(1 - ((a + b) * x) / (a + 1));
  let fraction = d;
  for (let term = 1; term < MOST_TERMS; term++) {
    const even = (term * (b - term) * x) / ((a + 2 * term - 1) * (a + 2 * term));
    d = 1 / floor(1 + even * d);
    c = floor(1 + even / c);
    fraction *= d * c;
    const odd = (-(a + term) * (a + b + term) * x) / ((a + 2 * term) * (a + 2 * term + 1));
    d = 1 / floor(1 + odd * d);
    c = floor(1 + odd / c);
    fraction *= d * c;
    if (Math.abs(d * c - 1) < 1e-16) break;
  }
  return fraction;
}

/** The point in [low, high] at which `rising` reaches `wanted`, to the last digit that a number holds. */
function reach(wanted: number, rising: (x: number) => number, low: number, high: number): number {
  for (let step = 0; step < 200; step++) {
    const middle = (low + high) / 2;
    if (middle === low || middle === high) break;
    if (rising(middle) < wanted) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}

/** Exact two-sided interval of the expected count when `count` were seen. */
export function countInterval(count: number, confidence: number): Interval {
  const tail = (1 - confidence) / 2;
  const far = count + 40 + 20 * Math.sqrt(count + 1);
  return {
    low: count === 0 ? 0 : reach(tail, mean => poissonAtLeast(count, mean), 0, count),
    high: countBelow(count, 1 - tail, far),
  };
}

/** The expected count that is not exceeded with this confidence, one-sided. */
export const countBelow = (
  count: number,
  confidence: number,
  far = count + 40 + 20 * Math.sqrt(count + 1),
): number => reach(confidence, mean => 1 - poissonAtMost(count, mean), 0, far);

/** Exact two-sided interval of a share. */
export function shareInterval(hits: number, total: number, confidence: number): Interval {
  const tail = (1 - confidence) / 2;
  return {
    low: hits === 0 ? 0 : reach(tail, p => binomialAtLeast(hits, total, p), 0, 1),
    high: hits === total ? 1 : reach(1 - tail, p => binomialAtLeast(hits + 1, total, p), 0, 1),
  };
}

/** Wilson's score interval of a share, which stays near the stated confidence where counts are small. */
export function wilson(hits: number, total: number, confidence: number): Interval {
  const z = normalQuantile(1 - (1 - confidence) / 2);
  const p = hits / total;
  const scale = 1 + (z * z) / total;
  const centre = (p + (z * z) / (2 * total)) / scale;
  const half = (z * Math.sqrt((p * (1 - p)) / total + (z * z) / (4 * total * total))) / scale;
  return {
    low: hits === 0 ? 0 : Math.max(0, centre - half),
    high: hits === total ? 1 : Math.min(1, centre + half),
  };
}

/** The value that a standard normal variable stays below with chance `p`, 0.5 <= p < 1. */
export const normalQuantile = (p: number): number => reach(p, normalBelow, 0, 40);

/** Chance that a standard normal variable is below x >= 0: the series of Abramowitz and Stegun 26.2.11, or 26.2.14 far out. */
export function normalBelow(x: number): number {
  const density = Math.exp((-x * x) / 2) / Math.sqrt(2 * Math.PI);
  if (x > 6) {
    let fraction = x;
    for (let each = 80; each > 0; each--) fraction = x + each / fraction;
    return 1 - density / fraction;
  }
  let term = x;
  let sum = x;
  for (let each = 3; term > sum * TINY; each += 2) {
    term *= (x * x) / each;
    sum += term;
  }
  return 0.5 + density * sum;
}
