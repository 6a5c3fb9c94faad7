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

function find<T>(from: Branch<T>, vector: Vector): T | undefined {
  let here: Branch<T> | undefined = from;
  while (here !== undefined && here.result === undefined) {
    const { tests }: Branch<T> = here;
    for (let index = 1; index < tests.length; index++) {
      const found = below(tests[index]!, vector);
      const result = found === undefined ? undefined : find(found, vector);
      if (result !== undefined) return result;
    }
    here = tests.length === 0 ? undefined : below(tests[0]!, vector);
  }
  return here?.result;
}

const below = <T>({ at, mask, below }: Test<T>, vector: Vector): Branch<T> | undefined =>
  below.get(vector[at]! & mask);
