/** The sets that an array is made of: each bears so many failures, and the array is lost with the first set that is. */
import { Impossible } from '../working.ts';

export const LEVELS = ['0', '1', '5', '6', '10', '50', '60'] as const;
export type Level = (typeof LEVELS)[number];

/** Members are numbered from 1. */
export interface MemberSet {
  members: number[];
  /** Failures that it bears. */
  bears: number;
}

/**
 * Fewest members: Red Hat, "Supported RAID types" (2, 2, 3, 4, 4); 50 and 60 are two sets of those (a public table, read in a
 * copy).
 */
const LEAST = { '0': 2, '1': 2, '5': 3, '6': 4, '10': 4, '50': 6, '60': 8 } as const;
const LEAST_IN_SET = { '10': 2, '50': 3, '60': 4 } as const;

/** `given`: sets as numbers of members; for 50 and 60 `groups` instead. Else neighbours are assumed, and that is said. */
export function setsOf(
  level: Level,
  count: number,
  given: number[][] | undefined,
  groups: number | undefined,
): { sets: MemberSet[]; assumed: boolean } {
  if (count < LEAST[level]) throw new Impossible('members', `RAID ${level} needs ${LEAST[level]} or more`);
  const nested = level === '10' || level === '50' || level === '60';
  if (!nested) {
    if (given !== undefined) throw new Impossible('sets', `RAID ${level} has no sets; leave them out`);
    if (groups !== undefined) throw new Impossible('groups', `RAID ${level} has no sets; leave them out`);
    const bears = { '0': 0, '1': count - 1, '5': 1, '6': 2 }[level];
    return { sets: [{ members: numbered(1, count), bears }], assumed: false };
  }
  const split = given ?? neighbours(level, count, groups);
  const seen = split.flat().toSorted((a, b) => a - b);
  if (seen.length !== count || seen.some((member, place) => member !== place + 1))
    throw new Impossible('sets', `name each member from 1 to ${count} in exactly one set`);
  const small = split.find(set => set.length < LEAST_IN_SET[level]);
  if (small !== undefined)
    throw new Impossible('sets', `a set of RAID ${level} has ${LEAST_IN_SET[level]} members or more`);
  if (split.length < 2) throw new Impossible('sets', `RAID ${level} has two sets or more`);
  const bears = ({ length }: number[]) => ({ '10': length - 1, '50': 1, '60': 2 })[level];
  return { sets: split.map(members => ({ members, bears: bears(members) })), assumed: given === undefined };
}

function neighbours(level: '10' | '50' | '60', count: number, groups: number | undefined): number[][] {
  const sets = groups ?? (level === '10' ? count / 2 : 2);
  const size = count / sets;
  if (!Number.isInteger(sets) || !Number.isInteger(size))
    throw new Impossible(
      'members',
      level === '10' && groups === undefined
        ? 'RAID 10 has an even number, or give its sets'
        : `${count} members do not make ${groups ?? 2} sets of the same size; give the sets`,
    );
  return Array.from({ length: sets }, (_, set) => numbered(set * size + 1, size));
}

const numbered = (from: number, count: number): number[] =>
  Array.from({ length: count }, (_, place) => from + place);
