/** How far along a conversation is, honestly: the fewest and the most questions that can still come, exactly. */
import { stepsOf } from './advance.ts';
import { holds, readsOf } from './condition.ts';
import type { Remaining } from './messages.ts';
import type { Consequence, Script, Step } from './script.ts';
import type { State } from './state.ts';

/** From a place on: the bounds by what the findings are when the segment runs to its end; `ends` where it never returns. */
interface Reach {
  ends: Remaining | null;
  returns: Remaining | null;
}

type Findings = Readonly<Record<string, string>>;

/** Bounds from the open question on, counting it, if nothing breaks in. Null between matters and after the outcome. */
export function remaining(script: Script, state: State): Remaining | null {
  if (state.outcome !== null || state.frames.length === 0) return null;
  const frames = state.frames.toReversed();
  const reaches = frames.map(frame => reachFrom(script, frame.segment, frame.at, state.findings));
  // An inner segment either ends it all or returns to the question it broke into.
  return (
    reaches.reduceRight<Remaining | null>((outer, { ends, returns }) => {
      const through = returns === null ? null : outer === null ? returns : plus(returns, outer);
      return either(ends, through);
    }, null) ?? { shortest: 0, longest: 0 }
  );
}

const known = new WeakMap<Script, Map<string, Reach>>();
const live = new WeakMap<Step[], string[][]>();

/** Steps only name later ones, so this ends; what was worked out once holds for every conversation on the script. */
function reachFrom(script: Script, segment: string, at: number, findings: Findings): Reach {
  const steps = stepsOf(script, segment);
  const step = steps[at];
  if (step === undefined) return { ends: null, returns: { shortest: 0, longest: 0 } };
  const memo = known.get(script) ?? new Map<string, Reach>();
  known.set(script, memo);
  const key = `${segment} ${at} ${readFrom(steps)
    [at]!.map(finding => findings[finding] ?? '')
    .join(' ')}`;
  const before = memo.get(key);
  if (before !== undefined) return before;
  const go = (to: number, then: Findings = findings) => reachFrom(script, segment, to, then);
  const reach = reachOf(steps, step, at, findings, go);
  memo.set(key, reach);
  return reach;
}

function reachOf(
  steps: Step[],
  step: Step,
  at: number,
  findings: Findings,
  go: (to: number, then?: Findings) => Reach,
): Reach {
  const place = (id: string) => {
    const index = steps.findIndex(each => each.id === id);
    return index === -1 ? steps.length : index;
  };
  const passes = holds(step.if, findings);
  if (step.kind === 'gate') return go(passes ? at + 1 : place(step.else));
  if (!passes) return go(at + 1);
  if (step.kind === 'hand-over' || step.kind === 'end')
    return { ends: { shortest: 0, longest: 0 }, returns: null };
  if (step.kind !== 'ask' && step.kind !== 'try') return go(at + 1);
  if (step.kind === 'ask' && step.finding in findings) return go(at + 1);
  return Object.entries(step.after)
    .map(([answer, after]): Reach => {
      if (step.kind === 'try' && answer === 'fixed' && !after.goes) return { ends: ONE, returns: null };
      const then = settled(findings, step.finding, answer, after);
      const { ends, returns } = go(after.goes ? place(after.goes) : at + 1, then);
      return { ends: ends && plus(ends, ONE), returns: returns && plus(returns, ONE) };
    })
    .reduce((one, other) => ({
      ends: either(one.ends, other.ends),
      returns: either(one.returns, other.returns),
    }));
}

const ONE: Remaining = { shortest: 1, longest: 1 };

function settled(findings: Findings, finding: string, answer: string, after: Consequence): Findings {
  const signs = Object.fromEntries([
    ...after.clears.map(sign => [sign, 'no']),
    ...after.raises.map(sign => [sign, 'yes']),
  ]);
  return { ...findings, [finding]: answer, ...after.sets, ...signs };
}

/** For every place the findings that something from there on reads. */
function readFrom(steps: Step[]): string[][] {
  const before = live.get(steps);
  if (before !== undefined) return before;
  const read = new Set<string>();
  const from: string[][] = [];
  for (let at = steps.length - 1; at >= 0; at--) {
    const step = steps[at]!;
    for (const { finding } of readsOf(step.if)) read.add(finding);
    if (step.kind === 'ask') read.add(step.finding);
    from[at] = [...read];
  }
  live.set(steps, from);
  return from;
}

const plus = (one: Remaining, other: Remaining): Remaining => ({
  shortest: one.shortest + other.shortest,
  longest: one.longest + other.longest,
});

function either(one: Remaining | null, other: Remaining | null): Remaining | null {
  if (one === null || other === null) return one ?? other;
  return { shortest: Math.min(one.shortest, other.shortest), longest: Math.max(one.longest, other.longest) };
}
