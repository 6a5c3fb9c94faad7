/** Which words a "not" takes away: "it is NOT clicking, just slow" says nothing of a click. English, German, French, Spanish. */
import type { Word } from './words.ts';

export interface Said {
  word: Word;
  /** Nearer to the dictionary than the word as typed. */
  text: string;
  not: boolean;
  /** A "no" (none, without, kein, sin) stands right before: there is none of it. */
  none: boolean;
}

const DENIES = set(
  `not isn't isnt aren't arent wasn't wasnt weren't werent don't dont doesn't doesnt didn't didnt won't wont can't cant cannot
  couldn't couldnt wouldn't wouldnt shouldn't nothing nichts rien nada hasn't hasnt haven't havent hadn't hadnt ain't never unable neither nor nicht
  nie niemals weder pas jamais n't nunca jamas tampoco`,
);
const NONE = set(
  'no none without zero kein keine keinen keinem keiner ohne aucun aucune sans sin ningun ninguna',
);
/** A verb, then "to": failed to boot, refuses to open. */
const REFUSES = set('fail fails failed failing refuse refuses refused unable struggles');
/** Words between a "not" and what it denies that end its reach. */
const BREAKS = set(
  `and but because cause since so then while although though however when whenever if after before until only just except
  it its it's i i'm im he she they we you there there's that's which who what where why how instead rather
  und aber sondern weil denn nur wenn mais parce quand seulement pero sino porque cuando solo`,
);
/** Behind the word that is denied these lead to something else: "cannot be reached from the meeting room". */
const ASIDE = set('from with by during about for von aus durch depuis avec desde con');
/** After these a "not" denies what was thought, not what happens. */
const IDIOMS = set(
  'sure know idea clue understand think believe sicher sais se remember why matter certain problem wonder worry care',
);
/** "Does not stop clicking", "not only slow": what follows is so. */
const KEEPS = set('stop only just merely sure');
/** "No wait" takes back what was said before, "no it's off" answers: neither denies what follows. */
const RETRACTS = set("wait sorry actually it it's its i i'm im they we that's still same");
/** "Turn it off": the word behind belongs to the verb. */
const INNER = set('it them this that');
const PARTICLES = set('on off up down in out back away');
/** These stand after their verb: "sie klickt nicht", "elle ne clique pas". */
const AFTERWARDS = set('nicht pas');
/** How many words on a "not" reaches. */
const REACH = 5;

/** "Not", "no", "without" and the like, in any of the languages. */
export const isDenier = (word: string): boolean => DENIES.has(word) || NONE.has(word);

/** Marks the words that are denied, and leaves out the deniers themselves. */
export function deny(words: readonly Word[], spelt: (word: string) => string): Said[] {
  const said: Said[] = [];
  let reach = 0;
  let none = false;
  for (let at = 0; at < words.length; at++) {
    const word = words[at]!;
    const { text } = word;
    if (at > 0 && words[at - 1]!.clause !== word.clause) reach = 0;
    const next = words[at + 1];
    const after = next !== undefined && next.clause === word.clause ? next.text : '';
    if (REFUSES.has(text) && after === 'to') reach = REACH + 1;
    else if (text === 'no' && RETRACTS.has(after)) reach = 0;
    else if (DENIES.has(text) || NONE.has(text)) {
      const keeps = IDIOMS.has(after) || (KEEPS.has(after) && !NONE.has(text));
      reach = keeps ? 0 : REACH;
      if (keeps) at++;
      else if (AFTERWARDS.has(text)) denyLast(said, word);
      none = !keeps && NONE.has(text);
    } else if (text !== 'longer' || reach === 0) {
      const inner = INNER.has(text) && PARTICLES.has(after);
      if ((BREAKS.has(text) && !inner) || (reach < REACH && ASIDE.has(text))) reach = 0;
      said.push({ word, text: spelt(text), not: reach > 0, none: none && reach > 0 });
      reach = Math.max(0, reach - 1);
      none = false;
    }
  }
  return said;
}

function denyLast(said: Said[], by: Word): void {
  const last = said.at(-1);
  if (last?.word.clause === by.clause) last.not = true;
}

function set(words: string): ReadonlySet<string> {
  return new Set(words.trim().split(/\s+/));
}
