import type { Rule } from '../../rule.ts';

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

  ended({ view, by, step, outcome, desk }) {
    if (!view.sign('hardware-failure')) return null;
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
};
