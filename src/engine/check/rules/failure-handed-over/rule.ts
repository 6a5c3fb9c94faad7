import { COPY } from '../../names.ts';
import type { Ended, Rule, Trouble } from '../../rule.ts';
import { troubleAt, writtenSteps } from '../../written.ts';

export const rule: Rule = {
  name: 'failure-handed-over',
  proves:
    'A failing drive is handed over, however the conversation ends: never called fixed, left, or no matter of storage.',

  opened({ step, view, desk }) {
    if (desk || step.kind !== 'try' || (step.effect !== 'start' && step.effect !== 'write')) return null;
    if (!view.sign('hardware-failure')) return null;
    return {
      path: ['effect'],
      message: 'a person starts a drive that is failing, or writes to it',
      remedy:
        'let it stand only where { hardware-failure: "no" }; what is still readable may be copied, the rest is the desk\'s',
    };
  },

  ended(at) {
    const { view, by, step, outcome, desk } = at;
    if (!view.sign('hardware-failure')) return sentAway(at);
    // A technician may stop, and may have finished the work on it; nothing makes it fixed.
    if (desk && outcome.how !== 'fixed') return null;
    if (outcome.how !== 'escalated') {
      return {
        message: `with hardware-failure raised the conversation ends as ${outcome.how}`,
        remedy: 'this is the engine, not the flow: its guard must turn every such ending into a hand-over',
      };
    }
    if (by !== 'answer' && step.kind !== 'end') return null;
    return {
      message: `with hardware-failure raised this step still says ${step.kind === 'end' ? step.how : 'fixed'}`,
      remedy: 'let it stand only where { hardware-failure: "no" }, and hand over instead',
    };
  },

  together: (subjects, { faults }) =>
    writtenSteps(subjects.filter(({ desk }) => !desk)).flatMap(written => {
      const { step } = written.instances[0]!;
      if (step.kind !== 'try' || step.fixed === null || !faults[step.fixed]?.failing) return [];
      return [
        troubleAt(
          written,
          `"${step.fixed}" is a drive that fails, and this step calls it fixed`,
          'hand over; name in `fixed` what the step can really mend',
          ['fixed'],
        ),
      ];
    }),
};

/** Somebody else's matter, although they were asked for their files, or could not say whether it is one of ours. */
function sentAway({ view, desk, by, step, answer }: Ended): Trouble | null {
  if (desk || by !== 'flow' || step.kind !== 'end') return null;
  if (answer === 'not-sure') {
    return {
      message: 'who is not sure is sent elsewhere',
      remedy: 'hand over: the desk finds out whose matter it is',
    };
  }
  if (!view.isSet(COPY)) return null;
  return {
    message: 'a person who was asked for their files is sent elsewhere',
    remedy: 'find out before whether it is about storage at all, and hand over from here on',
  };
}
