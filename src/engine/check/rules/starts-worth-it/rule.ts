import { isQuestionStep } from '#engine/advance.ts';
import type { Script, TryStep } from '#engine/script.ts';
import { DANGER_WHEN, isAboutNoise, SAVING } from '../../names.ts';
import type { Rule } from '../../rule.ts';

export const rule: Rule = {
  name: 'starts-worth-it',
  proves:
    'A drive that may be failing and holds the only copy is started only for a test that can clear it or to save the files at once, and not at all if it makes a noise; it is called fixed only by such a test.',

  opened({ script, step, view, desk, segment }) {
    if (desk || step.kind !== 'try' || step.effect !== 'start') return null;
    if (!view.sign('suspect') || !view.sign('only-copy')) return null;
    if ((canClear(step) || leadsToSaving(step, script)) && !(segment === 'main' && isAboutNoise(script)))
      return null;
    if (view.isSet(DANGER_WHEN)) return null;
    if (segment === 'main' && isAboutNoise(script)) {
      return {
        path: ['effect'],
        message: 'a drive that makes a noise is started, with the only copy on it',
        remedy: 'let it stand only where the files were seen elsewhere, or nobody would miss them',
      };
    }
    return {
      path: ['effect'],
      message: 'a drive that may be failing is started with the only copy on it, and that can clear nothing',
      remedy:
        'leave it to the desk, let the step show whether it is well (`fixed`, and `clears: { fixed: [suspect] }`), or let its success go on to save-now (`goes`)',
    };
  },

  ended({ step, view, desk, by, outcome }) {
    if (desk || by !== 'answer' || outcome.how !== 'fixed' || step.kind !== 'try') return null;
    if (!view.sign('suspect') || view.isSet(DANGER_WHEN)) return null;
    return {
      path: ['fixed'],
      message: 'fixed is said while the drive is still suspect',
      remedy:
        'let it stand only where { suspect: "no" }; or, if its success shows that the drive is well, `clears: { fixed: [suspect] }`',
    };
  },
};

// Above, a danger long past is left out: that suspicion may break in anywhere, and no step of the flow can clear it.

/** Does it come back, its files are copied before anything else is asked. */
function leadsToSaving({ after }: TryStep, { main }: Script): boolean {
  const then = after.fixed?.goes ?? null;
  if (then === null) return false;
  const next = main.slice(main.findIndex(({ id }) => id === then)).find(isQuestionStep);
  return next !== undefined && SAVING.includes(next.finding);
}

const canClear = ({ after }: TryStep): boolean =>
  Object.values(after).some(({ clears }) => clears.includes('suspect'));
