import type { Rule } from '../../rule.ts';

export const rule: Rule = {
  name: 'failure-handed-over',
  proves:
    'A failing drive is handed over, however the conversation ends: never called fixed, left, or no matter of storage.',

  ended({ view, by, step, outcome }) {
    if (!view.sign('hardware-failure')) return null;
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
