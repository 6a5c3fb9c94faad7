import type { Script } from '#engine/script.ts';
import { COPY, COPY_SEEN, DANGER_WHEN, MISSED, NOTHING_MISSED, PLACE, SAVING, WAITS } from '../../names.ts';
import type { Rule } from '../../rule.ts';
import type { View } from '../../view.ts';

export const rule: Rule = {
  name: 'saved-while-it-runs',
  proves:
    'From a drive that may be failing and is kept on people are told to copy what they would miss; where nothing is to be saved they are not.',

  opened({ step, view, desk }) {
    if (desk || step.kind !== 'try' || !SAVING.includes(step.finding)) return null;
    if (!mayFail(view) || !view.isSet(COPY) || wouldMiss(view)) return null;
    return {
      message:
        'a drive that may be failing is read to copy what is safe elsewhere, or what nobody would miss',
      remedy: 'let it stand only where the files are nowhere else, or nobody has seen them there',
    };
  },

  ended({ script, view, desk, segment, by, step, outcome }) {
    if (desk || segment !== 'main' || by !== 'flow' || step.kind !== 'hand-over' || outcome.keep !== 'on')
      return null;
    if (copiesByItself(script) || !view.sign('suspect') || view.sign('danger') || view.sign('attack'))
      return null;
    if (SAVING.some(each => view.isSet(each)) || !view.isSet(COPY) || !wouldMiss(view)) return null;
    // Looked at last, because what a rule looks at tells conversations apart up to here: a danger long past breaks in
    // anywhere, also when the time to copy is over.
    if (view.is(PLACE, WAITS) || view.isSet(DANGER_WHEN)) return null;
    return {
      path: ['hand_over'],
      message:
        'it still runs and may not for long, and nobody was told to copy the files that are nowhere else',
      remedy: 'visit the block save-now before, while it runs',
    };
  },
};

const mayFail = (view: View): boolean => view.sign('suspect') || view.sign('hardware-failure');

const wouldMiss = (view: View): boolean => !view.is(COPY, COPY_SEEN) && !view.is(MISSED, NOTHING_MISSED);

/** A flow with a step of its own for it is left to itself: which of its conversations had the step is not kept. */
const copiesByItself = ({ main }: Script): boolean =>
  main.some(
    step =>
      step.kind === 'try' &&
      step.effect === 'read' &&
      !SAVING.includes(step.finding) &&
      /\bcopy (?:what|your|the (?:most|files))\b/i.test(step.text),
  );
