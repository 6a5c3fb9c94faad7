/** Remembers results by what they were worked out from: another vector that agrees on what was read has the same result. */
import { type Reads, SET, VALUE, type Vector } from './space.ts';

interface Group<T> {
  places: number[];
  modes: number[];
  results: Map<string, T>;
}

export class Memo<T> {
  readonly #groups = new Map<string, Group<T>>();

  find(vector: Vector): T | undefined {
    for (const group of this.#groups.values()) {
      const result = group.results.get(keyIn(group, vector));
      if (result !== undefined) return result;
    }
    return undefined;
  }

  /** `reads`: everything about `vector` that `result` depends on. Tells whether it was new. */
  add(vector: Vector, reads: Reads, result: T): void {
    const places: number[] = [];
    const modes: number[] = [];
    reads.forEach((mode, place) => {
      if (mode === 0) return;
      places.push(place);
      modes.push(mode);
    });
    const name = places.map((place, index) => place * VALUE + modes[index]! - SET).join();
    const group = this.#groups.get(name) ?? { places, modes, results: new Map() };
    this.#groups.set(name, group);
    group.results.set(keyIn(group, vector), result);
  }
}

function keyIn<T>({ places, modes }: Group<T>, vector: Vector): string {
  let key = '';
  for (let index = 0; index < places.length; index++) {
    const value = vector[places[index]!]!;
    key += String.fromCharCode(modes[index] === SET && value !== 0 ? 1 : value);
  }
  return key;
}
