/**
 * The order of checks that finds a fault soonest on average, when exactly one fault is there and some checks come before others.
 * Without precedence: by chance per minute, highest first (W. E. Smith, "Various optimizers for single-stage production", Naval
 * Research Logistics Quarterly 3, 1956, 59-66). Where every check has at most one check that must come before it: by merging
 * (W. A. Horn, "Single-machine job sequencing with treelike precedence ordering and linear delay penalties", SIAM Journal on
 * Applied Mathematics 23, 1972, 189-202).
 */

export interface Job {
  /** Chance that this is the one that finds it; any unit, not negative. */
  chance: number;
  /** More than 0. */
  minutes: number;
  /** Index of the job that must come before, or null. */
  after: number | null;
}

interface Block {
  jobs: number[];
  after: number | null;
  chance: number;
  minutes: number;
}

/** Indices of the jobs in the best order. Equal ratios keep the order given. */
export function bestOrder(jobs: readonly Job[]): number[] {
  const blocks: Block[] = jobs.map(({ chance, minutes, after }, index) => ({
    jobs: [index],
    after,
    chance,
    minutes,
  }));
  const order: number[] = [];
  const done = new Set<number>();
  while (blocks.length > 0) {
    const best = blocks.reduce((one, other) => (ratio(other) > ratio(one) ? other : one));
    blocks.splice(blocks.indexOf(best), 1);
    if (best.after === null || done.has(best.after)) {
      order.push(...best.jobs);
      for (const job of best.jobs) done.add(job);
      continue;
    }
    // Worth more than anything else but not allowed yet: it follows the job it waits for without a gap.
    const before = blocks.find(({ jobs: held }) => held.includes(best.after!));
    if (before === undefined) throw new Error(`check ${best.jobs[0]} waits for itself`);
    before.jobs.push(...best.jobs);
    before.chance += best.chance;
    before.minutes += best.minutes;
  }
  return order;
}

const ratio = ({ chance, minutes }: Block): number => chance / minutes;

/** Minutes until the fault is found, on average, when it is one that these jobs find. Null when none finds anything. */
export function expectedMinutes(jobs: readonly Pick<Job, 'chance' | 'minutes'>[]): number | null {
  let clock = 0;
  let weighted = 0;
  let chance = 0;
  for (const job of jobs) {
    clock += job.minutes;
    weighted += job.chance * clock;
    chance += job.chance;
  }
  return chance > 0 ? weighted / chance : null;
}
