/** Where does a damage make a difference? As a condition, so that the checker itself can look for such a conversation. */
import type { Cut } from './cuts.ts';
import type { Raw } from './sources.ts';

/** The id of words that are said where it does. */
export const PROBE = 'damaged-probe';

const ALWAYS = { danger: ['no', 'yes'] };
const NEVER = { not: ALWAYS };

/** How a conversation ends, but for the words. */
type Ending = string;

/** The condition under which the damage at `index` makes a difference there; null where no condition can tell. */
export function probeFor(steps: Raw[], index: number, cut: Cut): Raw | null {
  const damaged = structuredClone(steps);
  cut(damaged, index);
  const [step, other] = [steps[index], damaged[index]];
  const leftOut = damaged.length === steps.length - 1;
  const replaced = damaged.length === steps.length && endingOf(other) !== null;
  if (endingOf(step) !== null && (leftOut || replaced)) {
    return endingDiffers(endsFrom(steps, index), endsFrom(damaged, index));
  }
  return damaged.length === steps.length && isSameBut(step, other) ? differs(when(step), when(other)) : null;
}

/** Is the condition all that changed? */
const isSameBut = ({ if: _before, ...step }: Raw, { if: _after, ...other }: Raw): boolean =>
  JSON.stringify(step) === JSON.stringify(other);

const when = (step: Raw): Raw => step.if ?? ALWAYS;

const differs = (before: Raw, after: Raw): Raw => ({
  any: [{ all: [before, { not: after }] }, { all: [after, { not: before }] }],
});

const endingOf = (step: Raw): Ending | null =>
  step?.hand_over ? `hand-over ${step.hand_over.keep ?? ''}` : step?.end ? `end ${step.end}` : null;

/** From a step on, under which conditions each ending is come to; whatever follows behind the endings is one more. */
function endsFrom(steps: Raw[], index: number): Map<Ending, Raw[]> {
  const ends = new Map<Ending, Raw[]>();
  const passed: Raw[] = [];
  const add = (ending: Ending, condition: Raw) => {
    const way = { all: [condition, ...passed.map(not => ({ not }))] };
    ends.set(ending, [...(ends.get(ending) ?? []), way]);
    passed.push(condition);
  };
  for (const step of steps.slice(index)) {
    const ending = endingOf(step);
    if (ending === null) break;
    add(ending, when(step));
  }
  add('goes on', ALWAYS);
  return ends;
}

function endingDiffers(before: Map<Ending, Raw[]>, after: Map<Ending, Raw[]>): Raw {
  const pairs = [...before].flatMap(([ending, ways]) =>
    [...after]
      .filter(([other]) => other !== ending)
      .map(([, others]) => ({ all: [{ any: ways }, { any: others }] })),
  );
  return pairs.length === 0 ? NEVER : { any: pairs };
}
