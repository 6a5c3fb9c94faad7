/** The bench plan: which checks, in the order that finds the fault soonest without hurting anyone or the data. */
import type { Faults } from '#engine/catalogue.ts';
import { bestOrder, expectedMinutes, type Job } from './ratio.ts';
import type { Plan, PlannedCheck, Suspect, Ticket } from './schema.ts';

export interface PlanInput {
  suspects: readonly Suspect[];
  faults: Faults;
  signs: Ticket['signs'];
  /** Would something be missed that nobody has seen anywhere else? */
  onlyCopy: boolean;
}

/** Below this share a fault is not worth a check of its own yet. Common practice, no source. */
const LEAST_SHARE = 0.01;
/** From this share of failing drives on, the data is saved before the drive is touched. Common practice, no source. */
const MAY_FAIL = 0.1;

/**
 * One fault is taken to be there, and each of its checks to be equally likely to show it. Checks that several faults begin with
 * are made once. Look before touch: nothing with an open case before everything with a closed one. Data before tests.
 */
export function planOf(input: PlanInput): Plan {
  const jobs = jobsOf(input.suspects, input.faults);
  const first = firstOf(input);
  const held = first?.keeps ? jobs.filter(job => touches(jobs, job)) : [];
  const free = jobs.filter(job => !held.includes(job));
  const closed = ordered(
    jobs,
    free.filter(job => !job.open),
  );
  const open = ordered(
    jobs,
    free.filter(job => job.open),
  );
  const steps = [...(first ? [first.step] : []), ...closed, ...(open.length > 0 ? [OPENING, ...open] : [])];
  return {
    checks: steps.map(planned),
    expectedMinutes: expectedMinutes(steps),
    held: ordered(jobs, held).map(planned),
    heldBecause: held.length > 0 ? (first?.keeps ?? null) : null,
  };
}

interface BenchJob extends Job, PlannedCheck {}

const safety = (check: string, minutes: number): BenchJob => ({
  check,
  minutes,
  open: false,
  effect: 'none',
  looksFor: [],
  chance: 0,
  after: null,
});

/** Minutes of these steps: common practice, no source. */
const OPENING = safety(
  'Before the case is opened: shut down, unplug, take the battery out or disconnect it, wear the static strap. Site rules and qualified people come first. Never open a power supply.',
  5,
);
const SAFE = safety(
  'First make it safe: nothing is switched on, opened or carried until a qualified person has looked at it under the site rules.',
  10,
);
const RELEASE = safety(
  'First hand it to the security contact. Keep it on and off the network; start, read, restore and delete nothing until they release it.',
  10,
);
const DECIDE = safety(
  'First decide with the owner of the data, without starting the drive: another copy is seen, or data recovery by specialists, or the loss is accepted in writing.',
  15,
);
const SAVE = safety(
  'First save the data: copy what would be missed, then image the drive, onto a healthy one. Read only, no repair and no surface test. If it is not seen at all, do this as soon as it is.',
  60,
);

/** What comes before every check; `keeps` says why checks that touch the drive are kept back, where they are. */
function firstOf({ suspects, faults, signs, onlyCopy }: PlanInput): First | null {
  if (signs.includes('danger')) return { step: SAFE, keeps: 'Not before it is safe.' };
  if (signs.includes('attack'))
    return { step: RELEASE, keeps: 'Not before the security contact releases it.' };
  if (signs.includes('mechanical')) return { step: DECIDE, keeps: 'Starting the drive again may end it.' };
  const failing = suspects
    .filter(({ fault }) => faults[fault]?.failing)
    .reduce((share, suspect) => share + suspect.share, 0);
  const mayFail = signs.includes('hardware-failure') || signs.includes('suspect') || failing >= MAY_FAIL;
  return mayFail && onlyCopy ? { step: SAVE, keeps: null } : null;
}

interface First {
  step: BenchJob;
  keeps: string | null;
}

/** Every fault's checks as a chain; chains that begin alike share their beginning, so that each check has at most one before it. */
function jobsOf(suspects: readonly Suspect[], faults: Faults): BenchJob[] {
  const jobs: BenchJob[] = [];
  for (const { fault, name, share } of suspects) {
    const checks = faults[fault]?.checks ?? [];
    if (share < LEAST_SHARE) continue;
    let after: number | null = null;
    for (const { check, minutes, open, effect } of checks) {
      let at = jobs.findIndex(job => job.after === after && job.check === check);
      if (at === -1) {
        const inside = open === true || (after !== null && jobs[after]!.open);
        at = jobs.length;
        jobs.push({ check, minutes, open: inside, effect: effect ?? 'read', looksFor: [], chance: 0, after });
      }
      const job = jobs[at]!;
      job.chance += share / checks.length;
      job.looksFor.push({ fault, name });
      after = at;
    }
  }
  return jobs;
}

/** Does this check, or one that must come before it, start, read or write the drive? */
function touches(jobs: readonly BenchJob[], job: BenchJob): boolean {
  return job.effect !== 'none' || (job.after !== null && touches(jobs, jobs[job.after]!));
}

/** `some` of the jobs in the best order; what must come before them and is not among them is done already. */
function ordered(jobs: readonly BenchJob[], some: readonly BenchJob[]): BenchJob[] {
  const numbered = some.map(job => ({
    ...job,
    after: job.after === null ? null : place(some.indexOf(jobs[job.after]!)),
  }));
  return bestOrder(numbered).map(index => numbered[index]!);
}

const place = (index: number): number | null => (index === -1 ? null : index);

const planned = ({ check, minutes, open, effect, looksFor }: BenchJob): PlannedCheck => ({
  check,
  minutes,
  open,
  effect,
  looksFor,
});

/** Parts worth having at hand, those of the likeliest fault first. */
export function partsOf(suspects: readonly Suspect[], faults: Faults): string[] {
  const likely = suspects.filter(({ share }) => share >= MAY_FAIL);
  return [...new Set(likely.flatMap(({ fault }) => faults[fault]?.parts ?? []))];
}
