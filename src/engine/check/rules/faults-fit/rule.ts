import type { Rule } from '../../rule.ts';
import { troubleAt, writtenSteps } from '../../written.ts';

export const rule: Rule = {
  name: 'faults-fit',
  proves:
    'Every fault that a question speaks for, or a step mends, can be behind the symptom, and so stands on the ticket.',

  together: subjects =>
    writtenSteps(subjects.filter(({ desk }) => !desk)).flatMap(written => {
      const { step } = written.instances[0]!;
      if (step.kind !== 'ask' && step.kind !== 'try') return [];
      const fits = (fault: string) =>
        written.instances.some(({ subject }) => subject.script.faults.includes(fault));
      const spoken = Object.values(step.after).flatMap(({ evidence }) => Object.keys(evidence.for));
      const named: [string, string][] = [
        ...(step.kind === 'try' && step.fixed !== null ? [['fixed', step.fixed] as [string, string]] : []),
        ...[...new Set(spoken)].map((fault): [string, string] => ['evidence', fault]),
      ];
      return named
        .filter(([, fault]) => !fits(fault))
        .map(([part, fault]) =>
          troubleAt(
            written,
            `"${fault}" is named here, and by catalogue/faults.yaml it cannot be behind this symptom`,
            `add the symptom to the fault's \`symptoms\`, or name a fault that fits`,
            [part],
          ),
        );
    }),
};
