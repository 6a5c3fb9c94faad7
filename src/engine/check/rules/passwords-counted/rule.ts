import { ASKS_PASSWORD, PASSWORD_WORDS, REFUSAL } from '../../names.ts';
import type { Rule } from '../../rule.ts';

export const rule: Rule = {
  name: 'passwords-counted',
  proves:
    'Where a share asks for a password, people hear that a third wrong one locks the account before they try anything.',

  opened({ step, view, desk }) {
    if (desk || step.kind !== 'try' || !view.is(REFUSAL, ...ASKS_PASSWORD)) return null;
    if (view.said(PASSWORD_WORDS)) return null;
    return {
      message: `a password is asked for, and people try on without the words of "${PASSWORD_WORDS}"`,
      remedy: `say "${PASSWORD_WORDS}" where { ${REFUSAL}: [${ASKS_PASSWORD.join(', ')}] }`,
    };
  },
};
