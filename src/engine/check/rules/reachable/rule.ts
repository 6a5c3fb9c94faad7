import type { Rule, Subject } from '../../rule.ts';
import { troubleAt, type Written, writtenSteps } from '../../written.ts';

export const rule: Rule = {
  name: 'reachable',
  proves:
    'Every step is had by some conversation: no condition that never holds, no question that is always known.',

  together: subjects =>
    writtenSteps(subjects).flatMap(written => {
      // Steps of a block that a flow never comes to are that visit's trouble, not theirs.
      const instances = written.instances.filter(({ subject, id }) => comesTo(subject, visitOf(id)));
      if (instances.length === 0 || instances.some(({ subject, id }) => has(subject, id))) return [];
      return [judged({ ...written, instances })];
    }),
};

function judged(written: Written) {
  const { subject, id, step } = written.instances[0]!;
  if (!comesTo(subject, id)) {
    return troubleAt(written, 'no conversation comes to this step', 'take it out, or lead a way to it');
  }
  return step?.if
    ? troubleAt(
        written,
        'no conversation has this step: its condition never holds here',
        'correct the condition, or take the step out',
        ['if'],
      )
    : troubleAt(
        written,
        'this question is never asked: its answer is always known before',
        'take it out, or ask it before the answer is set elsewhere',
      );
}

/** The visit that brought the step in, such as `data-first` for `data-first.copy`. */
const visitOf = (id: string): string => id.slice(0, Math.max(0, id.lastIndexOf('.')));

function comesTo({ coverage }: Subject, id: string): boolean {
  if (id === '' || coverage.arrived.has(id)) return true;
  return [...coverage.arrived].some(other => other.startsWith(`${id}.`));
}

/** A visit without a condition leaves no step of its own behind; coming to it is having it. */
const has = (subject: Subject, id: string): boolean =>
  subject.coverage.taken.has(id) || (!isStep(subject, id) && comesTo(subject, id));

const isStep = ({ steps }: Subject, id: string): boolean => steps.has(id);
