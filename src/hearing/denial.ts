/** Which words of an alarm a "no" takes away. Only a plain denial counts: "not working smoke is coming out" denies no smoke. */
import type { Spoken } from './spoken.ts';

/** `firm`: said not to be so. `loose`: a "not" stands near, and may be about something else. */
export type Denial = 'firm' | 'loose' | null;

const LINKS = new Set(
  `get see seeing smell smelling hear hearing notice feel got visible sign signs trace kind sort strange odd funny bad weird unusual abnormal suspicious audible noticeable mechanical actual real coming come
  make making give giving anything something any hay sale tiene gibt y single bit obvious clicking sehe rieche hore zu sehen vois sens entends veo huelo oigo burning burnt hot`.split(
    /\s+/,
  ),
);
const OR = new Set(['or', 'nor', 'oder', 'noch', 'ou', 'ni', 'o', 'neither']);
const ENDS = new Set(
  `but because cause since so then while although though however when whenever if after before until just except yet still
  it i he she they we you which who what where why how instead aber sondern weil denn wenn mais parce quand pero sino porque cuando`.split(
    /\s+/,
  ),
);
/** What a "can't" does not deny: "I can't stop the smoke". */
const HELPLESS = new Set(["can't", 'cant', 'cannot', "couldn't", 'couldnt', 'unable']);
const SENSES = new Set(['see', 'smell', 'hear', 'feel', 'notice', 'find']);
/** "Does not stop smoking", "not only smoke", "not sure whether": nothing is denied. */
const KEEPS = new Set(
  `stop only just merely sure know idea clue understand think believe certain normal good ok wonder doubt sicher sais se weiss`.split(
    /\s+/,
  ),
);
const RETRACTS = new Set(['wait', 'sorry', 'actually', 'hang', 'hold', 'moment', 'halt']);
/** These may follow what they deny. */
const AFTERWARDS = new Set(['nicht', 'pas']);
/** Words of a list of what is not. */
const LONGEST_LIST = 20;
/** Words after a broken-off denial that stay in doubt. */
const SHADOW = 4;

export function denials(said: readonly Spoken[], alarming: (key: string) => boolean): Denial[] {
  const out: Denial[] = said.map(() => null);
  let state: Denial = null;
  let shadow = 0;
  for (let at = 0; at < said.length; at++) {
    const one = said[at]!;
    const before = said[at - 1];
    if (before !== undefined && before.word.sentence !== one.word.sentence) state = null;
    else if (state === 'firm' && before !== undefined && before.word.clause !== one.word.clause)
      state = listed(said, at, alarming) ? 'firm' : 'loose';
    if (one.denier) {
      const next = said[at + 1];
      const follows = next?.word.clause === one.word.clause ? next : undefined;
      if (isInterjection(one, before, follows)) continue;
      const helpless = HELPLESS.has(one.word.text) && !SENSES.has(follows?.word.text ?? '');
      if (AFTERWARDS.has(one.word.text) && before?.word.clause === one.word.clause) out[at - 1] = 'firm';
      if (follows !== undefined && KEEPS.has(follows.word.text)) {
        state = null;
        at++;
      } else {
        state = helpless ? 'loose' : 'firm';
        shadow = SHADOW;
      }
      continue;
    }
    if (ENDS.has(one.word.text)) state = null;
    if (state === null) continue;
    const linked = one.filler || OR.has(one.word.text) || LINKS.has(one.word.text) || alarming(one.key);
    if (state === 'firm' && (one.word.text === 'and' || one.word.text === 'und')) state = 'loose';
    else if (state === 'firm' && !linked) state = 'loose';
    out[at] = state;
    if (state === 'loose' && --shadow <= 0) state = null;
  }
  return out;
}

/** "No, the drive clicks" and "no wait" answer something else. */
function isInterjection(one: Spoken, before: Spoken | undefined, follows: Spoken | undefined): boolean {
  const first = before?.word.clause !== one.word.clause;
  return first && one.key === 'no' && (follows === undefined || RETRACTS.has(follows.word.text));
}

/** "No smoke, fire or flames": a list of alarming words that ends in an "or". */
function listed(said: readonly Spoken[], from: number, alarming: (key: string) => boolean): boolean {
  let or = false;
  const end = from + LONGEST_LIST;
  for (let at = from; at < end && said[at]?.word.sentence === said[from]!.word.sentence; at++) {
    const { word, key, filler } = said[at]!;
    if (OR.has(word.text)) or = true;
    else if (!alarming(key) && !filler && !LINKS.has(word.text)) return or;
    else if (ENDS.has(word.text)) return or;
  }
  return or;
}
