import { isQuestionStep } from '#engine/advance.ts';
import { decided } from '#engine/condition.ts';
import type { Question, WorkStep } from '#engine/script.ts';
import { TOLD_BY, WATCHED_FINDINGS } from '../../names.ts';
import type { Rule, Trouble } from '../../rule.ts';

export const rule: Rule = {
  name: 'none-left-out',
  proves:
    'What all other answers of a question settle for the rules and the ticket, the last one settles too.',

  flow: ({ script }) =>
    [script.main, ...Object.values(script.interrupts).map(({ steps }) => steps)].flatMap(steps =>
      steps.flatMap((step, index) =>
        isQuestionStep(step) || step.kind === 'work'
          ? leftOut(step, steps.slice(index + 1).filter(isQuestionStep))
          : [],
      ),
    ),
};

/** With two answers, one often settles on purpose what the other leaves open; not so where the ticket asks for it. */
const fewestFor = (step: Question | WorkStep, finding: string): number =>
  step.kind !== 'work' && step.fills.some(field => TOLD_BY[field] === finding) ? 2 : 3;

function leftOut(question: Question | WorkStep, later: readonly Question[]): Trouble[] {
  const after = question.kind === 'work' ? question.verdicts : question.after;
  const answers = Object.entries(after).filter(([answer]) => !endsHere(question, answer));
  return Object.keys(WATCHED_FINDINGS)
    .filter(finding => finding !== question.finding)
    .filter(finding => answers.length >= fewestFor(question, finding))
    .flatMap(finding => {
      const [left, ...more] = answers.filter(([, { sets }]) => !(finding in sets));
      if (left === undefined || more.length > 0) return [];
      if (
        later.some(
          step =>
            step.finding === finding && mayFollow(step, { [question.finding]: left[0], ...left[1].sets }),
        )
      )
        return [];
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

/** Can the later question be asked of whoever is known so far? */
const mayFollow = ({ if: when }: Question, known: Readonly<Record<string, string>>): boolean =>
  decided(when, known) !== false;

const endsHere = (question: Question | WorkStep, answer: string): boolean =>
  question.kind === 'try' && question.fixed !== null && answer === 'fixed';
