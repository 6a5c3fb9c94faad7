import type { Touch } from '#engine/schema.ts';
import type { Question, Script } from '#engine/script.ts';
import {
  ALLOWED,
  ENCRYPTION,
  FIRMWARE_POLICY,
  FIRMWARE_WORDS,
  KEY_ON_FILE,
  NOT_THEIRS,
  PROVED,
  THEIRS,
  UNLOCKED,
} from '../../names.ts';
import type { Rule, Trouble } from '../../rule.ts';
import type { View } from '../../view.ts';
import { segmentSteps } from '../../written.ts';

/** May make an encrypted drive ask for its key. */
const ASKS_FOR_KEY: readonly Touch[] = [
  'firmware-settings',
  'firmware-update',
  'security-chip',
  'move-drive',
];
const IN_SETUP: readonly Touch[] = ['firmware-look', 'firmware-settings', 'firmware-update', 'security-chip'];

export const rule: Rule = {
  name: 'firmware-needs-key',
  proves:
    'Nobody changes firmware or moves a drive before its encryption is known to be off or its key to be on file, goes into firmware setup where the site locks it, or writes a key into the chat.',

  opened({ script, step, view, desk }) {
    if (step.kind !== 'try') return desk && asksForKey(step) ? forWhom(script, view) : null;
    if (!desk && touches(step.touches, IN_SETUP) && view.policy(FIRMWARE_POLICY) !== ALLOWED) {
      return {
        path: ['touches'],
        message: `this goes into firmware setup where site.yaml does not allow it (${FIRMWARE_POLICY})`,
        remedy: `let the step stand only where { policy.${FIRMWARE_POLICY}: ${ALLOWED} }`,
      };
    }
    if (!desk && step.touches.includes('firmware-look') && !view.said(FIRMWARE_WORDS)) {
      return {
        path: ['touches'],
        message: `people look into firmware setup without the words of "${FIRMWARE_WORDS}": change nothing, do not save`,
        remedy: `give the step \`cautions: [${FIRMWARE_WORDS}]\``,
      };
    }
    if (!touches(step.touches, ASKS_FOR_KEY) || keyIsSafe(view)) return null;
    return {
      path: ['touches'],
      message:
        'an encrypted drive may ask for its key after this, and nobody has made sure that there is one',
      remedy: `ask for "${ENCRYPTION}" (${UNLOCKED.join(', ')}) or let the desk confirm "${KEY_ON_FILE}", and go on only then`,
    };
  },

  flow: ({ script }) =>
    segmentSteps(script)
      .filter((step): step is Question => step.kind === 'ask' && step.fills.includes('encryption.key'))
      .filter(step => step.answers.length === 0)
      .map(({ id }) => ({
        step: id,
        path: ['fills'],
        message: 'an open question about the key invites people to send the key itself',
        remedy: 'offer places where a key is kept as answers; the key never goes into the chat',
      })),
};

const asksForKey = ({ finding, fills }: Question): boolean =>
  finding === KEY_ON_FILE || fills.includes('encryption.key');

/** Keys are talked out of desks: a hurry, a name, a machine that is somebody else's. Where both are asked, both must be well. */
function forWhom({ findings }: Script, view: View): Trouble | null {
  const proved = findings[PROVED] === undefined || view.is(PROVED, 'yes');
  if (proved && !view.is(THEIRS, ...NOT_THEIRS)) return null;
  return {
    message: 'a key is looked for, and they have not proved who they are, or the machine is not theirs',
    remedy: `end before, where "${PROVED}" is not yes or "${THEIRS}" is ${NOT_THEIRS.join(' or ')}`,
  };
}

const touches = (touched: readonly Touch[], some: readonly Touch[]): boolean =>
  some.some(touch => touched.includes(touch));

const keyIsSafe = (view: View): boolean => view.is(ENCRYPTION, ...UNLOCKED) || view.is(KEY_ON_FILE, 'yes');
