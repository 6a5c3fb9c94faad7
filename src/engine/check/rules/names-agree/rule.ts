import { isQuestionStep } from '#engine/advance.ts';
import type { Question } from '#engine/script.ts';
import type { Rule } from '../../rule.ts';
import { segmentSteps } from '../../written.ts';

/** Names that say nothing by themselves. */
const PLAIN: readonly string[] = [
  'yes',
  'no',
  'not-sure',
  'given',
  'skipped',
  'fixed',
  'no-change',
  'could-not',
  'done',
];

export const rule: Rule = {
  name: 'names-agree',
  proves: 'An answer does not settle a finding to be something else than what the answer itself is called.',

  flow: ({ script }) =>
    segmentSteps(script)
      .filter(isQuestionStep)
      .flatMap(({ id, after }) =>
        Object.entries(after)
          .filter(([answer]) => !PLAIN.includes(answer))
          .flatMap(([answer, { sets }]) =>
            Object.entries(sets)
              .filter(([finding, value]) => value !== answer && canBe(after, finding, answer))
              .map(([finding, value]) => ({
                step: id,
                path: ['sets', answer],
                message: `"${answer}" sets "${finding}" to ${value}, although "${finding}" can be ${answer}`,
                remedy: `set it to ${answer}, or name one of the two otherwise`,
              })),
          ),
      ),
};

/** Does an answer to the same question settle the finding to be just that? Then these two were swapped. */
const canBe = (after: Question['after'], finding: string, value: string): boolean =>
  Object.values(after).some(({ sets }) => sets[finding] === value);
