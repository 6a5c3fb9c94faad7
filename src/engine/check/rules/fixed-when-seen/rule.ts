import { isAboutStarting, THIRD, TIMES } from '../../names.ts';
import type { Rule } from '../../rule.ts';

export const rule: Rule = {
  name: 'fixed-when-seen',
  proves:
    'Fixed is said only after it was seen to work, after a start where that matters, and never for the third time on one machine.',

  ended({ script, segment, step, outcome, view, desk }) {
    if (desk || outcome.how !== 'fixed' || step.kind !== 'try') return null;
    // An alarm's questions are those of all flows.
    if ((segment !== 'main' || isAboutStarting(script)) && step.effect === 'none') {
      return {
        path: ['fixed'],
        message: 'fixed is said before the machine was seen to start',
        remedy: 'ask for a start in a step of its own (effect: start) and put `fixed` there',
      };
    }
    if (!view.is(TIMES, THIRD)) return null;
    return {
      path: ['fixed'],
      message: 'fixed is said for the third time on one machine',
      remedy: `hand over where "${TIMES}" is ${THIRD}`,
    };
  },
};
