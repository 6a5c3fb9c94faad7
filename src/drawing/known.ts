/** What is known on the way to a step: each finding that is still read, with the values it may have there. */
import { isAll, isAny, isNot, readsOf } from '#engine/condition.ts';
import type { Condition, FlowStep } from '#engine/schema.ts';
import { SIGNS } from '#engine/schema.ts';
import type { Written } from './written.ts';

/** Stands for a finding that nothing has set yet; no value of a flow is empty. */
export const UNSET = '';

/** One way to have come here. */
export type Way = ReadonlyMap<string, ReadonlySet<string>>;

/** More ways than these are drawn together into one that allows all of theirs: an arrow too many, never one too few. */
const MOST_WAYS = 400;

export interface Split {
  holds: Way[];
  fails: Way[];
}

/** The ways on which `when` holds and those on which it does not; read left to right, as the engine does. */
export function split(when: Condition | null | undefined, ways: Way[]): Split {
  if (when === null || when === undefined) return { holds: ways, fails: [] };
  if (isAll(when)) return every(when.all, ways);
  if (isAny(when)) {
    const { holds, fails } = every(
      when.any.map(not => ({ not })),
      ways,
    );
    return { holds: fails, fails: holds };
  }
  if (isNot(when)) {
    const { holds, fails } = split(when.not, ways);
    return { holds: fails, fails: holds };
  }
  const parts = Object.entries(when as Record<string, string | string[]>);
  return inTurn(ways, parts, (rest, [finding, wanted]) => splitOn(finding, [wanted].flat(), rest));
}

const every = (parts: Condition[], ways: Way[]): Split =>
  inTurn(ways, parts, (rest, part) => split(part, rest));

function inTurn<T>(ways: Way[], parts: T[], one: (rest: Way[], part: T) => Split): Split {
  let holds = ways;
  const fails: Way[] = [];
  for (const part of parts) {
    const next = one(holds, part);
    holds = next.holds;
    fails.push(...next.fails);
  }
  return { holds, fails };
}

export function splitOn(finding: string, values: readonly string[], ways: Way[]): Split {
  const holds: Way[] = [];
  const fails: Way[] = [];
  for (const way of ways) {
    const possible = way.get(finding) ?? new Set([UNSET]);
    const inside = [...possible].filter(value => values.includes(value));
    const outside = [...possible].filter(value => !values.includes(value));
    if (inside.length > 0) holds.push(withValues(way, finding, inside));
    if (outside.length > 0) fails.push(withValues(way, finding, outside));
  }
  return { holds, fails };
}

export const withValues = (way: Way, finding: string, values: readonly string[]): Way =>
  new Map(way).set(finding, new Set(values));

/** Only what is still read counts, and each way once. */
export function gathered(ways: Way[], read: ReadonlySet<string>): Way[] {
  const kept = new Map<string, Way>();
  for (const way of ways) {
    const rest = new Map(
      [...way].filter(([finding]) => read.has(finding)).sort(([a], [b]) => (a < b ? -1 : 1)),
    );
    kept.set(JSON.stringify([...rest].map(([finding, values]) => [finding, [...values].sort()])), rest);
  }
  const all = [...kept.values()];
  if (all.length <= MOST_WAYS) return all;
  const together = new Map<string, Set<string>>();
  for (const finding of read) {
    together.set(finding, new Set(all.flatMap(way => [...(way.get(finding) ?? [UNSET])])));
  }
  return [together];
}

/** Findings that these steps read, blocks included: in conditions, and as a question that is not asked twice. */
export function readBy(steps: readonly FlowStep[], written: Written): Set<string> {
  return new Set(
    flat(steps, written).flatMap(step => [
      ...readsOf((step.if ?? null) as Condition | null).map(({ finding }) => finding),
      ...('ask' in step ? [step.as ?? step.id] : []),
    ]),
  );
}

/**
 * Where a drawing starts. A flow begins with no sign and any policy. A block may be visited from anywhere: what it asks is
 * still open, and whatever else it reads may have any value.
 */
export function beginning(steps: readonly FlowStep[], written: Written, anywhere: boolean): Way {
  const values = new Map<string, Set<string>>();
  const add = (finding: string, more: readonly string[]) =>
    values.set(finding, new Set([...(values.get(finding) ?? []), ...more]));
  const all = flat(steps, written);
  const own = new Set(
    all.flatMap(step =>
      'ask' in step ? [step.as ?? step.id] : 'try' in step || 'work_out' in step ? [step.id] : [],
    ),
  );
  for (const { finding, values: read } of all.flatMap(step =>
    readsOf((step.if ?? null) as Condition | null),
  )) {
    if (finding.startsWith('policy.')) add(finding, written.policies[finding.slice(7)] ?? read);
    else if (anywhere && !own.has(finding)) add(finding, [...read, UNSET]);
  }
  for (const sign of SIGNS) values.set(sign, new Set(anywhere ? ['no', 'yes'] : ['no']));
  return values;
}

function flat(steps: readonly FlowStep[], written: Written, inside: readonly string[] = []): FlowStep[] {
  return steps.flatMap(step => {
    if (!('visit' in step) || inside.includes(step.visit)) return [step];
    return [step, ...flat(written.blocks[step.visit]?.steps ?? [], written, [...inside, step.visit])];
  });
}
