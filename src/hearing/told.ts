/** What first words, or a story, say already in answer to open questions: where it is and how to ring, and how it came about. */
import type { AskStep, Script } from '#engine/script.ts';

/** Whoever tells less than this has told no story. */
const FEW_WORDS = 12;
const LONGEST = 1000;

/** A date is none. */
const NUMBER = String.raw`(?!\d{4}-\d\d-\d\d)(?:\+\d[\d ()/-]{6,24}\d|\d{3}-\d{4}|\d[\d ()/-]{5,24}\d)(?!\d|[.:/-]\d)`;
/** Right before the number, but for a word like "is" or "on". */
const RINGS = String.raw`(?:phone|telephone|(?<!(?:serial|error|part|model|event|stop) )number|no\.?|mobile|cell|call|ring|reach|tel|telefon|nummer|téléphone|numéro|teléfono|número)`;
const TO_RING = new RegExp(
  String.raw`(?<![\d.:/-])(?:\+\d[\d ()/-]{6,24}\d|\d{3}-\d{4})(?!\d|[.:/-]\d)|\b${RINGS}\b(?: me| us)?(?: is| ist| est| es)?(?: on| at| under| unter| au)?[:,]? ?${NUMBER}|\b(?:ext|extension)\.? ?\d{3,5}\b`,
  'iu',
);
const WHEREABOUTS =
  /\b(?:room \w*\d|(?:\d+(?:st|nd|rd|th)|ground|first|second|third|fourth|top) floor|(?:lab|bench|desk|office|studio|suite|building|rack|ward|hall) \w?\d\w*|(?:reading|meeting|server|copy|mail|control|post) room|reception|basement|(?:working|i'm|i am) (?:at|from) home|home office)\b/i;

const WHEN =
  /\b(?:since|yesterday|today|tonight|this (?:morning|afternoon|evening|week|lunchtime)|last (?:night|week|month|monday|tuesday|wednesday|thursday|friday|saturday|sunday)|on (?:monday|tuesday|wednesday|thursday|friday|saturday|sunday)|(?:an?|two|three|four|few|\d+) (?:minutes?|hours?|days?|weeks?|months?) ago|first time)\b/i;
/** By somebody: a machine tries and restarts by itself. */
const TRIED =
  /(?:^|[.,;:!?(] ?|\b(?:i|i['’]ve|we|we['’]ve|he|she|they|you|somebody|someone|colleagues?|technician|desk|it|and|but|then|already|only|have|has|been|both|also|just)\s(?:(?:have|has|had|already|also|only|just|both|even)\s){0,2})(?:tried|restarted|rebooted|unplugged|plugged|re-?installed|repaired|re-?seated|swapped|replaced|emptied|switched it (?:off|on)|put the old|took it (?:out|apart)|taken (?:it|the \w+) out|pulled|(?:touched|changed|done|did|tried) nothing|(?:haven['’]?t|have not|didn['’]?t|did not|not) (?:touched|touch|tried|try|done|run|changed|change|opened|open|switched|pulled))\b|\bnothing (?:else )?(?:was |has been |been )?(?:tried|done|changed|touched)\b/i;
const CHANGED =
  /\b(?:update|upgrade|upgraded|moved|the move|fell|dropped|knocked|installed|built in|new (?:ram|ssd|drive|disk|dock\w*|docking station|laptop|computer|password|office)|changed|power cut|spilled|(?:after|since) (?:i|we|they|the|my|our|he|she)\b|nothing (?:was |has )?changed)\b/i;

/** By finding: the person's own words, as a text question takes them. */
export function hearTold(script: Script, text: string): Record<string, { answer: 'given'; words: string }> {
  const told: Record<string, { answer: 'given'; words: string }> = {};
  const steps = [script.main, ...Object.values(script.interrupts).map(({ steps }) => steps)].flat();
  for (const step of steps) {
    if (step.kind !== 'ask' || step.form !== 'text') continue;
    const words = isAboutPlace(step) ? placeIn(text) : isAboutStory(step) ? storyIn(step, text) : null;
    if (words !== null) told[step.finding] = { answer: 'given', words };
  }
  return told;
}

const isAboutPlace = ({ fills }: AskStep): boolean =>
  fills.length === 2 && fills.includes('place.room') && fills.includes('contact.way');

const isAboutStory = ({ fills }: AskStep): boolean =>
  fills.length > 0 && fills.every(field => field.startsWith('history.'));

/** The sentences with a number to ring and with the place. Both must be there: half an answer is asked for again. */
function placeIn(text: string): string | null {
  const sentences = text.split(/(?<=[.!?])\s+|\n+/);
  const rings = sentences.filter(isNumber);
  const places = sentences.filter(sentence => WHEREABOUTS.test(sentence));
  if (rings.length !== 1 || places.length === 0) return null;
  const words = sentences.filter(sentence => rings.includes(sentence) || places.includes(sentence)).join(' ');
  return words.length <= LONGEST ? words.trim() : null;
}

/** A long number is one to ring where a word right before it says so, or its own shape; others are error numbers and serials. */
const isNumber = (sentence: string): boolean => TO_RING.test(sentence);

/** When it began and what was tried, for the tries are what the bench must know; what changed is told with them or was nothing. */
function storyIn({ fills }: AskStep, text: string): string | null {
  if (text.trim().split(/\s+/).length < FEW_WORDS || text.length > LONGEST) return null;
  if (fills.includes('history.first') && !WHEN.test(text)) return null;
  const wanted = fills.includes('history.tried') ? TRIED : fills.includes('history.changed') ? CHANGED : WHEN;
  return wanted.test(text) ? text.trim() : null;
}
