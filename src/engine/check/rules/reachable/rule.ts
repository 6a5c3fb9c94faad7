import type { Rule, Subject } from '../../rule.ts';
import { type Instance, troubleAt, type Written, writtenSteps } from '../../written.ts';

export const rule: Rule = {
  name: 'reachable',
  proves:
    'Every step is had by some conversation: no condition that never holds, no question that is always known.',

  together: subjects =>
    writtenSteps(subjects).flatMap(written => {
      // Steps of a block that a flow never comes to are that visit's trouble, not theirs.
      const instances = written.instances.filter(({ subject, step }) => visited(subject, step.id));
      if (instances.length === 0 || instances.some(isHad)) return [];
      return [judged({ ...written, instances })];
    }),
};

const isHad = ({ subject, step }: Instance): boolean => subject.coverage.taken.has(step.id);

function judged(written: Written) {
  const [{ subject, step }] = written.instances as [Instance];
  if (!subject.coverage.arrived.has(step.id)) {
    return troubleAt(written, 'no conversation comes to this step', 'take it out, or lead a way to it');
  }
  return step.if !== null
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

/** Is the block had that the step stands in? Its visit is `data-first` for the step `data-first.copy`. */
const visited = ({ coverage }: Subject, id: string): boolean =>
  !id.includes('.') || coverage.taken.has(id.slice(0, id.lastIndexOf('.')));
