/**
 * Findings that can no longer change matter only through what is left of the conditions ahead once they are put in. Where the
 * same is left, two conversations are one state from then on, whatever was answered.
 */
import { isAll, isAny, isNot, readsOf } from '#engine/condition.ts';
import type { Condition } from '#engine/schema.ts';
import type { Script, Step } from '#engine/script.ts';
import { Memo } from './memo.ts';
import { isOnlyRead, type Space } from './space.ts';
import type { Vector } from './vectors.ts';

interface Ahead {
  /** Variables that nothing ahead sets. */
  settled: number[];
  /** All their bits. */
  mask: number[];
  conditions: Condition[];
  /** By what is left: the bits of values that stand for all that leave the same. */
  standIns: Map<string, number[]>;
  /** By the values. */
  known: Memo<number[]>;
}

export class Settled {
  readonly #space: Space;
  readonly #ahead: Ahead[];

  /** `own`: place of the first variable that no interrupt reads or sets. */
  constructor({ main }: Script, space: Space, own: number) {
    this.#space = space;
    const changing = new Set<number>();
    const conditions = new Map<string, Condition>();
    const ahead: Ahead[] = [];
    for (let at = main.length - 1; at >= 0; at--) {
      for (const finding of setBy(main[at]!)) changing.add(space.place(finding) ?? -1);
      const settled = space.names.flatMap((name, place) =>
        place >= own && isOnlyRead(name) && !changing.has(place) ? [place] : [],
      );
      // Its own too: after what broke in at a question, its condition is read again.
      const { if: when } = main[at]!;
      if (when !== null) conditions.set(JSON.stringify(when), when);
      const names = new Set(settled.map(place => space.names[place]));
      const reading = [...conditions.values()].filter(each =>
        readsOf(each).some(({ finding }) => names.has(finding)),
      );
      const mask = space.mask(settled);
      ahead[at] = { settled, mask, conditions: reading, standIns: new Map(), known: new Memo() };
    }
    this.#ahead = ahead;
  }

  /** Puts into `vector` the values that stand for its own at the question `at`. Tells whether that changed anything. */
  standIn(at: number, vector: Vector): boolean {
    const here = this.#ahead[at];
    if (here === undefined || here.settled.length < 2) return false;
    const { mask } = here;
    const known = here.known.find(vector) ?? this.#find(here, vector);
    let changed = false;
    for (let word = 0; word < mask.length; word++) {
      const after = (vector[word]! & ~mask[word]!) | known[word]!;
      if (after === vector[word]) continue;
      vector[word] = after;
      changed = true;
    }
    return changed;
  }

  #find(here: Ahead, vector: Vector): number[] {
    const space = this.#space;
    const values = new Map(
      here.settled.map(place => [space.names[place]!, space.value(place, space.at(vector, place))]),
    );
    const left = JSON.stringify(here.conditions.map(each => leftOf(each, values)));
    const own = here.mask.map((bits, word) => vector[word]! & bits);
    const standIn = here.standIns.get(left) ?? own;
    here.standIns.set(left, standIn);
    here.known.add(vector, here.mask, standIn);
    return standIn;
  }
}

function setBy(step: Step): string[] {
  if (step.kind === 'work')
    return [step.finding, ...Object.values(step.verdicts).flatMap(({ sets }) => Object.keys(sets))];
  if (step.kind !== 'ask' && step.kind !== 'try') return [];
  return [step.finding, ...Object.values(step.after).flatMap(({ sets }) => Object.keys(sets))];
}

type Left = boolean | string | Left[];
type Known = ReadonlyMap<string, string | undefined>;

/** Read from left to right like the condition itself, so that a finding that is not set is still seen to be read. */
function leftOf(when: Condition, known: Known): Left {
  if (isAll(when))
    return joined(
      'all',
      when.all.map(part => () => leftOf(part, known)),
      false,
    );
  if (isAny(when))
    return joined(
      'any',
      when.any.map(part => () => leftOf(part, known)),
      true,
    );
  if (isNot(when)) {
    const left = leftOf(when.not, known);
    return typeof left === 'boolean' ? !left : ['not', left];
  }
  const parts = Object.entries(when).map(([finding, wanted]) => (): Left => {
    if (!known.has(finding)) return [finding, [wanted].flat().join(' ')];
    const value = known.get(finding);
    return value === undefined ? ['not set', finding] : [wanted].flat().includes(value);
  });
  return joined('all', parts, false);
}

/** Stops at the first part that decides it. */
function joined(how: string, parts: (() => Left)[], deciding: boolean): Left {
  const left: Left[] = [];
  for (const part of parts) {
    const each = part();
    if (each === !deciding) continue;
    left.push(each);
    if (each === deciding) break;
  }
  if (left.length === 0) return !deciding;
  return left.length === 1 ? left[0]! : [how, ...left];
}
