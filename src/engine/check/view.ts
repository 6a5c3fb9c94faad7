/** What a rule sees of a state. Everything looked at is noted: states that agree on what was looked at are one. */
import type { Field } from '#engine/fields.ts';
import type { Sign } from '#engine/schema.ts';
import { WATCHED_CAUTIONS, WATCHED_FINDINGS } from './names.ts';
import { filled, policy, type Space, STARTED, said } from './space.ts';
import { type Mask, none, type Vector } from './vectors.ts';

export interface View {
  sign(name: Sign): boolean;
  /** Has the finding one of these values? names.ts must list it with them. */
  is(finding: string, ...values: string[]): boolean;
  isSet(finding: string): boolean;
  /** The value of site.yaml; undefined where there is no such policy. */
  policy(name: string): string | undefined;
  /** One of the cautions that names.ts lists. */
  said(caution: string): boolean;
  filled(field: Field): boolean;
  /** Has a step started the drive already? */
  started(): boolean;
}

export class ObservedView implements View {
  readonly #space: Space;
  readonly #vector: Vector;
  readonly reads: Mask;
  /** A policy that was looked at and for which no value was taken yet. */
  undecided: number | null = null;

  constructor(space: Space, vector: Vector, reads: Mask = none(space.words)) {
    this.#space = space;
    this.#vector = vector;
    this.reads = reads;
  }

  sign(name: Sign): boolean {
    return this.#value(name) === 'yes';
  }

  is(finding: string, ...values: string[]): boolean {
    const listed = WATCHED_FINDINGS[finding] ?? [];
    const other = values.find(value => !listed.includes(value));
    if (other !== undefined) throw new Error(`names.ts must list "${finding}" with "${other}"`);
    return values.includes(this.#value(finding) ?? '');
  }

  isSet(finding: string): boolean {
    if (!(finding in WATCHED_FINDINGS)) throw new Error(`names.ts must list the finding "${finding}"`);
    return this.#has(finding);
  }

  policy(name: string): string | undefined {
    const place = this.#space.place(policy(name));
    if (place === undefined) return undefined;
    if (this.#space.at(this.#vector, place) === 0) this.undecided = place;
    return this.#value(policy(name));
  }

  said(caution: string): boolean {
    if (!WATCHED_CAUTIONS.includes(caution)) throw new Error(`names.ts must list the caution "${caution}"`);
    return this.#has(said(caution));
  }

  filled(field: Field): boolean {
    return this.#has(filled(field));
  }

  started(): boolean {
    return this.#has(STARTED);
  }

  #value(name: string): string | undefined {
    const place = this.#space.place(name);
    if (place === undefined) return undefined;
    const { word, shift, ones } = this.#space.slot(place);
    this.reads[word] = this.reads[word]! | (ones << shift);
    return this.#space.value(place, this.#space.at(this.#vector, place));
  }

  #has(name: string): boolean {
    const place = this.#space.place(name);
    if (place === undefined) return false;
    const { word, shift } = this.#space.slot(place);
    this.reads[word] = this.reads[word]! | (1 << shift);
    return ((this.#vector[word]! >>> shift) & 1) !== 0;
  }
}
