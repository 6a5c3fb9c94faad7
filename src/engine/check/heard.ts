/**
 * Mere words: said where their condition holds, and nothing comes of it. The rules ask only that some conversation has them. So
 * once one has, their condition tells no two conversations apart, wherever else the same words stand. That goes for a condition
 * on one finding: of several, the value of the first decides whether the next is read, and it may not be set.
 */
import type { Compiled } from '#engine/compile.ts';
import { readsOf } from '#engine/condition.ts';
import type { Step } from '#engine/script.ts';
import { WATCHED_CAUTIONS } from './names.ts';
import { segmentSteps, writtenAt } from './written.ts';

/** Places in the files. */
export type Heard = Set<string>;

export const isMereWords = (step: Step): boolean =>
  step.kind === 'say' || (step.kind === 'caution' && !WATCHED_CAUTIONS.includes(step.caution));

/** The flow's steps, by id, that stand where `heard` has been. */
export const heardIn = ({ script, origins }: Compiled, heard: Heard): ReadonlySet<string> =>
  new Set(idsOf(script, id => origins[id] !== undefined && heard.has(writtenAt(origins[id]))));

/** `had`: ids of steps that some conversation of the flow had. */
export function hear({ script, origins }: Compiled, had: ReadonlySet<string>, heard: Heard): void {
  for (const id of idsOf(script, each => had.has(each) && origins[each] !== undefined))
    heard.add(writtenAt(origins[id]!));
}

const readsOne = ({ if: when }: Step): boolean =>
  new Set(readsOf(when).map(({ finding }) => finding)).size < 2;

const idsOf = (script: Compiled['script'], wanted: (id: string) => boolean): string[] =>
  segmentSteps(script)
    .filter(step => isMereWords(step) && readsOne(step))
    .map(({ id }) => id)
    .filter(wanted);
