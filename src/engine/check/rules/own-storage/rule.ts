import { ALLOWED, isAboutPlugIn, RELEASED, USB_POLICY } from '../../names.ts';
import type { Rule, Trouble } from '../../rule.ts';
import type { View } from '../../view.ts';

export const rule: Rule = {
  name: 'own-storage',
  proves:
    'Where the site shuts USB storage out, nobody is told to use a stick or drive of their own, or to plug in again what the desk has not released.',

  opened({ script, segment, step, view, desk }) {
    if (desk || step.kind !== 'try') return null;
    if (segment === 'main' && isAboutPlugIn(script) && step.effect !== 'none') return shutOut(view);
    if (!step.touches.includes('own-stick')) return null;
    if (view.policy(USB_POLICY) === ALLOWED) return null;
    return {
      path: ['touches'],
      message: `a person's own storage is used where site.yaml does not allow it (${USB_POLICY})`,
      remedy: `let the step stand only where { policy.${USB_POLICY}: ${ALLOWED} }`,
    };
  },
};

function shutOut(view: View): Trouble | null {
  if (view.policy(USB_POLICY) === ALLOWED || view.is(RELEASED, 'yes')) return null;
  return {
    message: 'somebody tries on with a drive that the site shuts out: it is meant not to work',
    remedy: `visit the block usb-rules before, where { policy.${USB_POLICY}: blocked }`,
  };
}
