/** What is said to somebody who asks whether they may just do something. Pure. */
import type { State } from '#engine/state.ts';

/** Careful by what is known so far; the one wrong answer here can cost the only copy. */
export function instead({ signs }: State): string {
  if (signs.includes('danger'))
    return 'No, please: leave it and keep away until somebody has looked at it. People first.';
  if (signs.includes('attack'))
    return 'No, please: change, open and copy nothing on it. The security contact says what comes first.';
  if (signs.includes('mechanical'))
    return 'No, please: every minute that drive runs can cost more than it saves. It stays off until the desk has looked at it.';
  if (signs.includes('hardware-failure') || signs.includes('suspect'))
    return 'Please not yet. Change nothing on it until we know how it stands; what is safe to do I tell you, step by step.';
  return "Please wait with that until we know what it is: what is safe to try I tell you. If it can't wait, say **person**.";
}
