import type { FlowStep } from '#engine/schema.ts';
import { TRY_ANSWERS, OPEN_VALUES as VALUES } from '#engine/script.ts';
import { verdictsOf } from '#engine/work.ts';
import type { Written } from './written.ts';

/** What an answer in the person's own words, a number or a photo is called. */
export const OPEN_VALUES: readonly string[] = VALUES;

export interface WrittenAnswer {
  id: string;
  label: string;
}

/** Goes on by what is answered, or worked out. */
export const isBranching = (
  step: FlowStep,
): step is Extract<FlowStep, { ask: string } | { try: string } | { work_out: string }> =>
  'ask' in step || 'try' in step || 'work_out' in step;

/** The answers of a step in the order shown; what is typed or photographed is `given` or `skipped`. */
export function answersOf(step: FlowStep, written: Written): WrittenAnswer[] {
  if ('try' in step) {
    const answers = step.fixed === undefined ? TRY_ANSWERS.doing : TRY_ANSWERS.fixing;
    return answers.map(({ id, label }) => ({ id, label }));
  }
  if ('work_out' in step)
    return verdictsOf(step.work_out).map(id => ({ id, label: id.replaceAll('-', ' ') }));
  if (!('ask' in step)) return [];
  if (step.answers_from === 'sites') return written.sites;
  const listed = Object.entries(step.answers ?? {}).map(([id, label]) => ({ id, label }));
  const kind = step.kind ?? (listed.length > 0 ? 'choice' : 'text');
  if (kind === 'choice') return listed;
  const labels = { given: GIVEN[kind], skipped: 'skipped' };
  const open = VALUES.filter(id => id === 'given' || step.optional === true);
  return [...listed, ...open.map(id => ({ id, label: labels[id] }))];
}

const GIVEN = { text: 'in their own words', number: 'a number', photo: 'a photo' };
