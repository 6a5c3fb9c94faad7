/** From every step to those that can follow it, worked out from the file: an arrow stands for at least one conversation. */
import { type FlowStep, SIGNS, type Sign } from '#engine/schema.ts';
import { URGENT } from '#engine/state.ts';
import { answersOf, isBranching } from './answers.ts';
import { gathered, readBy, split, splitOn, UNSET, type Way, withValues } from './known.ts';
import type { Written } from './written.ts';

/** How a step is left: by an answer, without one, or past it because its condition does not hold. */
export type Exit = { answer: string } | 'on' | 'past';

export interface Arrow {
  from: number;
  exit: Exit;
  /** Index of the step it leads to, or how it ends: `out` past the last step of the file. */
  to: number | 'out' | 'fixed' | 'hand-over';
}

/** What a block may do beside coming back. */
export interface Inside {
  raises: Set<Sign>;
  ends: Set<'fixed' | 'hand-over' | 'end'>;
  /** Does it ever come back? */
  returns: boolean;
}

export interface Passage {
  arrows: Arrow[];
  /** Steps that no answers in this file lead to. */
  unreached: Set<number>;
  /** By index of a visit. */
  inside: Map<number, Inside>;
  /** Ways on which the file is left past its last step. */
  out: Way[];
}

export function passageOf(
  steps: readonly FlowStep[],
  start: Way[],
  written: Written,
  readLater: ReadonlySet<string> = new Set(),
  visiting: readonly string[] = [],
): Passage {
  const arriving: Way[][] = steps.map(() => []);
  const passage: Passage = { arrows: [], unreached: new Set(), inside: new Map(), out: [] };
  const read = steps.map(
    (_, index) => new Set([...SIGNS, ...readLater, ...readBy(steps.slice(index), written)]),
  );

  const lead = (from: number, exit: Exit, ways: Way[], next: number): void => {
    let rest = ways;
    for (let to = next; to < steps.length && rest.length > 0; to++) {
      const { taken, passed } = enter(steps[to]!, rest);
      if (taken.length === 0) continue;
      // Where some of these ways go past the step, they do so through its own condition, which shows why.
      arriving[to]!.push(...rest);
      if (from >= 0) passage.arrows.push({ from, exit, to });
      if (passed.length > 0 || taken.length > 0) return;
      rest = passed;
    }
    if (rest.length === 0) return;
    passage.out.push(...rest);
    if (from >= 0) passage.arrows.push({ from, exit, to: 'out' });
  };

  lead(-1, 'on', start, 0);
  steps.forEach((step, index) => {
    const ways = gathered(arriving[index]!, read[index]!);
    const { taken, passed } = enter(step, ways);
    if (passed.length > 0) lead(index, 'past', passed, index + 1);
    if (taken.length === 0) {
      passage.unreached.add(index);
      passage.arrows.push(...asWritten(step, index, steps, written));
      return;
    }
    if (isBranching(step)) {
      for (const { id } of answersOf(step, written)) {
        const answered = taken.map(way => answer(step, id, way));
        const goes = step.goes?.[id];
        if ('try' in step && step.fixed !== undefined && id === 'fixed' && goes === undefined) {
          for (const to of endsOfFixed(answered))
            passage.arrows.push({ from: index, exit: { answer: id }, to });
        } else {
          lead(index, { answer: id }, answered, goes === undefined ? index + 1 : placeOf(goes, steps));
        }
      }
    } else if ('visit' in step) {
      const block = written.blocks[step.visit];
      if (block === undefined || visiting.includes(step.visit)) {
        lead(index, 'on', taken, index + 1);
        return;
      }
      const later = read[index + 1] ?? new Set([...SIGNS, ...readLater]);
      const visit = passageOf(block.steps, taken, written, later, [...visiting, step.visit]);
      passage.inside.set(index, insideOf(block.steps, visit));
      lead(index, 'on', gathered(visit.out, later), index + 1);
    } else if (!('hand_over' in step || 'end' in step)) {
      lead(index, 'on', taken, index + 1);
    }
  });
  return passage;
}

/** A question whose finding is known already is passed over like one whose condition fails. */
function enter(step: FlowStep, ways: Way[]): { taken: Way[]; passed: Way[] } {
  const { holds, fails } = split(step.if, ways);
  if (!('ask' in step)) return { taken: holds, passed: fails };
  const { holds: open, fails: known } = splitOn(step.as ?? step.id, [UNSET], holds);
  return { taken: open, passed: [...fails, ...known] };
}

function answer(step: Extract<FlowStep, { id: string }>, id: string, way: Way): Way {
  if (!isBranching(step)) return way;
  let after = withValues(way, 'ask' in step ? (step.as ?? step.id) : step.id, [id]);
  for (const [finding, value] of Object.entries(step.sets?.[id] ?? {}))
    after = withValues(after, finding, [value]);
  for (const sign of step.clears?.[id] ?? []) after = withValues(after, sign, ['no']);
  for (const sign of step.raises?.[id] ?? []) after = withValues(after, sign, ['yes']);
  return after;
}

/** A failing device is never called fixed: what works again under such a sign is handed over all the same. */
function endsOfFixed(ways: Way[]): ('fixed' | 'hand-over')[] {
  const grave = (way: Way) => URGENT.some(sign => way.get(sign)?.size === 1 && way.get(sign)?.has('yes'));
  return ways.every(grave) ? ['hand-over'] : ['fixed'];
}

/** Of a step that nothing leads to: on to the next one. */
function asWritten(step: FlowStep, index: number, steps: readonly FlowStep[], written: Written): Arrow[] {
  const place = (to: number) => (to < steps.length ? to : 'out');
  if ('hand_over' in step || 'end' in step) return [];
  if (!isBranching(step)) return [{ from: index, exit: 'on', to: place(index + 1) }];
  return answersOf(step, written).map(({ id }): Arrow => {
    const goes = step.goes?.[id];
    const fixes = 'try' in step && step.fixed !== undefined && id === 'fixed' && goes === undefined;
    const to = fixes ? 'fixed' : place(goes === undefined ? index + 1 : placeOf(goes, steps));
    return { from: index, exit: { answer: id }, to };
  });
}

function placeOf(name: string, steps: readonly FlowStep[]): number {
  const place = steps.findIndex(
    step => ('id' in step && step.id ? step.id : 'visit' in step ? step.visit : '') === name,
  );
  return place === -1 ? steps.length : place;
}

function insideOf(steps: readonly FlowStep[], { arrows, unreached, inside, out }: Passage): Inside {
  const raises = new Set<Sign>();
  const ends = new Set<'fixed' | 'hand-over' | 'end'>();
  steps.forEach((step, index) => {
    if (unreached.has(index)) return;
    if ('hand_over' in step) ends.add('hand-over');
    if ('end' in step) ends.add('end');
    if (isBranching(step)) for (const sign of Object.values(step.raises ?? {}).flat()) raises.add(sign);
    for (const sign of inside.get(index)?.raises ?? []) raises.add(sign);
    for (const end of inside.get(index)?.ends ?? []) ends.add(end);
  });
  for (const { to } of arrows) if (to === 'fixed' || to === 'hand-over') ends.add(to);
  return { raises, ends, returns: out.length > 0 };
}
