import type { Script } from '#engine/script.ts';
import { COPY, DANGER_WHEN, KEEP_ON_WORDS, PLACE, SAVING, WAITS } from '../../names.ts';
import type { Opened, Rule, Trouble } from '../../rule.ts';

export const rule: Rule = {
  name: 'saved-while-it-runs',
  proves:
    'Who is told to leave on a drive that may be failing is told to copy what is nowhere else, before the desk asks for itself; where nothing is to be saved they are not.',

  opened(at) {
    if (at.desk) return null;
    return SAVING.includes(at.step.finding) ? saving(at) : unsaved(at);
  },
};

function saving({ view }: Opened): Trouble | null {
  if (!view.sign('hardware-failure') && !view.sign('suspect')) return null;
  if (!view.isSet(COPY) || view.sign('only-copy')) return null;
  return {
    message: 'a drive that may be failing is read to copy what is safe elsewhere, or what nobody would miss',
    remedy: 'let it stand only where the files are nowhere else, or nobody has seen them there',
  };
}

/** How many are affected is of use to the desk alone: by then everything urgent has been said. */
function unsaved({ script, segment, step, view }: Opened): Trouble | null {
  if (segment !== 'main' || !step.fills.includes('impact.who')) return null;
  // In this order, so that little has to be kept of those who were not told.
  if (!view.said(KEEP_ON_WORDS) || !view.sign('suspect') || !view.sign('only-copy')) return null;
  if (SAVING.some(each => view.isSet(each)) || copiesByItself(script)) return null;
  // A danger long past breaks in anywhere, also when the time to copy is over.
  if (view.isSet(DANGER_WHEN) || view.is(PLACE, WAITS)) return null;
  return {
    message:
      'it is to stay on and may not run for long, and nobody was told to copy the files that are nowhere else',
    remedy: 'visit the block save-now before, while it runs',
  };
}

/** A flow with a step of its own for it is left to itself: which of its conversations had the step is not kept. */
const copiesByItself = ({ main }: Script): boolean =>
  main.some(
    step =>
      step.kind === 'try' &&
      step.effect === 'read' &&
      !SAVING.includes(step.finding) &&
      /\bcopy (?:what|your|the (?:most|files))\b/i.test(step.text),
  );
