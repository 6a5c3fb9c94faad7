/** How likely further failures are to be fatal, exactly, and how long the array lasts on average. */
import type { MemberSet } from './sets.ts';

/** Of a set: members that work, and failures that it still bears. */
export interface Left {
  working: number;
  bears: number;
}

export const leftOf = ({ members, bears }: MemberSet, down: ReadonlySet<number>): Left => {
  const working = members.filter(member => !down.has(member)).length;
  return { working, bears: bears - (members.length - working) };
};

/** Ways to choose `k` of `n`. */
export function choose(n: number, k: number): bigint {
  if (k < 0 || k > n) return 0n;
  let ways = 1n;
  for (let each = 1; each <= k; each++) ways = (ways * BigInt(n - each + 1)) / BigInt(each);
  return ways;
}

/**
 * Chance that `more` failures at once, any members with equal chance, are fatal. The survivable choices are counted as the
 * coefficient of x^more in the product of each set's sum of C(working, j) x^j up to what it bears.
 */
export function fatal(sets: readonly Left[], more: number): number {
  const working = sets.reduce((sum, each) => sum + each.working, 0);
  if (sets.some(({ bears }) => bears < 0)) return 1;
  if (more > working) return 1;
  let ways: bigint[] = [1n];
  for (const set of sets) {
    const next: bigint[] = Array.from({ length: Math.min(more, ways.length - 1 + set.bears) + 1 }, () => 0n);
    ways.forEach((count, had) => {
      for (let taken = 0; taken <= set.bears && had + taken < next.length; taken++)
        next[had + taken]! += count * choose(set.working, taken);
    });
    ways = next;
  }
  return 1 - ratio(ways[more] ?? 0n, choose(working, more));
}

/** Of two whole numbers of any size, as a number. */
function ratio(part: bigint, of: bigint): number {
  const DIGITS = 10n ** 18n;
  return Number((part * DIGITS) / of) / Number(DIGITS);
}

/** Failures that are certain to be survived, whichever members they hit. */
export const surelySurvived = (sets: readonly Left[]): number =>
  Math.max(0, Math.min(...sets.map(({ bears }) => bears)));

/**
 * Mean hours until data are lost, of one set of `size` members that bears `bears` failures, with one repair at a time. The
 * chain's exact mean: from 0 failed on, m(i) = (1 + up(i) m(i+1) + down m(i-1)) / (up(i) + down), solved from the end.
 */
export function meanHoursToLoss(size: number, bears: number, mttfHours: number, repairHours: number): number {
  const fails = 1 / mttfHours;
  const repairs = 1 / repairHours;
  // h(i): mean hours to get from i to i + 1 failed. h(0) = 1 / up(0); h(i) = (1 + repairs h(i - 1)) / up(i).
  let [step, total] = [0, 0];
  for (let failed = 0; failed <= bears; failed++) {
    const up = (size - failed) * fails;
    step = (1 + (failed === 0 ? 0 : repairs * step)) / up;
    total += step;
  }
  return total;
}
