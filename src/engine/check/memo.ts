/** Remembers results by what they were worked out from: another vector that agrees on what was read has the same result. */
import { type Reads, SET, type Vector } from './vectors.ts';

const NO_TEST = -1;

/** A place in a tree of tests, each on one variable, in rising order on the way down. */
interface Slot<T> {
  /** The result of whatever comes here, when nothing more was read for it. */
  result: T | undefined;
  /** The variable, twice, plus 1 where its value counts and not only whether it is set. */
  test: number;
  byValue: (Slot<T> | undefined)[];
  /** Results that do not read this variable. */
  rest: Slot<T> | undefined;
}

const slot = <T>(): Slot<T> => ({ result: undefined, test: NO_TEST, byValue: [], rest: undefined });

export class Memo<T> {
  readonly #root = slot<T>();

  find(vector: Vector): T | undefined {
    return find(this.#root, vector);
  }

  /** `reads`: everything about `vector` that `result` depends on. */
  add(vector: Vector, reads: Reads, result: T): void {
    let at = this.#root;
    reads.forEach((mode, place) => {
      if (mode === 0) return;
      const test = mode === SET ? 2 * place : 2 * place + 1;
      while (at.test !== NO_TEST && at.test < test) {
        at.rest ??= slot();
        at = at.rest;
      }
      if (at.test !== test) {
        if (at.test !== NO_TEST) at.rest = { ...at, result: undefined };
        at.test = test;
        at.byValue = [];
      }
      const value = seen(vector, test);
      at.byValue[value] ??= slot();
      at = at.byValue[value];
    });
    at.result = result;
  }
}

function find<T>(from: Slot<T>, vector: Vector): T | undefined {
  let at: Slot<T> | undefined = from;
  while (at !== undefined && at.result === undefined) {
    if (at.test === NO_TEST) return undefined;
    const below = at.byValue[seen(vector, at.test)];
    const found = below === undefined ? undefined : find(below, vector);
    if (found !== undefined) return found;
    at = at.rest;
  }
  return at?.result;
}

function seen(vector: Vector, test: number): number {
  const value = vector[test >> 1]!;
  return (test & 1) === 1 || value === 0 ? value : 1;
}
