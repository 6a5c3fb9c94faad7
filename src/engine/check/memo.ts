/** Remembers results by what they were worked out from: another vector that agrees on what was read has the same result. */
import type { Vector } from './vectors.ts';

/** A place in a tree of tests. */
interface Branch<T> {
  /** The result of whatever comes here, when nothing more was read for it. */
  result: T | undefined;
  /** On numbers further on in the vector, each with other bits. */
  tests: Test<T>[];
}

/** Most have one outcome only, so the first stands by itself: a table for each would fill the memory. */
interface Test<T> {
  at: number;
  mask: number;
  bits: number;
  below: Branch<T>;
  /** Further ones, by their bits. */
  others: Map<number, Branch<T>> | null;
}

/** Of a branch without any; never added to. */
const NO_TESTS: never[] = [];

const branch = <T>(): Branch<T> => ({ result: undefined, tests: NO_TESTS });

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
      if (mask !== 0) here = grown(here, at, mask, vector[at]! & mask);
    }
    here.result = result;
  }
}

/** Where these bits lead, from now on. */
function grown<T>(here: Branch<T>, at: number, mask: number, bits: number): Branch<T> {
  const test = here.tests.find(other => other.at === at && other.mask === mask);
  if (test === undefined) {
    const first = { at, mask, bits, below: branch<T>(), others: null };
    if (here.tests === NO_TESTS) here.tests = [first];
    else here.tests.push(first);
    return first.below;
  }
  if (test.bits === bits) return test.below;
  test.others ??= new Map();
  const known = test.others.get(bits);
  if (known !== undefined) return known;
  const below = branch<T>();
  test.others.set(bits, below);
  return below;
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

function below<T>({ at, mask, bits, below, others }: Test<T>, vector: Vector): Branch<T> | undefined {
  const own = vector[at]! & mask;
  return own === bits ? below : others?.get(own);
}
