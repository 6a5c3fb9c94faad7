/**
 * The order of bench checks that finds a fault in the fewest minutes on average, safety first.
 *
 * Minutes of work. Shares are relative to their sum, so counts of closed tickets will do; without shares every fault counts the
 * same, and that is said. Exactly one of the faults is taken to be there, and each of its checks to be equally likely to show it.
 * Best order: by chance per minute, chains merged (Smith 1956, Horn 1972, see ratio.ts; in fault finding: Kadane and Simon,
 * Annals of Statistics 5, 1977), apart for checks with a closed case and, after them, with an open one. Errors: shares for some
 * faults only, no share above 0, a fault named twice, one check told in two ways.
 */
import { z } from 'zod';
import { EFFECTS } from '#engine/schema.ts';
import { Impossible, number, oneOf, type Working } from '../working.ts';
import { BEGIN, planning, type Step } from './planning.ts';
import { tell } from './tell.ts';

const text = (what: string) =>
  z
    .string({ error: `give ${what}` })
    .trim()
    .min(1, `give ${what}`)
    .max(300, 'give at most 300 characters');

const check = z.strictObject({
  check: text('what is done'),
  minutes: number('minutes, from 0.1 to 10000', 0.1, 10_000),
  /** Must the case be open? */
  open: z.boolean({ error: 'give true or false' }).default(false),
  /** What it does to the drive. */
  effect: oneOf(EFFECTS).default('read'),
});

const fault = z.strictObject({
  fault: text('what may be wrong'),
  share: number('a share or a count, from 0 to 1000000', 0, 1_000_000).optional(),
  /** The drive itself is giving out. */
  failing: z.boolean({ error: 'give true or false' }).default(false),
  /** In the order of safety: look before touch, cable before drive. */
  checks: z
    .array(check, { error: 'give a list of checks, each with check and minutes' })
    .min(1, 'give at least one')
    .max(50, 'give at most 50'),
});

const SIGNS = ['danger', 'attack', 'mechanical', 'suspect', 'hardware-failure'] as const;

const input = z.strictObject({
  faults: z
    .array(fault, { error: 'give a list of faults, each with fault and checks' })
    .min(1, 'give at least one')
    .max(100, 'give at most 100'),
  signs: z
    .array(oneOf(SIGNS), { error: `give a list of: ${SIGNS.join(', ')}` })
    .max(SIGNS.length, 'give each once')
    .default([]),
  /** Of the data on the drive: where else was it seen? */
  copy: oneOf(['seen', 'believed', 'nowhere', 'not-sure']).default('not-sure'),
});
export type PlanInput = z.infer<typeof input>;

const step = z.object({
  check: z.string(),
  minutes: z.number(),
  open: z.boolean(),
  effect: z.enum(EFFECTS),
  looksFor: z.array(z.string()),
});

const output = z.object({
  begin: z.enum(BEGIN),
  /** With the minutes by which each is done and the chance that the fault is found by then. */
  steps: z.array(step.extend({ doneMinutes: z.number(), foundBy: z.number() })),
  /** On average, if it is a fault that one of the steps finds; null when all are held. */
  expectedMinutes: z.number().nullable(),
  /** The same in the order in which they were listed, under the same rules of safety. */
  listedMinutes: z.number().nullable(),
  held: z.array(step),
  heldBecause: z.string().nullable(),
  sharesGiven: z.boolean(),
});
export type PlanOutput = z.infer<typeof output>;

function work({ faults, signs, copy }: PlanInput): PlanOutput {
  refuseTwice(faults);
  const shares = sharesOf(faults);
  const planned = planning({
    faults: faults.map((each, index) => ({ ...each, name: each.fault, share: shares[index]! })),
    signs,
    onlyCopy: copy !== 'seen',
  });
  let [doneMinutes, foundBy] = [0, 0];
  return {
    begin: planned.begin,
    steps: planned.steps.map(each => {
      doneMinutes += each.minutes;
      // Shares that add up to 1 may add up to a little more, in floating point.
      foundBy = Math.min(1, foundBy + each.chance);
      return { ...shown(each), doneMinutes, foundBy };
    }),
    expectedMinutes: planned.expectedMinutes,
    listedMinutes: planned.listedMinutes,
    held: planned.held.map(shown),
    heldBecause: planned.heldBecause,
    sharesGiven: faults[0]!.share !== undefined,
  };
}

const shown = ({ check, minutes, open, effect, looksFor }: Step) => ({
  check,
  minutes,
  open,
  effect,
  looksFor: looksFor.map(({ name }) => name),
});

function sharesOf(faults: PlanInput['faults']): number[] {
  const given = faults.flatMap(({ share }) => share ?? []);
  if (given.length === 0) return faults.map(() => 1 / faults.length);
  if (given.length < faults.length) {
    const without = faults.findIndex(({ share }) => share === undefined);
    throw new Impossible(`faults.${without}.share`, 'give every fault a share, or none');
  }
  const sum = given.reduce((total, share) => total + share, 0);
  if (sum === 0) throw new Impossible('faults.0.share', 'give at least one fault a share above 0');
  return given.map(share => share / sum);
}

/** The same words are the same check, so they must say the same of it. */
function refuseTwice(faults: PlanInput['faults']): void {
  const names = new Set<string>();
  const told = new Map<string, string>();
  faults.forEach(({ fault, checks }, at) => {
    if (names.has(fault)) throw new Impossible(`faults.${at}.fault`, `"${fault}" is listed twice`);
    names.add(fault);
    const own = new Set<string>();
    checks.forEach(({ check, minutes, open, effect }, place) => {
      const where = `faults.${at}.checks.${place}`;
      if (own.has(check)) throw new Impossible(where, `"${check}" is listed twice for this fault`);
      own.add(check);
      const facts = `${minutes} minutes, case ${open ? 'open' : 'closed'}, effect ${effect}`;
      const before = told.get(check);
      if (before !== undefined && before !== facts)
        throw new Impossible(where, `"${check}" is told in two ways: ${before}; and ${facts}`);
      told.set(check, facts);
    });
  });
}

export const plan: Working<PlanInput, PlanOutput> = {
  id: 'plan',
  title: 'the order of bench checks that finds a fault soonest, safety first',
  input: input as z.ZodType<PlanInput>,
  output,
  example: {
    faults: [
      {
        fault: 'drive failing',
        share: 5,
        failing: true,
        checks: [{ check: 'read the health counters', minutes: 10, effect: 'read' }],
      },
      {
        fault: 'lead loose inside',
        share: 3,
        checks: [
          { check: 'look whether the firmware lists the drive', minutes: 3, effect: 'start' },
          { check: 'seat both leads again', minutes: 10, open: true, effect: 'none' },
        ],
      },
      {
        fault: 'stick left in',
        share: 2,
        checks: [{ check: 'take out every stick, disc, card and dock', minutes: 1, effect: 'none' }],
      },
    ],
    copy: 'seen',
  },
  verdicts: BEGIN,
  work,
  verdict: ({ begin }) => begin,
  tell,
};
