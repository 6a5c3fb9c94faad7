import { isQuestionStep } from '#engine/advance.ts';
import type { Question, Step } from '#engine/script.ts';
import { WATCHED_FINDINGS } from '../../names.ts';
import type { Rule, Trouble } from '../../rule.ts';

export const rule: Rule = {
  name: 'none-left-out',
  proves:
    'What all other answers of a question settle for the rules and the ticket, the last one settles too.',

  flow: ({ script }) =>
    [script.main, ...Object.values(script.interrupts).map(({ steps }) => steps)].flatMap(steps =>
      steps.flatMap((step, index) =>
        isQuestionStep(step) ? leftOut(step, askedFor(steps.slice(index + 1))) : [],
      ),
    ),
};

/** With two answers, one often settles on purpose what the other leaves open. */
const FEWEST_ANSWERS = 3;

function leftOut(question: Question, later: ReadonlySet<string>): Trouble[] {
  const answers = Object.entries(question.after).filter(([answer]) => !endsHere(question, answer));
  if (answers.length < FEWEST_ANSWERS) return [];
  return Object.keys(WATCHED_FINDINGS)
    .filter(finding => finding !== question.finding && !later.has(finding))
    .flatMap(finding => {
      const [left, ...more] = answers.filter(([, { sets }]) => !(finding in sets));
      if (left === undefined || more.length > 0) return [];
      return [
        {
          step: question.id,
          path: ['answers', left[0]],
          message: `all answers but "${left[0]}" settle "${finding}"`,
          remedy: `let "${left[0]}" settle it too (\`sets\`), not-sure if need be, or ask for it further down`,
        },
      ];
    });
}

const askedFor = (steps: readonly Step[]): ReadonlySet<string> =>
  new Set(steps.filter(isQuestionStep).map(({ finding }) => finding));

const endsHere = (question: Question, answer: string): boolean =>
  question.kind === 'try' && question.fixed !== null && answer === 'fixed';
