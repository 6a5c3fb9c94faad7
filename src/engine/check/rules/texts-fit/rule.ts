import type { Question } from '#engine/script.ts';
import type { Rule, Trouble } from '../../rule.ts';
import { segmentSteps } from '../../written.ts';

/**
 * Slack: a section holds 3,000 characters, a set of actions 25 elements (block-kit reference); Back, a person, start again and
 * stop take four of these.
 */
const MOST_TEXT = 3000;
const MOST_ANSWERS = 21;

export const rule: Rule = {
  name: 'texts-fit',
  proves: 'Every question fits into the smallest channel, and no two of its answers look the same.',

  flow: ({ script }) => segmentSteps(script).flatMap(step => ('after' in step ? judged(step) : [])),
};

function judged(step: Question): Trouble[] {
  const labels = step.answers.map(({ label }) => label);
  const plain = labels.map(label =>
    label
      .toLowerCase()
      .replace(/[^\p{L}\p{N}]+/gu, ' ')
      .trim(),
  );
  const twice = labels.find((_, index) => plain.indexOf(plain[index]!) !== index);
  const length = [step.text, ...labels].join('\n').length;
  const at = (path: string[], message: string, remedy: string): Trouble => ({
    step: step.id,
    path,
    message,
    remedy,
  });
  return [
    ...(labels.length > MOST_ANSWERS
      ? [at(['answers'], `${labels.length} answers, and a channel shows ${MOST_ANSWERS}`, 'ask in two steps')]
      : []),
    ...(twice === undefined ? [] : [at(['answers'], `two answers read "${twice}"`, 'word them apart')]),
    ...(length > MOST_TEXT
      ? [
          at(
            [],
            `${length} characters with its answers, and a channel takes ${MOST_TEXT}`,
            'say it in fewer words',
          ),
        ]
      : []),
    ...(step.kind === 'ask' && step.cautions.length > 0 && Object.keys(step.opening).length > 0
      ? [
          at(
            ['cautions'],
            'when the opening words answer this question, its cautions are not said',
            'put them in a `caution` step before the question',
          ),
        ]
      : []),
  ];
}
