import { ALLOWED, USB_POLICY } from '../../names.ts';
import type { Rule } from '../../rule.ts';

export const rule: Rule = {
  name: 'own-storage',
  proves: 'Nobody is told to use a stick or drive of their own where the site shuts USB storage out.',

  opened({ step, view, desk }) {
    if (desk || step.kind !== 'try' || !step.touches.includes('own-stick')) return null;
    if (view.policy(USB_POLICY) === ALLOWED) return null;
    return {
      path: ['touches'],
      message: `a person's own storage is used where site.yaml does not allow it (${USB_POLICY})`,
      remedy: `let the step stand only where { policy.${USB_POLICY}: ${ALLOWED} }`,
    };
  },
};
