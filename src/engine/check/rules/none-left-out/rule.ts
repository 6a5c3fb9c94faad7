import { isQuestionStep } from '#engine/advance.ts';
import type { Question, Step, WorkStep } from '#engine/script.ts';
import { TOLD_BY, WATCHED_FINDINGS } from '../../names.ts';
import type { Rule, Trouble } from '../../rule.ts';

export const rule: Rule = {
  name: 'none-left-out',
  proves:
    'What all other answers of a question settle for the rules and the ticket, the last one settles too.',

  flow: ({ script }) =>
    [script.main, ...Object.values(script.interrupts).map(({ steps }) => steps)].flatMap(steps =>
      steps.flatMap((step, index) =>
        isQuestionStep(step) || step.kind === 'work' ? leftOut(step, askedFor(steps.slice(index + 1))) : [],
      ),
    ),
};

/** With two answers, one often settles on purpose what the other leaves open; not so where the ticket asks for it. */
const fewestFor = (step: Question | WorkStep, finding: string): number =>
  step.kind !== 'work' && step.fills.some(field => TOLD_BY[field] === finding) ? 2 : 3;

function leftOut(question: Question | WorkStep, later: ReadonlySet<string>): Trouble[] {
  const after = question.kind === 'work' ? question.verdicts : question.after;
  const answers = Object.entries(after).filter(([answer]) => !endsHere(question, answer));
  return Object.keys(WATCHED_FINDINGS)
    .filter(finding => finding !== question.finding && !later.has(finding))
    .filter(finding => answers.length >= fewestFor(question, finding))
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

const endsHere = (question: Question | WorkStep, answer: string): boolean =>
  question.kind === 'try' && question.fixed !== null && answer === 'fixed';
