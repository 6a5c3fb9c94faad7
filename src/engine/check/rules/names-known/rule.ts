import { SIGNS } from '#engine/schema.ts';
import type { Question } from '#engine/script.ts';
import type { PlacedTrouble, Rule, Subject, Trouble } from '../../rule.ts';
import { segmentSteps } from '../../written.ts';

const signs: readonly string[] = SIGNS;

export const rule: Rule = {
  name: 'names-known',
  proves:
    'Every name that is used is there, and a sign is only ever raised or cleared, never set as a finding.',

  flow: ({ script }) =>
    segmentSteps(script).flatMap(step =>
      step.kind === 'ask' || step.kind === 'try' ? overwritten(step) : [],
    ),

  together: (subjects, catalogue) => [
    ...subjects.flatMap(problems),
    ...Object.entries(catalogue.interrupts).flatMap(([id, { block, caution }]) => {
      const flow = subjects[0]?.script.symptom ?? '';
      const at = (part: string, message: string, remedy: string): PlacedTrouble => ({
        flow,
        unit: 'catalogue/interrupts.yaml',
        path: [id, part],
        message,
        remedy,
      });
      const steps = subjects[0]?.script.interrupts[id]?.steps.length ?? 1;
      return [
        ...(steps === 0 ? [at('block', `there is no block "${block}"`, 'name a folder of blocks/')] : []),
        ...(caution in catalogue.cautions
          ? []
          : [at('caution', `there is no caution "${caution}"`, 'name one of catalogue/cautions.yaml')]),
      ];
    }),
    ...Object.entries(catalogue.cautions).flatMap(([id, { takes_over = {} }]) =>
      Object.keys(takes_over)
        .filter(other => !(other in catalogue.cautions))
        .map(other => ({
          flow: subjects[0]?.script.symptom ?? '',
          unit: 'catalogue/cautions.yaml',
          path: [id, 'takes_over', other],
          message: `there is no caution "${other}"`,
          remedy: 'name one of this file',
        })),
    ),
  ],
};

const problems = ({ compiled, script }: Subject): PlacedTrouble[] =>
  compiled.problems.map(problem => ({ ...problem, flow: script.symptom }));

/** `sets: { x: { hardware-failure: no } }` would undo what is never undone. */
function overwritten(step: Question): Trouble[] {
  const remedy = 'name the finding otherwise, and use `raises` or `clears` for the sign';
  const asked = signs.includes(step.finding)
    ? [{ step: step.id, message: `"${step.finding}" is a sign, no answer's finding`, remedy }]
    : [];
  const set = Object.entries(step.after).flatMap(([answer, { sets }]) =>
    Object.keys(sets)
      .filter(finding => signs.includes(finding))
      .map(finding => ({
        step: step.id,
        path: ['sets', answer, finding],
        message: `"${finding}" is a sign and cannot be set`,
        remedy,
      })),
  );
  return [...asked, ...set];
}
