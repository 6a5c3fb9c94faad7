import type { Rule } from '../../rule.ts';
import { segmentSteps } from '../../written.ts';

export const rule: Rule = {
  name: 'quiet-after-mechanical',
  proves:
    'Once a drive clicks, grinds, was dropped or got wet, nothing starts it, reads it or listens to it, and the person is told at once.',

  opened({ step, view }) {
    if (step.kind !== 'try' || (step.effect === 'none' && !step.touches.includes('listen'))) return null;
    if (!view.sign('mechanical')) return null;
    return {
      message: 'this step uses a drive that clicks, grinds, was dropped or got wet',
      remedy:
        'let it stand only where { mechanical: "no" }, or hand over before it; a word for it may come at any question',
    };
  },

  ended({ by, step, outcome, view }) {
    if (by !== 'flow' || step.kind !== 'hand-over' || outcome.keep === 'off' || !view.sign('mechanical'))
      return null;
    // These outrank it and say themselves what to do with the power.
    if (view.sign('danger') || view.sign('attack')) return null;
    return {
      path: ['hand_over'],
      message:
        'a drive that clicks, grinds, was dropped or got wet is handed over without saying to keep it off',
      remedy: 'give the hand-over `keep: off`, and ask before whether it is off',
    };
  },

  flow: ({ script }) =>
    script.onSign.mechanical !== undefined
      ? []
      : segmentSteps(script)
          .filter(
            step =>
              'after' in step &&
              Object.values(step.after).some(({ raises }) => raises.includes('mechanical')),
          )
          .map(({ id }) => ({
            step: id,
            path: ['raises'],
            message: 'mechanical is raised here and no caution is said with it',
            remedy: 'give one caution of catalogue/cautions.yaml `on_sign: mechanical`',
          })),
};
