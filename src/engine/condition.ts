import type { Condition } from './schema.ts';

/** A finding that a condition reads and that nothing has set. The checker reports it; the engine takes it as not holding. */
export interface Unset {
  finding: string;
}

type Findings = Readonly<Record<string, string>>;

/**
 * Does the condition hold? Read left to right and no further than needed, so a later finding may depend on an
 * earlier one. `onUnset` hears of each finding read that has no value.
 */
export function holds(when: Condition | null, findings: Findings, onUnset?: (unset: Unset) => void): boolean {
  if (when === null) return true;
  if (isAll(when)) return when.all.every(part => holds(part, findings, onUnset));
  if (isAny(when)) return when.any.some(part => holds(part, findings, onUnset));
  if (isNot(when)) return !holds(when.not, findings, onUnset);
  for (const finding in when) {
    const wanted = when[finding];
    const value = findings[finding];
    if (value === undefined) {
      onUnset?.({ finding });
      return false;
    }
    if (Array.isArray(wanted) ? !wanted.includes(value) : wanted !== value) return false;
  }
  return true;
}

export interface Read {
  finding: string;
  /** That it is compared with. */
  values: readonly string[];
}

/** Conditions never change, and the checker asks for their parts again and again. */
const reads = new WeakMap<Condition, readonly Read[]>();

/** Every finding named in a condition. */
export function readsOf(when: Condition | null): readonly Read[] {
  if (when === null) return [];
  const known = reads.get(when);
  if (known !== undefined) return known;
  const found = readIn(when);
  reads.set(when, found);
  return found;
}

function readIn(when: Condition): readonly Read[] {
  if (isAll(when)) return when.all.flatMap(readsOf);
  if (isAny(when)) return when.any.flatMap(readsOf);
  if (isNot(when)) return readsOf(when.not);
  return Object.entries(when).map(([finding, wanted]) => ({ finding, values: [wanted].flat() }));
}

/** true or false where the findings so far decide it whatever is answered later, else null. */
export function decided(when: Condition | null, findings: Findings): boolean | null {
  if (when === null) return true;
  if (isAll(when)) return every(when.all.map(part => decided(part, findings)));
  if (isAny(when)) return invert(every(when.any.map(part => invert(decided(part, findings)))));
  if (isNot(when)) return invert(decided(when.not, findings));
  return every(
    Object.entries(when).map(([finding, wanted]) => {
      const value = findings[finding];
      return value === undefined ? null : [wanted].flat().includes(value);
    }),
  );
}

const invert = (truth: boolean | null) => (truth === null ? null : !truth);
const every = (truths: (boolean | null)[]) =>
  truths.includes(false) ? false : truths.includes(null) ? null : true;

export const isAll = (when: Condition): when is { all: Condition[] } =>
  Array.isArray((when as { all?: unknown }).all) && typeof (when as { all: unknown[] }).all[0] === 'object';
export const isAny = (when: Condition): when is { any: Condition[] } =>
  Array.isArray((when as { any?: unknown }).any) && typeof (when as { any: unknown[] }).any[0] === 'object';
export const isNot = (when: Condition): when is { not: Condition } => {
  const not = (when as { not?: unknown }).not;
  return typeof not === 'object' && not !== null && !Array.isArray(not);
};
