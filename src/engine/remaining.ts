/** How far along a conversation is, honestly: the fewest and the most questions that can still come. */
import { stepsOf } from './advance.ts';
import { decided } from './condition.ts';
import type { Remaining } from './messages.ts';
import type { Script, Step } from './script.ts';
import type { State } from './state.ts';

interface Reach extends Remaining {
  /** Can the segment run to its end and return? */
  returns: boolean;
}

const NOTHING: Reach = { shortest: 0, longest: 0, returns: true };

/** Every path ends within so many questions; the checker proves it. */
const MOST = 25;

/**
 * Bounds from the open question on, counting it. Takes every condition that the findings do not decide as open.
 * `most`: questions of the longest conversation on this script, where it is known.
 */
export function remaining(script: Script, state: State, most = MOST): Remaining | null {
  if (state.outcome !== null || state.frames.length === 0) return null;
  // What an inner segment asks may be known by the time an outer one goes on.
  const settled = new Set<string>();
  const { shortest, longest } = state.frames.toReversed().reduce<Reach>((sum, { segment, at }) => {
    if (!sum.returns) return sum;
    const reach = reachOf(stepsOf(script, segment), at, state.findings, settled)[at] ?? NOTHING;
    return {
      shortest: sum.shortest + reach.shortest,
      longest: sum.longest + reach.longest,
      returns: reach.returns,
    };
  }, NOTHING);
  const asked = state.answers.filter(({ fromOpening }) => !fromOpening).length;
  // The open question counts, whatever may be passed over behind it.
  const least = Math.max(1, shortest);
  return { shortest: least, longest: Math.min(longest, Math.max(least, most - asked)) };
}

/** For every step the bounds from there to the end of the segment, worked out backwards: steps only name later ones. */
function reachOf(steps: Step[], from: number, findings: State['findings'], settled: Set<string>): Reach[] {
  const places = new Map(steps.map((step, index) => [step.id, index]));
  const maybe = maybeSettled(steps, from, settled);
  const reach: Reach[] = [];
  reach[steps.length] = NOTHING;
  for (let at = steps.length - 1; at >= from; at--) {
    const step = steps[at]!;
    const next = reach[at + 1]!;
    const to = (id: string) => reach[places.get(id) ?? steps.length]!;
    const truth = decided(step.if, findings);
    const passed = step.kind === 'gate' ? to(step.else) : next;
    const ways =
      truth === false
        ? [passed]
        : truth === null
          ? [passed, ...taken(step, next, to, findings, maybe.has(at))]
          : taken(step, next, to, findings, maybe.has(at));
    reach[at] = {
      shortest: Math.min(...ways.map(way => way.shortest)),
      longest: Math.max(...ways.map(way => way.longest)),
      returns: ways.some(way => way.returns),
    };
  }
  return reach;
}

/** Places from `from` on whose finding another step before them, but not before `from`, can have settled. Adds to `settled`. */
function maybeSettled(steps: Step[], from: number, settled: Set<string>): Set<number> {
  const maybe = new Set<number>();
  for (let at = from; at < steps.length; at++) {
    const step = steps[at]!;
    if (step.kind !== 'ask' && step.kind !== 'try') continue;
    if (settled.has(step.finding)) maybe.add(at);
    settled.add(step.finding);
    for (const { sets } of Object.values(step.after))
      for (const finding of Object.keys(sets)) settled.add(finding);
  }
  return maybe;
}

function taken(
  step: Step,
  next: Reach,
  to: (id: string) => Reach,
  findings: State['findings'],
  maybeKnown: boolean,
): Reach[] {
  switch (step.kind) {
    case 'hand-over':
    case 'end':
      return [{ ...NOTHING, returns: false }];
    case 'ask':
    case 'try': {
      if (step.kind === 'ask' && step.finding in findings) return [next];
      const ends: Reach = { ...NOTHING, returns: false };
      // What another step may have settled by then is not asked again.
      const passed = step.kind === 'ask' && maybeKnown ? [next] : [];
      const asked = Object.entries(step.after).map(([answer, then]) => {
        const after = then.goes ? to(then.goes) : step.kind === 'try' && answer === 'fixed' ? ends : next;
        return { ...after, shortest: after.shortest + 1, longest: after.longest + 1 };
      });
      return [...passed, ...asked];
    }
    case 'work':
      return Object.values(step.verdicts).map(({ goes }) => (goes === null ? next : to(goes)));
    default:
      return [next];
  }
}
