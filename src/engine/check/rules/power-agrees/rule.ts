import {
  ASKED_OFF,
  DANGER_WHEN,
  DEVICE,
  isAboutStarting,
  KEEP_ON_WORDS,
  NO_DRIVE,
  POWER,
  SAVING,
  SERVER,
  SERVER_WORDS,
  SHARE,
} from '../../names.ts';
import type { Ended, Opened, Rule, Trouble } from '../../rule.ts';
import type { View } from '../../view.ts';
import { segmentSteps } from '../../written.ts';

export const rule: Rule = {
  name: 'power-agrees',
  proves:
    'What people are told about the power agrees from step to step and at the end, and with how it is; every hand-over says what to do with it, or that nothing hangs on it.',

  opened(at) {
    return at.desk ? null : tried(at);
  },

  ended(at) {
    const { step, view, desk, segment, by } = at;
    // What an interrupt leads to outranks what was said before it; after an alarm its own words count.
    if (desk || segment !== 'main' || by !== 'flow' || step.kind !== 'hand-over') return null;
    if (view.sign('danger') || view.sign('attack')) return null;
    return handedOver(at);
  },

  flow: ({ script }) =>
    segmentSteps(script)
      .filter(step => step.kind === 'hand-over' && step.keep === null)
      .map(({ id }) => ({
        ...{ step: id, path: ['hand_over'] },
        message: 'a hand-over without a word about the power: nobody tells whether that is meant',
        remedy: 'give it `keep: off`, `on` or `as-it-is`, or `as-usual` where nothing hangs on it',
      })),
};

const mayFail = (view: View): boolean => view.sign('hardware-failure') || view.sign('suspect');

function tried({ step, view, script, segment }: Opened): Trouble | null {
  if (step.kind !== 'try' || step.effect === 'none') return null;
  if (view.isSet(ASKED_OFF)) {
    return trouble('this uses what was to be switched off and left off', 'hand over after that', 'effect');
  }
  if (step.effect === 'start') {
    if (!view.said(KEEP_ON_WORDS)) return null;
    return trouble(
      `a start after "${KEEP_ON_WORDS}": it was to stay on, without a restart`,
      'save what can be read and hand over',
      'effect',
    );
  }
  const isOff = view.is(POWER, 'off');
  if (isOff || (segment === 'main' && isAboutStarting(script) && !view.is(POWER, 'on'))) {
    return trouble(
      `this uses a machine that is ${isOff ? 'off' : 'not known to run'}`,
      `let it stand only where it runs, and "${POWER}" is on`,
      'effect',
    );
  }
  if (!SAVING.includes(step.finding) || !mayFail(view) || view.said(KEEP_ON_WORDS)) return null;
  // What broke in while this stood open came after the words before it.
  if (view.isSet(DANGER_WHEN)) return null;
  return trouble(
    `a drive that may be failing is copied from without the words of "${KEEP_ON_WORDS}": it may not start again`,
    `say "${KEEP_ON_WORDS}" before`,
    'effect',
  );
}

function handedOver({ view, outcome: { keep } }: Ended): Trouble | null {
  const keptOn = view.said(KEEP_ON_WORDS);
  if (keep === null) {
    if (view.isSet(ASKED_OFF)) return trouble(...OFF_IN_THE_END);
    if (keptOn) return trouble(...ON_IN_THE_END);
    // The words for a server speak of the power, and so do those that anybody heard who spoke of danger.
    if (!mayFail(view) || view.said(SERVER_WORDS) || view.is(DEVICE, ...NO_DRIVE)) return null;
    if (view.isSet(DANGER_WHEN)) return null;
    return trouble(
      'a drive that may be failing is handed over without a word about its power',
      'give the hand-over `keep: off`, `on` or `as-it-is`',
    );
  }
  if (keep === 'on' && view.is(POWER, 'off')) {
    return trouble(
      '"keep it on" is said of something that is off',
      'hand over with `keep: off` where "power" is off',
    );
  }
  if (keep === 'on' && !keptOn) {
    return trouble(
      `"keep it on" without the words of "${KEEP_ON_WORDS}": no restart, no sleep`,
      `say "${KEEP_ON_WORDS}" before`,
    );
  }
  if (keep === 'off' && keptOn) {
    return trouble(
      `"keep it off" after "${KEEP_ON_WORDS}"`,
      'hand over with `keep: on` where it was left on',
    );
  }
  if (keep !== 'as-it-is' && !view.sign('mechanical') && view.is(DEVICE, SHARE)) {
    return trouble(
      `"keep it ${keep}" is said of a share, which nobody can switch`,
      'hand over with `keep: as-usual`, or `as-it-is` where nobody is to touch anything',
    );
  }
  if (keep !== 'as-it-is' && !view.sign('mechanical') && view.is(DEVICE, SERVER)) {
    return trouble(
      `"keep it ${keep}" is said of a machine that others depend on`,
      'hand over with `keep: as-it-is`',
    );
  }
  if (keep === 'as-it-is' && keptOn) return trouble(...ON_IN_THE_END);
  if (keep !== 'off' && view.isSet(ASKED_OFF)) return trouble(...OFF_IN_THE_END);
  if (keep === 'off' && !view.isSet(ASKED_OFF) && view.isSet(POWER) && !view.is(POWER, 'off')) {
    return trouble(
      `"keep it off" is said of something that ${view.is(POWER, 'on') ? 'is on' : 'may be on'}`,
      'visit the block switch-off before, or hand over with `keep: as-it-is`',
    );
  }
  return null;
}

const OFF_IN_THE_END = [
  'it was to be switched off, and in the end nobody says to keep it off',
  'give the hand-over `keep: off`',
] as const;

const ON_IN_THE_END = [
  'it was to stay on, and in the end nobody says to keep it on',
  'give the hand-over `keep: on`',
] as const;

const trouble = (message: string, remedy: string, path = 'hand_over'): Trouble => ({
  path: [path],
  message,
  remedy,
});
