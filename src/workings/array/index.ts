/**
 * Where an array stands, what it bears, and in which order to work: RAID 0, 1, 5, 6, 10, 50, 60.
 *
 * Members are numbered from 1; terabytes are 10^12 bytes, rates megabytes (10^6) a second. A failed or rebuilding member bears
 * nothing. Capacity: every member counts as the smallest (the simple rule; some systems use the rest). Chance of an unreadable
 * sector: 1 - (1 - b)^bits, worked out so that small b keep their digits. Mean time to data loss: exact mean of the Markov
 * chain with one repair at a time; striped sets divide it by their number (Patterson, Gibson and Katz, SIGMOD 1988; Chen and
 * others, ACM Computing Surveys 26, 1994). Errors: impossible members, sets that do not fit, a member named twice.
 */
import { z } from 'zod';
import { Impossible, number, oneOf, type Working, whole } from '../working.ts';
import { fatal, type Left, leftOf, meanHoursToLoss, surelySurvived } from './chances.ts';
import { LEVELS, type MemberSet, setsOf } from './sets.ts';
import { advice, tell } from './tell.ts';

const MOST = 512;
/** Longer than the universe has lasted, in hours. */
const MOST_HOURS = 1e14;
const member = whole(`the number of a member, from 1 to ${MOST}`, 1, MOST);
const someMembers = z
  .array(member, { error: 'give a list of member numbers, such as 1,3' })
  .max(MOST, `give at most ${MOST}`);

const input = z.strictObject({
  level: oneOf(LEVELS),
  members: whole(`members, from 2 to ${MOST}`, 2, MOST),
  failed: someMembers.default([]),
  /** Instead of `failed`, where nobody knows which: so many are down. */
  failedCount: whole(`failed members, from 0 to ${MOST}`, 0, MOST).optional(),
  /** Still working, with errors. */
  suspect: someMembers.default([]),
  rebuilding: someMembers.default([]),
  /** Mirrors of RAID 10, groups of 50 and 60, as lists of member numbers. Neighbours are assumed when not given. */
  sets: z
    .array(someMembers, { error: 'give a list of sets, each a list of member numbers' })
    .max(MOST, `give at most ${MOST}`)
    .optional(),
  groups: whole(`groups, from 2 to ${MOST}`, 2, MOST).optional(),
  /** True: members are numbered set by set, so neighbours are the real sets. */
  setBySet: z.boolean({ error: 'give true or false' }).default(false),
  spares: whole('spares, from 0 to 100', 0, 100).default(0),
  /** False: it did not come up. */
  started: z.boolean({ error: 'give true or false' }).default(true),
  copy: oneOf(['seen', 'believed', 'nowhere', 'not-sure']).default('not-sure'),
  /** One for all, or one for each member. */
  capacityTB: z
    .union(
      [
        number('terabytes, from 0.001 to 1000', 0.001, 1000),
        z.array(number('terabytes, from 0.001 to 1000', 0.001, 1000)).max(MOST),
      ],
      { error: 'give terabytes, one figure or one for each member' },
    )
    .optional(),
  rebuildMBps: number('megabytes a second, from 0.1 to 20000', 0.1, 20_000).default(150),
  /** Unreadable bits for each bit read, as the datasheet bounds it. */
  unreadable: number('a rate from 1e-20 to 1e-9, such as 1e-14', 1e-20, 1e-9).default(1e-14),
  mttfHours: number('hours, from 100 to 100000000', 100, 1e8).default(1_000_000),
  /** Until a failed member is replaced and rebuilt. */
  repairHours: number('hours, from 0.01 to 10000', 0.01, 10_000).optional(),
  more: whole('further failures, from 1 to 20', 1, 20).default(3),
});
export type ArrayInput = z.infer<typeof input>;

export const VERDICTS = ['healthy', 'degraded', 'no-margin', 'lost', 'did-not-start'] as const;
type Standing = (typeof VERDICTS)[number];

const output = z.object({
  standing: z.enum(VERDICTS),
  /** Where it would stand if every suspect failed too. */
  ifSuspectsFail: z.enum(VERDICTS),
  /** Sets that bear no more, and those that are lost, as their members; empty where nobody knows which members failed. */
  setsWithoutMargin: z.array(z.array(z.int())),
  setsLost: z.array(z.array(z.int())),
  setsAssumed: z.boolean(),
  /** Further failures that are certain to be survived. */
  surelySurvived: z.int(),
  /** Chance that so many further failures at once are fatal, for 1, 2 and so on. */
  fatalChance: z.array(z.number()),
  /** Members whose failure next would be fatal; empty where nobody knows which failed. */
  fatalMembers: z.array(z.int()),
  usableTB: z.number().nullable(),
  rebuildHours: z.number().nullable(),
  /** Chance of meeting an unreadable sector while one member is rebuilt, and whether that costs data. */
  unreadableChance: z.number().nullable(),
  unreadableCosts: z.boolean(),
  /** Null where the model gives more than a figure can mean. */
  meanHoursToLoss: z.number().nullable(),
  advice: z.array(z.string()),
});
export type ArrayOutput = z.infer<typeof output>;

function standingOf(sets: readonly MemberSet[], down: ReadonlySet<number>, started: boolean): Standing {
  const left = sets.map(set => leftOf(set, down));
  if (left.some(({ bears }) => bears < 0)) return 'lost';
  if (!started) return 'did-not-start';
  if (down.size === 0) return 'healthy';
  return left.some(({ bears }) => bears === 0) ? 'no-margin' : 'degraded';
}

function work(given: ArrayInput): ArrayOutput {
  const {
    level,
    members,
    failed,
    suspect,
    rebuilding,
    started,
    spares,
    rebuildMBps,
    unreadable,
    mttfHours,
    more,
  } = given;
  for (const [field, list] of [
    ['failed', failed],
    ['suspect', suspect],
    ['rebuilding', rebuilding],
  ] as const) {
    const beyond = list.find(each => each > members);
    if (beyond !== undefined) throw new Impossible(field, `there is no member ${beyond}: it has ${members}`);
  }
  const named = [...failed, ...suspect, ...rebuilding];
  const twice = named.find((each, place) => named.indexOf(each) !== place);
  if (twice !== undefined)
    throw new Impossible(
      'failed',
      `member ${twice} is named twice: it is failed, suspect or rebuilding, and once`,
    );
  const { sets, assumed } = setsOf(level, members, given.sets, given.groups);
  const counted = given.failedCount !== undefined;
  const down = counted ? anyOf(given, sets) : new Set([...failed, ...rebuilding]);
  const left = sets.map(set => leftOf(set, down));
  const standing = standingOf(sets, down, started);
  const tb = capacityOf(given);
  const largest = sets.toSorted((a, b) => b.members.length - a.members.length)[0]!;
  const mirrored = level === '1' || level === '10';
  const readTB = tb === null ? null : tb * (mirrored ? 1 : largest.members.length - 1);
  const rebuildHours = tb === null || level === '0' ? null : (tb * 1_000_000) / rebuildMBps / 3600;
  const repairHours = given.repairHours ?? (rebuildHours ?? 24) + (spares > 0 ? 0 : 24);
  const hours =
    Math.min(...sets.map(set => meanHoursToLoss(set.members.length, set.bears, mttfHours, repairHours))) /
    sets.length;
  const result = {
    standing,
    ifSuspectsFail: standingOf(sets, new Set([...down, ...suspect]), started),
    setsWithoutMargin: sets
      .filter((_, place) => !counted && level !== '0' && left[place]!.bears === 0)
      .map(each => each.members),
    setsLost: sets.filter((_, place) => !counted && left[place]!.bears < 0).map(each => each.members),
    setsAssumed: assumed && !given.setBySet,
    surelySurvived: surelySurvived(left),
    fatalChance: chancesOf(left, more),
    fatalMembers: sets.flatMap((set, place) =>
      !counted && left[place]!.bears <= 0 ? set.members.filter(each => !down.has(each)) : [],
    ),
    usableTB: tb === null ? null : usable(sets, level, tb),
    rebuildHours,
    unreadableChance:
      readTB === null || level === '0' ? null : -Math.expm1(readTB * 8e12 * Math.log1p(-unreadable)),
    unreadableCosts: level === '0' || Math.min(...left.map(({ bears }) => bears)) <= 0 || largest.bears <= 1,
    meanHoursToLoss: hours <= MOST_HOURS ? hours : null,
  };
  return { ...result, advice: advice(result, given) };
}

/** So many members down, any of them: refused where it matters which. */
function anyOf(
  { failedCount = 0, failed, suspect, rebuilding, members, started }: ArrayInput,
  sets: readonly MemberSet[],
): Set<number> {
  const fix = (why: string) => new Impossible('failedCount', why);
  if (failed.length + suspect.length + rebuilding.length > 0)
    throw fix('give either the number of failed members or which ones are failed, suspect or rebuilding');
  if (failedCount > members) throw fix(`it has only ${members} members`);
  if (sets.some(set => set.members.length !== sets[0]!.members.length))
    throw fix('its sets differ in size, so it matters which members failed: give `failed`');
  const together = sets.flatMap(set => set.members);
  const apart = together.toSorted((a, b) => placeIn(sets, a) - placeIn(sets, b));
  const [worst, best] = [together, apart].map(order => new Set(order.slice(0, failedCount)));
  if (standingOf(sets, worst!, started) !== standingOf(sets, best!, started))
    throw fix('it matters which members failed: give `failed`');
  return worst!;
}

const placeIn = (sets: readonly MemberSet[], member: number): number =>
  Math.max(...sets.map(set => set.members.indexOf(member)));

function chancesOf(left: readonly Left[], more: number): number[] {
  const working = left.reduce((sum, each) => sum + each.working, 0);
  return Array.from({ length: Math.min(more, working) }, (_, place) => fatal(left, place + 1));
}

/** Of the smallest member; the rest of larger ones is not counted. */
function capacityOf({ capacityTB, members }: ArrayInput): number | null {
  if (capacityTB === undefined) return null;
  if (typeof capacityTB === 'number') return capacityTB;
  if (capacityTB.length !== members)
    throw new Impossible('capacityTB', `give one figure, or one for each of the ${members} members`);
  return Math.min(...capacityTB);
}

function usable(sets: readonly MemberSet[], level: ArrayInput['level'], tb: number): number {
  if (level === '1') return tb;
  if (level === '10') return tb * sets.length;
  return tb * sets.reduce((sum, { members, bears }) => sum + members.length - bears, 0);
}

export const array: Working<ArrayInput, ArrayOutput> = {
  id: 'array',
  title: 'where an array stands, what it still bears, and in which order to work',
  input: input as z.ZodType<ArrayInput>,
  output,
  example: { level: '5', members: 6, failed: [3], suspect: [5], capacityTB: 8, spares: 1, copy: 'not-sure' },
  verdicts: VERDICTS,
  work,
  // Whole, and still the next failure ends it: RAID 0.
  verdict: ({ standing, surelySurvived: sure }) =>
    standing === 'healthy' && sure === 0 ? 'no-margin' : standing,
  tell,
};
