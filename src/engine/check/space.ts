/**
 * What the checker keeps of a conversation, packed into a vector: findings, cautions that were said (`!id`), ticket fields
 * that were answered (`+field`), whether the drive was started (`#started`).
 */
import { readsOf } from '#engine/condition.ts';
import { FIELDS, type Field } from '#engine/fields.ts';
import { SIGNS } from '#engine/schema.ts';
import type { Question, Script, Step } from '#engine/script.ts';
import { WATCHED_CAUTIONS, WATCHED_FINDINGS } from './names.ts';
import {
  bitsOf,
  type Change,
  changed,
  codeIn,
  type Mask,
  NO_CHANGE,
  none,
  type Slot,
  type Vector,
  WORD,
  widthFor,
} from './vectors.ts';
import { interruptSteps, segmentSteps } from './written.ts';

export const said = (caution: string): string => `!${caution}`;
export const filled = (field: Field): string => `+${field}`;
export const STARTED = '#started';
export const policy = (name: string): string => `policy.${name}`;
/** Taken with every value: what the site says, and what a working comes out at. */
export const isPolicy = (variable: string): boolean =>
  variable.startsWith('policy.') || variable.startsWith('verdict.');

/** Does this answer to the step switch the drive on? A step that could not be done has not. */
export const starts = (step: Question, answer: string): boolean =>
  step.kind === 'try' && step.effect === 'start' && answer !== 'could-not';

const SIGN_NAMES = new Set<string>(SIGNS);

/** Variables with their values, and what tells two values of one apart. */
export type Layout = readonly { name: string; values: readonly string[]; alike: (value: string) => string }[];

/**
 * What the interrupts' questions, the rules and the engine can look at or set, alike in all `scripts`, which have the same
 * interrupts. It stands first in the space of each, so that a place means the same there.
 */
export function commonTo(scripts: readonly Script[]): Layout {
  const inside = scripts[0] === undefined ? [] : interruptSteps(scripts[0]);
  const touched = new Set(inside.flatMap(touches));
  const alike = sameToAll(scripts);
  const values = new Map<string, Set<string>>();
  for (const { findings } of scripts) {
    for (const [name, each] of Object.entries(findings)) {
      if (!touched.has(name) && !isWatched(name)) continue;
      const all = values.get(name) ?? new Set();
      values.set(name, all);
      for (const value of each) all.add(value);
    }
  }
  const yes = (name: string) => ({ name, values: ['yes'], alike: (value: string) => value });
  return [
    ...[...values].map(([name, each]) => ({ name, values: [...each], alike: alike(name) })),
    ...WATCHED_CAUTIONS.map(caution => yes(said(caution))),
    ...FIELDS.map(field => yes(filled(field))),
    yes(STARTED),
  ];
}

/** The script's own findings, which stand behind what it has in common with others. */
export function ownTo(script: Script, common: Layout): Layout {
  const known = new Set(common.map(({ name }) => name));
  const alike = sameToAll([script]);
  const own = Object.entries(script.findings).filter(([name]) => !known.has(name));
  return own.map(([name, values]) => ({ name, values, alike: alike(name) }));
}

function touches(step: Step): string[] {
  const read = readsOf(step.if).map(({ finding }) => finding);
  if (step.kind !== 'ask' && step.kind !== 'try') return read;
  return [...read, step.finding, ...Object.values(step.after).flatMap(({ sets }) => Object.keys(sets))];
}

const isFinding = (variable: string): boolean => !/^[!+#]/.test(variable);

/** A finding that only conditions read: where none ahead does, it no longer matters. The others can be looked at any time. */
export const isOnlyRead = (variable: string): boolean => isFinding(variable) && !isWatched(variable);

/** Rules look at it, or the engine does at any question. */
const isWatched = (finding: string): boolean =>
  finding in WATCHED_FINDINGS || SIGN_NAMES.has(finding) || isPolicy(finding);

export class Space {
  readonly names: string[] = [];
  readonly #places = new Map<string, number>();
  readonly #values: string[][] = [];
  /** Value to number. Values that nothing tells apart share one. */
  readonly #codes: Map<string, number>[] = [];
  readonly #slots: Slot[] = [];
  /** Numbers in a vector. */
  readonly words: number;

  /** `own` begins with a number of its own, so that a vector of what is common is the beginning of one of both. */
  constructor(common: Layout, own: Layout = []) {
    let words = 0;
    for (const layout of [common, own]) {
      let used = WORD;
      for (const { name, values, alike } of layout) {
        const width = widthFor(this.#add(name, values, alike));
        if (used + width > WORD) {
          words += 1;
          used = 0;
        }
        this.#slots.push({ word: words - 1, shift: used, ones: 2 ** width - 1 });
        used += width;
      }
    }
    this.words = words;
  }

  /** How many values it tells apart. */
  #add(name: string, values: readonly string[], alike: (value: string) => string): number {
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
    return classes.size;
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

  slot(place: number): Slot {
    return this.#slots[place]!;
  }

  /** The number of its value in the vector. */
  at(vector: Vector, place: number): number {
    return codeIn(vector, this.#slots[place]!);
  }

  /** All bits of these variables. */
  mask(places: Iterable<number>): number[] {
    const mask = none(this.words);
    for (const place of places) this.cover(mask, place);
    return mask;
  }

  /** Adds the variable's bits. */
  cover(mask: Mask, place: number): void {
    const { word, shift, ones } = this.#slots[place]!;
    mask[word] = mask[word]! | (ones << shift);
  }

  /** Each variable becomes the value of this number. */
  change(writes: ReadonlyMap<number, number>): Change {
    if (writes.size === 0) return NO_CHANGE;
    const value = none(this.words);
    for (const [place, code] of writes) {
      const { word, shift } = this.#slots[place]!;
      value[word] = value[word]! | (bitsOf(code) << shift);
    }
    return { mask: this.mask(writes.keys()), value };
  }

  /**
   * By its bits those that stand for all values that `lists` and the rules do not tell apart, where that says anything: a
   * sign or a policy counts as it is.
   */
  classes(place: number, lists: readonly (readonly string[])[]): number[] | null {
    const name = this.names[place]!;
    if (SIGN_NAMES.has(name) || isPolicy(name)) return null;
    const tell = tellApart(name, lists);
    const first = new Map<string, number>();
    const stands = none(this.#slots[place]!.ones + 1);
    for (const code of this.values(place)) {
      const key = tell(this.#values[place]![code]!);
      const known = first.get(key) ?? code;
      first.set(key, known);
      stands[bitsOf(code)] = bitsOf(known);
    }
    return first.size < this.values(place).length ? stands : null;
  }

  vector(known: Readonly<Record<string, string>>): Vector {
    const writes = new Map<number, number>();
    for (const [name, value] of Object.entries(known)) {
      const place = this.#places.get(name);
      if (place !== undefined) writes.set(place, this.code(place, value));
    }
    return changed(none(this.words), this.change(writes));
  }
}

/** Two values that every condition and every rule treats alike need not be told apart. */
function sameToAll(scripts: readonly Script[]): (finding: string) => (value: string) => string {
  // Each list once: a hundred flows compare with the same few.
  const compared = new Map<string, Map<string, readonly string[]>>();
  for (const { finding, values } of scripts.flatMap(segmentSteps).flatMap(step => readsOf(step.if))) {
    const lists = compared.get(finding) ?? new Map<string, readonly string[]>();
    compared.set(finding, lists.set(values.join(' '), values));
  }
  return finding => {
    if (SIGN_NAMES.has(finding) || isPolicy(finding)) return value => value;
    return tellApart(finding, [...(compared.get(finding)?.values() ?? [])]);
  };
}

/** The same text for values that neither these lists of conditions nor the rules tell apart. */
function tellApart(finding: string, lists: readonly (readonly string[])[]): (value: string) => string {
  const watched = WATCHED_FINDINGS[finding] ?? [];
  return value =>
    [
      ...lists.map(list => (list.includes(value) ? '1' : '0')),
      ...watched.map(each => (each === value ? '1' : '0')),
    ].join('');
}
