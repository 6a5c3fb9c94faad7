/** Remembers results by what they were worked out from: another vector that agrees on what was read has the same result. */
import type { Vector } from './vectors.ts';

/** A place in a tree of tests. */
interface Branch<T> {
  /** The result of whatever comes here, when nothing more was read for it. */
  result: T | undefined;
  /** On numbers further on in the vector, each with other bits. */
  tests: Test<T>[];
}

interface Test<T> {
  at: number;
  mask: number;
  /** By the bits. */
  below: Map<number, Branch<T>>;
}

const branch = <T>(): Branch<T> => ({ result: undefined, tests: [] });

export class Memo<T> {
  readonly #root = branch<T>();

  find(vector: Vector): T | undefined {
    return find(this.#root, vector);
  }

  /** `reads`: everything about `vector` that `result` depends on. */
  add(vector: Vector, reads: readonly number[], result: T): void {
    let here = this.#root;
    for (let at = 0; at < reads.length; at++) {
      const mask = reads[at]!;
      if (mask === 0) continue;
      let test = here.tests.find(other => other.at === at && other.mask === mask);
      if (test === undefined) {
        test = { at, mask, below: new Map() };
        here.tests.push(test);
      }
      const bits = vector[at]! & mask;
      let below = test.below.get(bits);
      if (below === undefined) {
        below = branch();
        test.below.set(bits, below);
      }
      here = below;
    }
    here.result = result;
  }
}

function find<T>({ result, tests }: Branch<T>, vector: Vector): T | undefined {
  if (result !== undefined) return result;
  for (let index = 0; index < tests.length; index++) {
    const { at, mask, below } = tests[index]!;
    const next = below.get(vector[at]! & mask);
    const found = next === undefined ? undefined : find(next, vector);
    if (found !== undefined) return found;
  }
  return undefined;
}
