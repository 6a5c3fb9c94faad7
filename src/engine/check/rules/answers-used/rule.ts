import { readsOf } from '#engine/condition.ts';
import type { Question, Script, Step } from '#engine/script.ts';
import { WATCHED_FINDINGS } from '../../names.ts';
import type { Rule } from '../../rule.ts';
import { segmentSteps, troubleAt, writtenSteps } from '../../written.ts';

export const rule: Rule = {
  name: 'answers-used',
  proves:
    'Every question is asked, and every start made, for something: a condition, a way, a sign, evidence or a field of the ticket.',

  together: subjects =>
    writtenSteps(subjects).flatMap(written => {
      const used = written.instances.some(
        ({ subject, step }) =>
          !isAsked(step, subject.desk) ||
          changesSomething(step) ||
          step.finding in WATCHED_FINDINGS ||
          isRead(subject.script, step.finding),
      );
      return used
        ? []
        : [
            troubleAt(
              written,
              written.instances[0]!.step.kind === 'try'
                ? 'the drive is started, and whatever comes of it changes nothing'
                : 'whatever is answered here changes nothing and fills no field of the ticket',
              'take the step out, or say what it is for: `fixed`, `fills`, `evidence`, `goes`, `raises` or a condition',
            ),
          ];
    }),
};

/** Words, a number or a picture are for the technician to read. A step's use shows at once, but for a start by people. */
const isAsked = (step: Step, desk: boolean): step is Question =>
  step.kind === 'ask' ? step.answers.length > 0 : !desk && step.kind === 'try' && step.effect === 'start';

const changesSomething = ({ fills, after, ...step }: Question): boolean =>
  fills.length > 0 ||
  (step.kind === 'try' && step.fixed !== null) ||
  Object.values(after).some(
    ({ raises, clears, sets, evidence, goes }) =>
      raises.length + clears.length > 0 ||
      goes !== null ||
      [sets, evidence.for, evidence.against].some(part => Object.keys(part).length > 0),
  );

const isRead = (script: Script, finding: string): boolean =>
  segmentSteps(script).some(step => readsOf(step.if).some(read => read.finding === finding));
