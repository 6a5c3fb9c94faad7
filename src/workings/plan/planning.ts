/** Which bench checks to make, in the order that finds the fault soonest without hurting anyone or the data. */
import type { Effect, Sign } from '#engine/schema.ts';
import { bestOrder, expectedMinutes, type Job } from './ratio.ts';

export interface PossibleFault {
  fault: string;
  name: string;
  /** How likely it is, beside the others; not negative. */
  share: number;
  /** The drive itself is giving out. */
  failing?: boolean | undefined;
  /** In the order of safety; each is made after those before it. */
  checks: readonly Check[];
}

export interface Check {
  check: string;
  /** More than 0. */
  minutes: number;
  /** Must the case be open? */
  open?: boolean | undefined;
  /** `read` unless given. */
  effect?: Effect | undefined;
}

export interface BenchCase {
  faults: readonly PossibleFault[];
  signs: readonly Sign[];
  /** Would something be missed that nobody has seen anywhere else? */
  onlyCopy: boolean;
}

export interface Step {
  check: string;
  minutes: number;
  open: boolean;
  effect: Effect;
  /** None for a step that comes first for safety's sake. */
  looksFor: { fault: string; name: string }[];
  /** That this is the one that finds it, in the unit of the shares. */
  chance: number;
}

/** `save-first`: once the data is safe. `not-yet`: not before somebody who may has released it; until then only looking. */
export const BEGIN = ['at-once', 'save-first', 'not-yet'] as const;

export interface Planned {
  begin: (typeof BEGIN)[number];
  steps: Step[];
  /** Minutes until the fault is found, on average, if it is one of these; null without a step that finds one. */
  expectedMinutes: number | null;
  /** The same for the order in which they were listed, under the same rules of safety. */
  listedMinutes: number | null;
  /** Checks that start, read or write the drive, kept back until it may be touched, and why. */
  held: Step[];
  heldBecause: string | null;
}

/** From this share of failing drives on, the data is saved before the drive is touched. Common practice, no source. */
const MAY_FAIL = 0.1;

/**
 * One fault is taken to be there, and each of its checks to be equally likely to show it. Checks that several faults begin with
 * are made once. Look before touch: nothing with an open case before everything with a closed one. Data before tests.
 */
export function planning(given: BenchCase): Planned {
  const jobs = jobsOf(given.faults);
  const first = firstOf(given);
  const held = first?.keeps ? jobs.filter(job => touches(jobs, job)) : [];
  const free = jobs.filter(job => !held.includes(job));
  const [closed, open] = [free.filter(job => !job.open), free.filter(job => job.open)];
  const around = (closed: readonly Step[], open: readonly Step[]): Step[] => [
    ...(first ? [first.step] : []),
    ...closed,
    ...(open.length > 0 ? [OPENING, ...open] : []),
  ];
  const steps = around(ordered(jobs, closed), ordered(jobs, open));
  return {
    begin: first === null ? 'at-once' : first.keeps === null ? 'save-first' : 'not-yet',
    steps,
    expectedMinutes: expectedMinutes(steps),
    listedMinutes: expectedMinutes(around(closed, open)),
    held: ordered(jobs, held),
    heldBecause: held.length > 0 ? (first?.keeps ?? null) : null,
  };
}

interface BenchJob extends Job, Step {}

const safety = (check: string, minutes: number): Step => ({
  check,
  minutes,
  open: false,
  effect: 'none',
  looksFor: [],
  chance: 0,
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

interface First {
  step: Step;
  /** Why checks that touch the drive are kept back, where they are. */
  keeps: string | null;
}

/** What comes before every check. */
function firstOf({ faults, signs, onlyCopy }: BenchCase): First | null {
  if (signs.includes('danger')) return { step: SAFE, keeps: 'Not before it is safe.' };
  if (signs.includes('attack'))
    return { step: RELEASE, keeps: 'Not before the security contact releases it.' };
  if (signs.includes('mechanical')) return { step: DECIDE, keeps: 'Starting the drive again may end it.' };
  const failing = faults.filter(fault => fault.failing).reduce((sum, { share }) => sum + share, 0);
  const mayFail = signs.includes('hardware-failure') || signs.includes('suspect') || failing >= MAY_FAIL;
  return mayFail && onlyCopy ? { step: SAVE, keeps: null } : null;
}

/** Every fault's checks as a chain; chains that begin alike share their beginning, so that each check has at most one before it. */
function jobsOf(faults: readonly PossibleFault[]): BenchJob[] {
  const jobs: BenchJob[] = [];
  for (const { fault, name, share, checks } of faults) {
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
