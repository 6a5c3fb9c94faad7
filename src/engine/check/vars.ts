/**
 * What the checker keeps of a conversation, under one kind of name each: findings as they are called, `!id` for a
 * caution that was said, `+field` for a ticket field that was answered, `#starts` for the starts so far.
 */
import type { Field } from '#engine/fields.ts';
import type { Consequence, Question, Script, Step } from '#engine/script.ts';

export type Vars = Record<string, string>;

/** How much of a variable matters: only that it is set, or its value. */
export const SET = 1;
export const VALUE = 2;
export type Mode = typeof SET | typeof VALUE;
export type Need = readonly [variable: string, mode: Mode];

export const said = (caution: string): string => `!${caution}`;
export const filled = (field: Field): string => `+${field}`;
export const policy = (name: string): string => `policy.${name}`;
/** Starts of the drive so far: absent, `1` or `2` (two or more). */
export const STARTS = '#starts';
/** Stands for any value, where only being set matters. */
export const SOME = '*';
/** Inside an interrupt's questions: as it was outside, whatever that is. */
export const OUTSIDE = '~';

export const isPolicy = (variable: string): boolean => variable.startsWith('policy.');

/** Does this answer to the step switch the drive on? A step that could not be done has not. */
export const starts = (step: Question, answer: string): boolean =>
  step.kind === 'try' && step.effect === 'start' && answer !== 'could-not';

/** What giving `answer` sets beside what the engine sets: fields of the ticket, and starts. */
export function note(vars: Vars, step: Question, answer: string): void {
  for (const field of step.fills) vars[filled(field)] = 'yes';
  if (starts(step, answer)) vars[STARTS] = vars[STARTS] === undefined ? '1' : '2';
}

/** Variables that an answer surely sets. */
export function setBy(step: Question, then: Consequence): string[] {
  return [step.finding, ...Object.keys(then.sets), ...then.raises, ...then.clears, ...step.fills.map(filled)];
}

/** Every variable that the steps may set. */
export function writtenBy(script: Script, steps: readonly Step[]): Set<string> {
  const all = new Set<string>();
  for (const step of steps) {
    if (step.kind === 'caution') all.add(said(step.caution));
    if (step.kind !== 'ask' && step.kind !== 'try') continue;
    for (const id of step.cautions) all.add(said(id));
    for (const [answer, then] of Object.entries(step.after)) {
      for (const variable of setBy(step, then)) all.add(variable);
      for (const sign of then.raises) {
        const caution = script.onSign[sign];
        if (caution !== undefined) all.add(said(caution));
      }
      if (starts(step, answer)) all.add(STARTS);
    }
  }
  return all;
}
