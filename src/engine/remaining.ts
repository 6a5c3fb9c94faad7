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

/** Bounds from the open question on, counting it. Takes every condition that the findings do not decide as open. */
export function remaining(script: Script, state: State): Remaining | null {
  if (state.outcome !== null || state.frames.length === 0) return null;
  const { shortest, longest } = state.frames.toReversed().reduce<Reach>((sum, frame) => {
    if (!sum.returns) return sum;
    const reach = reachOf(stepsOf(script, frame.segment), state.findings)[frame.at] ?? NOTHING;
    return {
      shortest: sum.shortest + reach.shortest,
      longest: sum.longest + reach.longest,
      returns: reach.returns,
    };
  }, NOTHING);
  const asked = state.answers.filter(({ fromOpening }) => !fromOpening).length;
  // The open question counts, whatever may be passed over behind it.
  const least = Math.max(1, shortest);
  return { shortest: least, longest: Math.min(longest, Math.max(least, MOST - asked)) };
}

/** For every step the bounds from there to the end of the segment, worked out backwards: steps only name later ones. */
function reachOf(steps: Step[], findings: State['findings']): Reach[] {
  const places = new Map(steps.map((step, index) => [step.id, index]));
  const twice = settledTwice(steps);
  const reach: Reach[] = [];
  reach[steps.length] = NOTHING;
  for (let at = steps.length - 1; at >= 0; at--) {
    const step = steps[at]!;
    const next = reach[at + 1]!;
    const to = (id: string) => reach[places.get(id) ?? steps.length]!;
    const truth = decided(step.if, findings);
    const passed = step.kind === 'gate' ? to(step.else) : next;
    const ways =
      truth === false
        ? [passed]
        : truth === null
          ? [passed, ...taken(step, next, to, findings, twice)]
          : taken(step, next, to, findings, twice);
    reach[at] = {
      shortest: Math.min(...ways.map(way => way.shortest)),
      longest: Math.max(...ways.map(way => way.longest)),
      returns: ways.some(way => way.returns),
    };
  }
  return reach;
}

/** Findings that more than one step can settle. */
function settledTwice(steps: Step[]): Set<string> {
  const seen = new Set<string>();
  const twice = new Set<string>();
  for (const step of steps) {
    if (step.kind !== 'ask' && step.kind !== 'try') continue;
    const own = new Set([
      step.finding,
      ...Object.values(step.after).flatMap(({ sets }) => Object.keys(sets)),
    ]);
    for (const finding of own) (seen.has(finding) ? twice : seen).add(finding);
  }
  return twice;
}

function taken(
  step: Step,
  next: Reach,
  to: (id: string) => Reach,
  findings: State['findings'],
  twice: ReadonlySet<string>,
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
      const passed = step.kind === 'ask' && twice.has(step.finding) ? [next] : [];
      const asked = Object.entries(step.after).map(([answer, then]) => {
        const after = then.goes ? to(then.goes) : step.kind === 'try' && answer === 'fixed' ? ends : next;
        return { ...after, shortest: after.shortest + 1, longest: after.longest + 1 };
      });
      return [...passed, ...asked];
    }
    default:
      return [next];
  }
}
