/** What a person asks instead of answering. English, German, French, Spanish. */
import { fold } from './words.ts';

/** "Help", "what should I do?": the question itself is not clear, and nothing was answered by it. */
export const asksForHelp = (text: string): boolean => HELP.test(bare(text));
const HELP =
  /^(?:(?:please|pls|i need|can you|could you|bitte|ich brauche|j'ai besoin d'|necesito) )*(?:help|help me|hilfe|hilf mir|aide|aidez moi|aidez-moi|ayuda|ayudame)(?: (?:please|pls|me|with this|with that|bitte|svp|por favor))*$/;

/** "Can I just copy them first?", "should I swap it now?": leave to do something is asked, and silence would be taken for a yes. */
export function asksLeave(text: string): boolean {
  const said = text.trim();
  if (said.length > LONGEST || !LEAVE.test(bare(said))) return false;
  if (said.endsWith('?')) return true;
  // Many leave the mark out; what could do harm is heard all the same. "Can I have a call on 555-0101" answers something.
  return BARE_LEAVE.test(said) && !/[.!?]\s/.test(said) && (asksOff(said) || asksToHarm(said));
}
const LONGEST = 300;
const BARE_LEAVE = /^\W*(?:(?:but|and|so|ok|okay)\W+)*(?:can|could|may|should|shall|must) (?:i|we)\b/i;
const LEAVE =
  /^(?:(?:but|and|so|ok|okay|sorry|hm|um|then|aber|und|mais|et|pero|y)[ ,]+)*(?:(?:can|can't|cant|could|couldn't|may|should|shouldn't|shall|must) (?:i|we)\b(?! (?:talk|speak|go back(?! in)|start))|is it (?:ok|okay|safe|fine|alright|all right|yes or no|a yes or a no)\b|would it (?:help|be ok|be okay|hurt)\b|what if i\b|do i (?:have|need) to\b|(?:kann|darf|soll|sollte|muss|konnte) ich\b|(?:puis-je|est-ce que je peux|je peux|dois-je|est-ce que je dois)\b|(?:puedo|debo|tengo que)\b)/;

/** Is the leave that is asked for one to switch off or to unplug? */
export const asksOff = (text: string): boolean => OFF.test(bare(text)) && !ON_AGAIN.test(bare(text));
const OFF =
  /\b(?:abort|interrupt|break (?:it|this|that) off|(?:stop|cancel) the (?:check|repair|scan|copy|rebuild|test|update)|unplug|un-plug|plug (?:it|this|that|the \w+) out|pull (?:it|this|that|(?:the|its|my)(?: \w+)? (?:plug|cable|charger|lead|drive|stick))(?: out)?|take (?:it|the \w+) out|disconnect|eject|(?:switch|turn|power) (?:(?:it|this|that|everything|(?:the|my|this|that)(?: \w+){1,2}) )?off|shut (?:(?:it|this|that|(?:the|my|this|that)(?: \w+){1,2}) )?down|ausstecken|abziehen|ausschalten|ausmachen|abschalten|herunterfahren|debrancher|eteindre|desenchufar|apagar(?:lo|la)?|desconectar(?:lo|la)?)\b/;
/** To get help or to get away: nobody waits for leave to do that. */
export const asksToRing = (text: string): boolean => RING.test(bare(text));
const RING =
  /\b(?:call|ring|phone|dial|tell|inform|report|leave the (?:building|room|house)|evacuate|run (?:away|out)|get out|fire (?:brigade|department|alarm)|ambulance|police|bank|(?:change|reset) (?:my |the |all )*passwords?|anrufen|rufen|feuerwehr|polizei|kennwort andern|passwort andern|appeler|pompiers|banque|llamar|bomberos|banco|policia)\b/;

/** Back to where it burns. */
export const asksToGoIn = (text: string): boolean =>
  /\b(?:go|run|get|step) (?:back )?(?:in|inside|into)\b/.test(bare(text));

/** The number that a screen or a caller gave. */
export const asksToCallThem = (text: string): boolean =>
  /\b(?:call|ring|phone|dial)\b/.test(bare(text)) && /\b(?:them|number|caller|support)\b/.test(bare(text));

/** To send a picture of it; the pictures on it are files. */
export const asksForPicture = (text: string): boolean =>
  /\b(?:send|attach|upload|post|show|schicken|senden)\b.*\b(?:photo|picture|screenshot|foto|bild)s?\b|\btake (?:a|one|another) (?:photo|picture|screenshot)\b/.test(
    bare(text),
  );

/** To take something out of a machine: a battery, a drive, a member. */
export const asksOut = (text: string): boolean => OUT.test(bare(text));
const OUT =
  /\b(?:take|pull|get|remove|swap|replace|unscrew|disconnect|open)\b.*\b(?:batter(?:y|ies)|hard (?:drive|disk)|drive|disk|ssd|member|case|cover|lid)\b(?<!(?:usb|external|plug-in|portable|flash|thumb|pen) drive)/;

/** Off and on once more is a start. */
const ON_AGAIN =
  /\b(?:on again|back on|and on|on and off|plug (?:\w+ )?(?:back|in)\b|restart|reboot|off and (?:then )?(?:on|start|try)|wieder|rallumer|volver a)\b/;

/** Leave to switch off or to do what can do harm, asked beside other words: "room 2.14, should I turn it off?" */
export const asksBeside = (text: string): boolean =>
  text
    .split(/(?<=[.!?\n])/u)
    .map(sentence =>
      sentence.replace(/^.*?(?=\b(?:can|could|should|may|must|shall|is it|darf|soll|kann|muss)\b)/isu, ''),
    )
    .some(asked => asksLeave(asked) && (asksOff(asked) || asksToHarm(asked) || asksToCancel(asked)));

/** To do what can cost files where nobody knows yet how things stand. */
export const asksToHarm = (text: string): boolean => HARMS.test(bare(text));

/** To press Cancel. */
export const asksToCancel = (text: string): boolean => /\bcancel\b/.test(bare(text)) && !asksOff(text);

/** To take out something that is only plugged in. */
export const asksToUnplug = (text: string): boolean => UNPLUG.test(bare(text));
const UNPLUG =
  /\b(?:unplug|un-plug|pull (?:it|this|that|the \w+)(?: out)?|take (?:it|the \w+) out|disconnect|eject|ausstecken|abziehen|debrancher|desenchufar)\b/;

/** What people ask whether they may do, and should not before it is known how things stand. */
const HARMS =
  /\b(?:force|initiali[sz](?:e|ing)|format(?:ting)?|rebuild(?:ing)?|re-?seat|swap|replace|reset|reinstall|repair|scan|chkdsk|fsck|defrag\w*|recovery (?:program|software|tool)|undelete|restart|reboot|clone|freezer|rice|hair ?dryer|shake|tap|screwdriver|unscrew|plug (?:it|this|that|the \w+) (?:back )?in|formatieren|neu ?starten|reparieren|einfrieren|formater|redemarrer|reparer|formatear|reiniciar|reparar)\b/;

/** "It's still on, let me just finish the copy." */
export const leavesOn = (text: string): boolean =>
  /\b(?:still|noch|encore|todav[ií]a) (?:on|running|plugged in|charging|an|allumé|encendido)\b|\blet me (?:just |only |quickly )?(?:finish|copy|save)\b|\b(?:\d+|a few|two|five|ten) more minutes?\b/iu.test(
    text,
  );

const bare = (text: string): string =>
  withoutEnd(fold(text).toLowerCase().replaceAll('\u2019', "'").replace(/\s+/gu, ' ').trim());

/** Sign by sign: a pattern for "some of these at the end" begins anew at each of thousands of them. */
function withoutEnd(text: string): string {
  let end = text.length;
  while (end > 0 && '!?. '.includes(text[end - 1]!)) end--;
  return text.slice(0, end);
}
