/**
 * Mere words: said where their condition holds, and nothing comes of it. The rules ask only that some conversation has them. So
 * once one has, their condition tells no two conversations apart, wherever else the same words stand; but that what is read first
 * decides whether the next is read, and the next may not be set.
 */
import type { Compiled } from '#engine/compile.ts';
import { type Read, readsOf } from '#engine/condition.ts';
import type { Step } from '#engine/script.ts';
import { WATCHED_CAUTIONS } from './names.ts';
import { segmentSteps, writtenAt } from './written.ts';

/** Places in the files. */
export type Heard = Set<string>;

export const isMereWords = (step: Step): boolean =>
  step.kind === 'say' || (step.kind === 'caution' && !WATCHED_CAUTIONS.includes(step.caution));

/** What the step's condition tells apart, in the order in which it is read: of words that were had, all but the last. */
export const tells = (step: Step, heard: ReadonlySet<string>): readonly Read[] =>
  heard.has(step.id) ? readsOf(step.if).slice(0, -1) : readsOf(step.if);

/** The flow's steps, by id, that stand where `heard` has been. */
export const heardIn = ({ script, origins }: Compiled, heard: Heard): ReadonlySet<string> =>
  new Set(idsOf(script, id => origins[id] !== undefined && heard.has(writtenAt(origins[id]))));

/** `had`: ids of steps that some conversation of the flow had. */
export function hear({ script, origins }: Compiled, had: ReadonlySet<string>, heard: Heard): void {
  for (const id of idsOf(script, each => had.has(each) && origins[each] !== undefined))
    heard.add(writtenAt(origins[id]!));
}

const idsOf = (script: Compiled['script'], wanted: (id: string) => boolean): string[] =>
  segmentSteps(script)
    .filter(isMereWords)
    .map(({ id }) => id)
    .filter(wanted);
