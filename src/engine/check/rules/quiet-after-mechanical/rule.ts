import type { Script } from '#engine/script.ts';
import {
  GRAVE_NOISES,
  HARM_ASKED,
  isAboutDrive,
  NO_DRIVES_NOISE,
  NOISE,
  NOISE_WORDS,
  SOLID,
  SOURCE,
  SPINNING,
} from '../../names.ts';
import type { Ended, Rule, Trouble } from '../../rule.ts';
import { segmentSteps } from '../../written.ts';

export const rule: Rule = {
  name: 'quiet-after-mechanical',
  proves:
    'Once a drive clicks, grinds, was dropped or got wet, nothing starts it, reads it or listens to it, and the person is told at once; before anything starts one, that was asked.',

  opened({ script, segment, step, view, desk }) {
    if (step.kind !== 'try') {
      return !desk && step.finding === NOISE && !view.said(NOISE_WORDS) ? BEFORE_THE_NOISE : null;
    }
    if (step.effect === 'none' && !step.touches.includes('listen')) return null;
    if (!view.sign('mechanical')) {
      if (desk || segment !== 'main' || !isToBeAsked(script)) return null;
      return HARM_ASKED.some(each => view.isSet(each)) ? null : NOT_ASKED;
    }
    return {
      message: 'this step uses a drive that clicks, grinds, was dropped or got wet',
      remedy:
        'let it stand only where { mechanical: "no" }, or hand over before it; a word for it may come at any question',
    };
  },

  ended(at) {
    const { by, step, outcome, view } = at;
    // These outrank it and say themselves what to do with the power.
    if (by !== 'flow' || view.sign('danger') || view.sign('attack')) return null;
    if (!view.sign('mechanical')) return unheard(at);
    if (step.kind !== 'hand-over' || outcome.keep === 'off') return null;
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

/** Where words for it are an alarm, flows about a drive ask for it too. */
const isToBeAsked = (script: Script): boolean =>
  isAboutDrive(script) && Object.values(script.interrupts).some(({ about }) => about.sign === 'mechanical');

const NOT_ASKED: Trouble = {
  message: 'nobody was asked whether it was dropped, got wet or makes a noise, and this step uses it',
  remedy: 'visit the block safe-first before',
};

const BEFORE_THE_NOISE: Trouble = {
  message: `people are asked what it sounds like before the words of "${NOISE_WORDS}": off, and nothing switched on to listen`,
  remedy: `say "${NOISE_WORDS}" before`,
};

/** The sound of a dying drive, and nothing that takes it from the drive: no sign says so. */
function unheard({ view, segment }: Ended): Trouble | null {
  // In this order, so that little has to be kept where nobody speaks of a noise.
  if (segment !== 'main' || !view.is(NOISE, ...GRAVE_NOISES)) return null;
  if (view.sign('hardware-failure') || view.sign('suspect')) return null;
  if (view.is(SOURCE, ...NO_DRIVES_NOISE) || view.is(SPINNING, SOLID)) return null;
  return {
    message:
      'it clicks, grinds or starts again and again, and nothing says that it is no drive; yet no sign is raised',
    remedy: 'raise mechanical, or suspect, unless it comes from something without a spinning drive',
  };
}
