/** What is said to somebody who asks whether they may just do something. Pure. */

import { openStep } from '#engine/advance.ts';
import type { Script } from '#engine/script.ts';
import type { State } from '#engine/state.ts';
import {
  asksForPicture,
  asksOff,
  asksOut,
  asksToCallThem,
  asksToCancel,
  asksToGoIn,
  asksToHarm,
  asksToRing,
  asksToUnplug,
} from '#hearing/asking.ts';

/** Careful by what is known so far; the one wrong answer here can cost the only copy, or worse. Nobody is told no who wants to get help. */
export function instead(script: Script | null, state: State, text: string): string {
  if (asksToGoIn(text) && (isDanger(script, state, text) || /\bback in/i.test(text))) return NOT_IN;
  if (
    asksToCallThem(text) &&
    (about(script, state, 'attack') || /\b(?:screen|page|pop-?up|message|caller)\b/i.test(text))
  )
    return NO_NUMBER;
  if (asksToRing(text) && !asksToHarm(text)) return RING;
  if (FORMATS.test(text) && /\b(?:abort|stop|interrupt|break)\b/i.test(text)) return BREAK_OFF;
  if (asksToCancel(text)) return mayCancel(script, state, text);
  const reply = asksOff(text) ? mayGoOff(script, state, text) : mayDo(script, state, text);
  return asksOut(text)
    ? `Out of a computer, a server or a box **nothing is taken**: no battery, no drive. ${reply}`
    : reply;
}

const RING =
  "**Leaving, raising the alarm, ringing for help, your bank or the police, and changing passwords from another device: yes, at once.** Don't wait for me; I keep what you wrote.";

const NOT_IN =
  '**No.** Nobody goes back in for a machine or for files, until the fire brigade or whoever is in charge there says so.';

const NO_NUMBER =
  '**No: call no number that a screen, a mail or a caller gave you**, and let nobody in. Ring the desk, or the number on your own bank card.';

/** Raised, or told in the very question. */
const isDanger = (script: Script | null, state: State, text: string): boolean =>
  about(script, state, 'danger') ||
  /\b(?:smok\w*|burn(?:s|t|ing)?|smell\w*|flames?|fire|sparks?|swollen|bulg\w*|wet|rauch\w*|brenn\w*|verbrannt|riecht|fum[ée]e|br[uû]l\w*|feu|humo|quema\w*)\b/i.test(
    `${state.findings['danger-when'] === undefined ? state.opening : ''} ${text}`,
  );

/** A format that runs still has something left to spare; a check that runs is left alone, unless the drive is dying. */
function mayCancel(script: Script | null, state: State, text: string): string {
  if (FORMATS.test(`${state.opening} ${text}`)) return BREAK_OFF;
  return about(script, state, 'mechanical') || state.cautions.includes('noise-first') ? OFF_TOO : CANCEL;
}

const FORMATS = /\b(?:format|wip(?:e|ing)|eras(?:e|ing)|initiali)/i;

const BREAK_OFF =
  '**Yes: press Cancel, at once**, also where it runs already: what it has not reached yet is still there. Then touch nothing on it.';

const OFF_TOO = '**Yes: break it off**, and switch the drive off; it stays off.';

const CANCEL =
  'If it offers to repair, reset, initialise, format or install: **yes, press Cancel**. What is running already please let run until I know more.';

/** What an offer of the system's would write. */
const WRITES =
  /\b(?:format|initiali[sz]|repair|scan|chkdsk|fsck|fix it|reset|re-?install|install|defrag|clean ?up|recovery (?:program|software|tool)|formatier|reparier|reparer|formater|formatear|reparar)/i;

const NOT_WRITTEN =
  '**No, please.** If it offers to format, repair, scan or initialise, press **Cancel**: install and clean up nothing: all of that writes to the drive, and what it writes over is gone. What is safe to try I tell you, step by step.';

const AS_TOLD = 'Yes: just as this step says, and no more than that.';

const ONLY_THIS =
  "Please do just what this step says, and nothing beside it. If you would rather not, say that you couldn't do it.";

const NOT_THERE =
  '**No, please.** Nothing is forced online, initialised, rebuilt, repaired, swapped or restarted there before the desk has looked: one wrong step can cost all that lies on it.';

const LOOKING =
  'Looking at its lights and messages, and a photo of them, is fine. Please press, pull out and restart nothing there.';

function mayDo(script: Script | null, state: State, text: string): string {
  if (isDanger(script, state, text))
    return 'On the device itself please do nothing but what I told you; then keep away from it until somebody qualified has looked. **Leaving, raising the alarm and ringing for help: at once.** People first.';
  if (asksForPicture(text))
    return 'A photo of it or of its screen is welcome, here or on the ticket. Switch nothing on for it.';
  if (about(script, state, 'attack'))
    return 'On the machine itself please change, open and copy nothing; the security contact says what comes first. Ringing your bank or the police, and changing passwords from another device: yes, now.';
  if (about(script, state, 'mechanical'))
    return 'No, please: every minute that drive runs can cost more than it saves. It stays off until the desk has looked at it.';
  if (state.cautions.includes('noise-first'))
    return 'No, please: while a drive clicks, grinds, scrapes or starts again and again, every minute that it runs can cost more than it saves. Off first; the desk copies what can be copied.';
  if (isShared(state)) return asksToHarm(text) ? NOT_THERE : LOOKING;
  if (WRITES.test(text)) return NOT_WRITTEN;
  const step = script === null ? null : openStep(script, state);
  const copies = /\b(?:copy|save)\b/i;
  if (step?.kind === 'try' && step.effect === 'read' && copies.test(step.text) && copies.test(text))
    return AS_TOLD;
  if (step?.kind === 'try' && asksToHarm(text)) return ONLY_THIS;
  const { signs } = state;
  if (signs.includes('hardware-failure') || signs.includes('suspect'))
    return 'Please not yet. Change nothing on it until we know how it stands; what is safe to do I tell you, step by step.';
  return "Please wait with that until we know what it is: what is safe to try I tell you. If it can't wait, say **person**.";
}

/** To switch off or to unplug: a yes where a drive or a person is hurt by each minute, a no where it would do the harm. */
function mayGoOff(script: Script | null, state: State, text: string): string {
  if (
    isDanger(script, state, text) &&
    asksToUnplug(text) &&
    /\b(?:stick|card)\b/i.test(`${state.opening} ${text}`)
  )
    return 'Out with it only if it is not too hot to touch, dry, and nothing smokes: then onto something that cannot burn, and keep away. Else leave it, leave the room, and raise the alarm. People first.';
  if (isDanger(script, state, text))
    return 'Off, and its plug or charger out **at the socket**, but only if hands, floor and socket are dry and nothing smokes, smells or is hot. A server, a rack or a battery box: hands off. Open nothing. Else keep away from it; people first.';
  if (
    about(script, state, 'attack') &&
    (about(script, state, 'mechanical') || state.cautions.includes('noise-first'))
  )
    return '**Off the network first, then off with it**: a drive that clicks, grinds or was dropped gets worse with every minute.';
  if (about(script, state, 'attack'))
    return "**Off the network: yes, now**, cable out and Wi-Fi off. The machine itself stays on; only if you can't take it off the network, switch it off.";
  if (isShared(state))
    return 'No, please: others depend on it. Nothing on it is switched off or pulled out before the desk has looked.';
  const step = script === null ? null : openStep(script, state);
  if (step?.finding === 'off-now')
    return 'Yes, please, right away: that is what I ask you to do. A plug-in drive that clicks, grinds or was dropped: pull its cable just as it is. One that is only hot: eject it first; if that hangs for a minute, pull its cable.';
  if (step?.kind === 'try' && asksOff(step.text)) return AS_TOLD;
  if (about(script, state, 'mechanical') || state.cautions.includes('noise-first'))
    return '**A server or storage box that others use stays exactly as it is.** Else, if a drive clicks, grinds, scrapes or was dropped: **yes, please, right away**. A plug-in drive: pull its cable. A computer: shut it down the normal way. Then it stays off.';
  if (state.cautions.includes('keep-on'))
    return 'No, please leave it on: it runs now and may not start again.';
  if (asksToUnplug(text) && PLUG_IN.test(`${state.opening} ${text}`))
    return 'A stick, a card or a plug-in drive: **yes**. Eject it first if the computer shows it, and leave it out then. Only while something is being copied off it, let that finish.';
  return '**Not while it counts a percentage, updates, repairs or checks a drive**: breaking that off does harm. Else please leave it as it is for a moment; when it should go off, I say so. If it clicks, smells or got wet, tell me now.';
}

const PLUG_IN = /\b(?:stick|usb|portable|external|plug-in|memory card|sd card|thumb|flash drive|externe)\b/i;

const isShared = ({ symptom, cautions }: State): boolean =>
  symptom === 'raid-alarm' || SHARED.some(id => cautions.includes(id));

/** Raised, being asked about, or its words were said. */
const about = (script: Script | null, state: State, sign: 'danger' | 'attack' | 'mechanical'): boolean =>
  state.signs.includes(sign) ||
  (script !== null && openStep(script, state)?.within?.includes(sign) === true) ||
  state.frames.some(frame => frame.segment === sign) ||
  state.standing.some(other => other.step === '@doubt' && other.interrupt === sign);

/** Cautions that are said of what others depend on. */
const SHARED = ['server-hands-off', 'ups-hands-off', 'array-no-start', 'array-let-rebuild'];
