/** What is said to somebody who asks whether they may just do something. Pure. */

import { openStep } from '#engine/advance.ts';
import type { Script } from '#engine/script.ts';
import type { State } from '#engine/state.ts';
import { asksOff } from '#hearing/asking.ts';

/** Careful by what is known so far; the one wrong answer here can cost the only copy. */
export const instead = (script: Script | null, state: State, text: string): string =>
  asksOff(text) ? mayGoOff(script, state) : mayDo(state);

function mayDo(state: State): string {
  if (about(state, 'danger'))
    return 'No, please: leave it and keep away until somebody has looked at it. People first.';
  if (about(state, 'attack'))
    return 'No, please: change, open and copy nothing on it. The security contact says what comes first.';
  if (about(state, 'mechanical'))
    return 'No, please: every minute that drive runs can cost more than it saves. It stays off until the desk has looked at it.';
  if (state.cautions.includes('noise-first'))
    return 'No, please: while a drive clicks, grinds, scrapes or starts again and again, every minute that it runs can cost more than it saves. Off first; the desk copies what can be copied.';
  const { signs } = state;
  if (signs.includes('hardware-failure') || signs.includes('suspect'))
    return 'Please not yet. Change nothing on it until we know how it stands; what is safe to do I tell you, step by step.';
  return "Please wait with that until we know what it is: what is safe to try I tell you. If it can't wait, say **person**.";
}

/** To switch off or to unplug: a yes where a drive or a person is hurt by each minute, a no where it would do the harm. */
function mayGoOff(script: Script | null, state: State): string {
  if (about(state, 'danger'))
    return 'Yes, but only if your hands, the floor and the plug are dry and nothing smokes or is hot: pull its plug or charger **at the socket**. Else keep away from it; people first.';
  if (about(state, 'attack'))
    return "No, please: leave it on, but off the network: cable out, Wi-Fi off. Only if you can't take it off the network, switch it off.";
  if (SHARED.some(id => state.cautions.includes(id)))
    return 'No, please: others depend on it. Nothing on it is switched off or pulled out before the desk has looked.';
  const step = script === null ? null : openStep(script, state);
  if (step?.finding === 'off-now')
    return 'Yes, please, right away: that is what I ask you to do. A plug-in drive is unplugged just as it is; nothing gets worse by that.';
  if (step?.kind === 'try' && asksOff(step.text))
    return 'Yes: just as this step says, and no more than that.';
  if (about(state, 'mechanical') || state.cautions.includes('noise-first'))
    return 'If a drive clicks, grinds, scrapes or was dropped: **yes, please, right away**. A plug-in drive is unplugged, a computer is shut down the normal way. Then it stays off.';
  if (state.cautions.includes('keep-on'))
    return 'No, please leave it on: it runs now and may not start again.';
  return '**Not while it counts a percentage, updates, repairs or checks a drive**: breaking that off does harm. Else please leave it as it is for a moment; when it should go off, I say so. If it clicks, smells or got wet, tell me now.';
}

/** Raised, being asked about, or its words were said. */
const about = (state: State, sign: 'danger' | 'attack' | 'mechanical'): boolean =>
  state.signs.includes(sign) ||
  state.frames.some(frame => frame.segment === sign) ||
  state.standing.some(other => other.step === '@doubt' && other.interrupt === sign);

/** Cautions that are said of what others depend on. */
const SHARED = ['server-hands-off', 'ups-hands-off', 'array-no-start', 'array-let-rebuild'];
