import { ASKED_OFF, DEVICE, KEEP_ON_WORDS, POWER, SERVER } from '../../names.ts';
import type { Rule, Trouble } from '../../rule.ts';

export const rule: Rule = {
  name: 'power-agrees',
  proves:
    'What people are told about the power at the end agrees with what they were told before, and with how it is.',

  opened({ step, view, desk }) {
    if (desk || step.kind !== 'try' || step.effect !== 'start' || !view.said(KEEP_ON_WORDS)) return null;
    return trouble(
      `a start after "${KEEP_ON_WORDS}": it was to stay on, without a restart`,
      'save what can be read and hand over',
      'effect',
    );
  },

  ended({ step, view, desk, segment, by, outcome: { keep } }) {
    // What an interrupt leads to outranks what was said before it.
    if (desk || segment !== 'main' || by !== 'flow' || step.kind !== 'hand-over') return null;
    // After an alarm its own words count.
    if (view.sign('danger') || view.sign('attack') || keep === null) return null;
    if (keep === 'on' && view.is(POWER, 'off')) {
      return trouble(
        '"keep it on" is said of something that is off',
        'hand over with `keep: off` where "power" is off',
      );
    }
    if (keep === 'on' && !view.said(KEEP_ON_WORDS)) {
      return trouble(
        `"keep it on" without the words of "${KEEP_ON_WORDS}": no restart, no sleep`,
        `say "${KEEP_ON_WORDS}" before`,
      );
    }
    if (keep === 'off' && view.said(KEEP_ON_WORDS)) {
      return trouble(
        `"keep it off" after "${KEEP_ON_WORDS}"`,
        'hand over with `keep: on` where it was left on',
      );
    }
    if (keep !== 'as-it-is' && view.is(DEVICE, SERVER) && !view.sign('mechanical')) {
      return trouble(
        `"keep it ${keep}" is said of a machine that others depend on`,
        'hand over with `keep: as-it-is`',
      );
    }
    if (keep === 'off' && view.is(POWER, 'on') && !view.isSet(ASKED_OFF)) {
      return trouble('"keep it off" is said of something that is on', 'visit the block switch-off before');
    }
    return null;
  },
};

const trouble = (message: string, remedy: string, path = 'hand_over'): Trouble => ({
  path: [path],
  message,
  remedy,
});
