import { readsOf } from '#engine/condition.ts';
import type { Question, Script } from '#engine/script.ts';
import { WATCHED_FINDINGS } from '../../names.ts';
import type { Rule } from '../../rule.ts';
import { segmentSteps, troubleAt, writtenSteps } from '../../written.ts';

export const rule: Rule = {
  name: 'answers-used',
  proves:
    'Every question is asked for something: a condition, a way, a sign, evidence or a field of the ticket.',

  together: subjects =>
    writtenSteps(subjects).flatMap(written => {
      const used = written.instances.some(
        ({ subject, step }) =>
          step.kind !== 'ask' ||
          isOpen(step) ||
          changesSomething(step) ||
          step.finding in WATCHED_FINDINGS ||
          isRead(subject.script, step.finding),
      );
      return used
        ? []
        : [
            troubleAt(
              written,
              'whatever is answered here changes nothing and fills no field of the ticket',
              'take the question out, or say what it is for: `fills`, `evidence`, `goes`, `raises` or a condition',
            ),
          ];
    }),
};

/** Words, a number or a picture are for the technician to read. */
const isOpen = ({ answers }: Question): boolean => answers.length === 0;

const changesSomething = ({ fills, after }: Question): boolean =>
  fills.length > 0 ||
  Object.values(after).some(
    ({ raises, clears, sets, evidence, goes }) =>
      raises.length + clears.length > 0 ||
      goes !== null ||
      [sets, evidence.for, evidence.against].some(part => Object.keys(part).length > 0),
  );

const isRead = (script: Script, finding: string): boolean =>
  segmentSteps(script).some(step => readsOf(step.if).some(read => read.finding === finding));
