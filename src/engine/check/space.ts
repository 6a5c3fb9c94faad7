/**
 * What the checker keeps of a conversation, as a vector of small numbers: findings, cautions that were said (`!id`),
 * ticket fields that were answered (`+field`), starts of the drive (`#step`). 0 is: not set.
 */
import { readsOf } from '#engine/condition.ts';
import { FIELDS, type Field } from '#engine/fields.ts';
import { SIGNS } from '#engine/schema.ts';
import type { Question, Script } from '#engine/script.ts';
import { WATCHED_CAUTIONS, WATCHED_FINDINGS } from './names.ts';
import { none, type Vector } from './vectors.ts';
import { segmentSteps } from './written.ts';

export const said = (caution: string): string => `!${caution}`;
export const filled = (field: Field): string => `+${field}`;
export const started = (step: string): string => `#${step}`;
export const policy = (name: string): string => `policy.${name}`;
export const isPolicy = (variable: string): boolean => variable.startsWith('policy.');

/** Does this answer to the step switch the drive on? A step that could not be done has not. */
export const starts = (step: Question, answer: string): boolean =>
  step.kind === 'try' && step.effect === 'start' && answer !== 'could-not';

const SIGN_NAMES = new Set<string>(SIGNS);

export class Space {
  readonly names: string[] = [];
  readonly #places = new Map<string, number>();
  readonly #values: string[][] = [];
  /** Value to number. Values that nothing tells apart share one. */
  readonly #codes: Map<string, number>[] = [];
  /** Variables of the steps that start the drive. */
  readonly starts: number[] = [];

  constructor(script: Script) {
    const alike = sameToAll(script);
    for (const [finding, values] of Object.entries(script.findings))
      this.#add(finding, values, alike(finding));
    for (const caution of WATCHED_CAUTIONS) this.#add(said(caution), ['yes']);
    for (const field of FIELDS) this.#add(filled(field), ['yes']);
    for (const step of segmentSteps(script)) {
      if (step.kind === 'try' && step.effect === 'start')
        this.starts.push(this.#add(started(step.id), ['yes']));
    }
  }

  #add(name: string, values: readonly string[], alike: (value: string) => string = value => value): number {
    const place = this.names.push(name) - 1;
    const classes = new Map<string, number>();
    const codes = new Map<string, number>();
    const kept = [''];
    for (const value of values) {
      const known = classes.get(alike(value));
      const code = known ?? kept.push(value) - 1;
      classes.set(alike(value), code);
      codes.set(value, code);
    }
    this.#places.set(name, place);
    this.#values.push(kept);
    this.#codes.push(codes);
    return place;
  }

  /** Rules look at it, or the engine does at any question. */
  isWatched(finding: string): boolean {
    return finding in WATCHED_FINDINGS || SIGN_NAMES.has(finding) || isPolicy(finding);
  }

  get size(): number {
    return this.names.length;
  }

  place(name: string): number | undefined {
    return this.#places.get(name);
  }

  /** The value that stands for all that share the number; undefined for 0. */
  value(place: number, code: number): string | undefined {
    return code === 0 ? undefined : this.#values[place]![code];
  }

  code(place: number, value: string): number {
    return this.#codes[place]!.get(value) ?? 0;
  }

  values(place: number): number[] {
    return this.#values[place]!.slice(1).map((_, index) => index + 1);
  }

  vector(known: Readonly<Record<string, string>>): Vector {
    const vector = none(this.size);
    for (const [name, value] of Object.entries(known)) {
      const place = this.#places.get(name);
      if (place !== undefined) vector[place] = this.code(place, value);
    }
    return vector;
  }
}

/** Two values that every condition and every rule treats alike need not be told apart. */
function sameToAll(script: Script): (finding: string) => (value: string) => string {
  const compared = new Map<string, string[][]>();
  for (const { finding, values } of segmentSteps(script).flatMap(step => readsOf(step.if))) {
    compared.set(finding, [...(compared.get(finding) ?? []), values]);
  }
  return finding => {
    if (SIGN_NAMES.has(finding) || isPolicy(finding)) return value => value;
    const watched = (WATCHED_FINDINGS[finding] ?? []).map(value => [value]);
    const lists = [...(compared.get(finding) ?? []), ...watched];
    return value => lists.map(list => (list.includes(value) ? '1' : '0')).join('');
  };
}
