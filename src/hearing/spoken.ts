/** Words with their "not" kept: what phrases of answers, alarms and openings are looked for in. */
import { COMMON_WORDS } from './common-words.ts';
import { deny, isDenier } from './negation.ts';
import { spell, type Vocabulary } from './spelling.ts';
import { stem } from './stem.ts';
import { listen, type Word } from './words.ts';

export interface Spoken {
  word: Word;
  /** As typed, folded, typing mistakes mended. */
  text: string;
  /** Its stem, or the kind of denier: `not`, `no`, `nothing`, `cannot`, `never`. */
  key: string;
  /** A "not" before it takes it away. */
  denied: boolean;
  denier: boolean;
  /** Says nothing alone and may stand between the words of a phrase. */
  filler: boolean;
  mended: boolean;
}

export const isFiller = (word: string): boolean => FILLERS.has(word);

const FILLERS = new Set(
  `the a an of to at for by with my mine our your his her its their this that these those it it's its i i'm im i've we you he
  she they there there's here is are was were be been being am has have had having do does did will would can could should so very
  really just please also quite rather actually maybe perhaps think guess believe suppose any some all again still even now then well and or um uh hm like
  kind sort little bit der die das den dem ein eine einen mein meine es ist sind hat und ganz so sehr nur le la les un une des du
  de mon ma est sont il elle c'est et tres el los las una unos mi es son esta que y muy`.split(/\s+/),
);
/** Say only when a thing happens; "does not" and "did not" are one. */
const AUXILIARIES = new Set(
  "do does did will would is are was were am be been has it's that's there's he's she's i'm i've i'd we'd i'll we'll we've".split(
    ' ',
  ),
);
const COMMON = new Set(COMMON_WORDS);
const KINDS: [RegExp, string][] = [
  [/^(no|none|without|zero|kein\w*|ohne|aucune?|sans|sin|ningun\w*)$/, 'no'],
  [/^(nothing|nichts|rien|nada)$/, 'nothing'],
  [/^(can'?t|cannot|couldn'?t|unable)$/, 'cannot'],
  [/^(never|nie|niemals|jamais|nunca|jamas)$/, 'never'],
];

/** "Don't have a" and "isn't any" are "no". */
const HAVING = new Set(['have', 'has', 'had', 'got', 'any']);

function kindOf(denier: string, next = ''): string {
  return KINDS.find(([kind]) => kind.test(denier))?.[1] ?? (HAVING.has(next) ? 'no' : 'not');
}

export function spoken(text: string, vocabulary: Vocabulary): Spoken[] {
  return spokenWords(listen(text), vocabulary);
}

export function spokenWords(words: readonly Word[], vocabulary: Vocabulary): Spoken[] {
  const spelt = (word: string): string =>
    COMMON.has(word) || vocabulary.words.has(word) ? word : spell(vocabulary, word);
  const denied = new Map(deny(words, text => text).map(said => [said.word, said.not]));
  return words.map((word, at) => {
    const denier = isDenier(word.text);
    const mended = denier ? word.text : spelt(word.text);
    return {
      word,
      text: mended,
      key: denier ? kindOf(word.text, words[at + 1]?.text) : stem(mended),
      denied: denied.get(word) ?? false,
      denier,
      filler: !denier && FILLERS.has(word.text),
      mended: mended !== word.text,
    };
  });
}

export interface Phrase {
  words: readonly Pick<Spoken, 'key' | 'denied' | 'denier' | 'filler'>[];
  /** Words that are no fillers. */
  weight: number;
}

const NO_MISTAKES: Vocabulary = { words: new Set(), spared: new Set(), shortened: new Map() };

/** Between the halves of a phrase; people put a comma there, or nothing. */
const JOINTS = new Set(['and', 'but', 'und', 'aber', 'et', 'mais', 'y', 'pero']);

/** A phrase to look for. Every word counts, except those that only say when or join. */
export function phrase(text: string): Phrase {
  const all = spoken(text, NO_MISTAKES);
  const kept = all.filter(({ text: word }) => !AUXILIARIES.has(word) && !JOINTS.has(word));
  const words = kept.length > 0 ? kept : all;
  return { words, weight: words.filter(({ filler }) => !filler).length };
}

export interface Place {
  /** First and last word, both included. */
  from: number;
  to: number;
}

/** Where the phrase stands, word after word; fillers and up to `gap` other words may come between. Denied words match only denied ones. */
export function* places(
  { words }: Phrase,
  said: readonly Spoken[],
  gap: number,
  heedDenial = true,
): Generator<Place> {
  const first = words[0];
  if (first === undefined) return;
  for (let from = 0; from < said.length; from++) {
    let at = from;
    let part = 0;
    let others = 0;
    let last = -1;
    for (; at < said.length && part < words.length; at++) {
      const one = said[at]!;
      const wanted = words[part]!;
      if (last >= 0 && one.word.sentence !== said[last]!.word.sentence) break;
      const same = one.key === wanted.key && one.denier === wanted.denier;
      if (same && (one.denier || !heedDenial || one.denied === wanted.denied)) {
        last = at;
        part++;
      } else if (part === 0) break;
      else if (!one.filler && !JOINTS.has(one.text) && ++others > gap) break;
      else if (one.denier && heedDenial) break;
    }
    if (part === words.length) yield { from, to: last };
  }
}

/** The words as they were typed. */
export const typed = (text: string, said: readonly Spoken[], { from, to }: Place): string =>
  text.slice(said[from]!.word.start, said[to]!.word.end);
