/** One of several answers: its number, its place, its id, its label or another way to say it. The last word wins. */
import type { Answer } from '#engine/script.ts';
import { COMMON_WORDS } from './common-words.ts';
import { type Vocabulary, vocabulary } from './spelling.ts';
import { type Phrase, phrase, places, type Spoken, spoken } from './spoken.ts';
import { fold, listen } from './words.ts';

const ORDINALS = [
  'first',
  'second',
  'third',
  'fourth',
  'fifth',
  'sixth',
  'seventh',
  'eighth',
  'ninth',
  'tenth',
];
const FIGURES = ['one', 'two', 'three', 'four', 'five', 'six', 'seven', 'eight', 'nine', 'ten'];

const YES = `yes yep yeah yup ya jo yess yesss ye y aye sure certainly definitely absolutely affirmative correct right true exactly indeed ja jep jawohl genau oui ouais si claro
  i think so | think so | i guess so | i believe so | probably | of course | that's right | it is | it does | it did | i do | i did | it has | there is | 👍 | ✅ | ✔️ | 👌 | je pense | ich denke schon | ich glaube schon | natürlich | bien sûr | creo que sí`;
const NO = `no nope nah nop naw negative n never nein nee nö ne non nunca
  not really | not at all | i don't think so | don't think so | no way | it isn't | it is not | it doesn't | it does not | it didn't | i don't | i didn't | there isn't | not that i know | not that i know of | 👎 | ❌ | glaube nicht | ich glaube nicht | eher nicht | pas vraiment | no creo`;
const NOT_SURE = `idk dunno unsure unknown maybe perhaps 🤷 keine-ahnung
  not sure | i'm not sure | im not sure | i am not sure | no idea | no clue | don't know | i don't know | do not know | i do not know | dont know | can't tell | cannot tell | can't say | hard to say | who knows | how would i know | how should i know | not certain | weiß nicht | weiss nicht | keine ahnung | bin nicht sicher | nicht sicher | je ne sais pas | aucune idée | pas sûr | pas sûre | no lo sé | no sé | ni idea | no estoy seguro | no estoy segura`;

const ways = (text: string): string[] => {
  const [single = '', ...more] = text.split('\n');
  return [...single.trim().split(/\s+/), ...more.join(' ').split('|')]
    .map(each => each.trim())
    .filter(Boolean);
};
const whole = (texts: string[]) => new Set(texts.map(bare));
const SAY_YES = whole(ways(YES));
const SAY_NO = whole(ways(NO));
const SAY_NOT_SURE = whole(ways(NOT_SURE));

/** Small letters, no accents, no punctuation around. */
function bare(text: string): string {
  return fold(text)
    .replace(/[’]/g, "'")
    .replace(/^[\s.,!?:;"'()-]+|[\s.,!?:;"'()-]+$/g, '')
    .replace(/\s+/g, ' ');
}

const POLITE =
  /\b(please|pls|plz|thanks|thank you|bitte|danke|merci|gracias|um|uh|well|oh|hmm+|so|ok|okay|sorry|i mean|i'd say|id say)\b/g;
/** What comes after takes back what stood before. */
const CORRECTION =
  /\b(?:no,? wait|wait,? no|wait|sorry|actually|correction|i mean(?:t)?|scratch that|or rather|my mistake|doch|halt|moment|pardon|non attends|perdon)\b[\s,:;.!-]*/gi;

/** The id of the answer that the text means, or null where it means none or several. */
export function choose(answers: readonly Answer[], text: string): string | null {
  const parts = text
    .split(CORRECTION)
    .map(part => part.trim())
    .filter(part => bare(part) !== '');
  for (const part of [...parts.toReversed(), text]) {
    const chosen = one(answers, part);
    if (chosen !== null) return chosen;
  }
  return null;
}

function one(answers: readonly Answer[], text: string): string | null {
  const said = bare(bare(text).replace(POLITE, ' '));
  const full = bare(text);
  return (
    byPlace(answers, said) ??
    exactly(answers, full) ??
    exactly(answers, said) ??
    standing(answers, said) ??
    standing(answers, full) ??
    byPhrase(answers, text) ??
    beginning(answers, text)
  );
}

/** "2", "#2", "b)", "the second one", "last". */
function byPlace(answers: readonly Answer[], said: string): string | null {
  const words = said
    .replace(/^(the|number|nr|no\.?|answer|option|nummer|numero|den|die|das|la|le|el)\s+/, '')
    .replace(/\s+(one|answer|option)$/, '');
  const figure = /^#?(\d{1,2})[.)]?$/.exec(words)?.[1];
  const letter = /^([a-j])\)$/.exec(said) ?? /^([b-h])$/.exec(words);
  const named = ORDINALS.indexOf(words);
  const index =
    figure !== undefined
      ? Number(figure) - 1
      : letter !== null
        ? letter[1]!.charCodeAt(0) - 97
        : named >= 0
          ? named
          : words === 'last'
            ? answers.length - 1
            : answers.length > 1
              ? FIGURES.indexOf(words)
              : -1;
  return answers[index]?.id ?? null;
}

function exactly(answers: readonly Answer[], said: string): string | null {
  const hits = answers.filter(({ id, label, hears }) =>
    [id, label, ...hears].some(way => bare(way) === said),
  );
  return hits.length === 1 ? hits[0]!.id : null;
}

/** Yes, no and not sure as people say them, where the question has such an answer. */
function standing(answers: readonly Answer[], said: string): string | null {
  const has = (id: string) => (answers.some(answer => answer.id === id) ? id : null);
  if (SAY_NOT_SURE.has(said)) return has('not-sure');
  if (SAY_YES.has(said)) return has('yes') ?? saysYes(answers);
  if (SAY_NO.has(said)) return has('no') ?? saysNo(answers);
  return null;
}

/** An answer whose label begins with Yes (or No) is that answer, if it is the only one. */
const labelled = (answers: readonly Answer[], word: RegExp): string | null => {
  const hits = answers.filter(({ label }) => word.test(label));
  return hits.length === 1 ? hits[0]!.id : null;
};
const saysYes = (answers: readonly Answer[]) => labelled(answers, /^yes\b/i) ?? heard(answers, 'yes');
const saysNo = (answers: readonly Answer[]) => labelled(answers, /^no\b/i) ?? heard(answers, 'no');
const heard = (answers: readonly Answer[], word: string): string | null => {
  const hits = answers.filter(({ hears }) => hears.some(way => bare(way) === word));
  return hits.length === 1 ? hits[0]!.id : null;
};

interface Prepared {
  phrases: { id: string; phrase: Phrase; own: boolean }[];
  spelling: Vocabulary;
}
const prepared = new WeakMap<readonly Answer[], Prepared>();

function prepare(answers: readonly Answer[]): Prepared {
  const had = prepared.get(answers);
  if (had !== undefined) return had;
  const words = new Set<string>();
  const phrases = answers.flatMap(({ id, label, hears }) =>
    [label, id.replaceAll('-', ' '), ...hears].flatMap((text, index) => {
      for (const word of listen(text)) words.add(word.text);
      const made = phrase(text);
      return made.weight > 0 ? [{ id, phrase: made, own: index === 0 }] : [];
    }),
  );
  const made = { phrases, spelling: vocabulary(words, COMMON_WORDS) };
  prepared.set(answers, made);
  return made;
}

/** The longest phrase that stands in the text; the last word wins between clauses, a tie is no answer. */
function byPhrase(answers: readonly Answer[], text: string): string | null {
  const { phrases, spelling } = prepare(answers);
  const said = spoken(text.slice(0, 4000), spelling);
  const hits = phrases.flatMap(({ id, phrase: way }) =>
    [...places(way, said, 1)].map(({ from, to }) => ({ id, weight: way.weight, from, to })),
  );
  if (hits.length === 0) return wordsShared(answers, said);
  const most = Math.max(...hits.map(({ weight }) => weight));
  const ids = new Set(hits.filter(({ weight }) => weight === most).map(({ id }) => id));
  return ids.size === 1 ? [...ids][0]! : null;
}

/** Part of a label: the answer that shares most of the words that count, if it is clearly one. */
function wordsShared(answers: readonly Answer[], said: readonly Spoken[]): string | null {
  const keys = said
    .filter(({ filler, denier, denied }) => !filler && !denier && !denied)
    .map(({ key }) => key);
  if (keys.length === 0 || keys.length > 12) return null;
  const scores = answers
    .map(({ id, label, hears }) => {
      const own = new Set(
        [label, ...hears].flatMap(text =>
          phrase(text)
            .words.filter(({ denied, denier }) => !denied && !denier)
            .map(({ key }) => key),
        ),
      );
      return { id, score: new Set(keys.filter(key => own.has(key))).size };
    })
    .sort((a, b) => b.score - a.score);
  const [best, next] = scores;
  if (best === undefined || best.score === 0 || best.score === next?.score) return null;
  return best.score / new Set(keys).size >= 0.5 ? best.id : null;
}

/** "Yes, since Monday": a yes or no first, and nothing after it that says another. */
function beginning(answers: readonly Answer[], text: string): string | null {
  const first = bare(text.split(/[\s,.;:!]+/)[0] ?? '');
  const yes = SAY_YES.has(first);
  if (!yes && !SAY_NO.has(first)) return null;
  const has = (id: string) => answers.some(answer => answer.id === id);
  if (!has('yes') || !has('no')) return null;
  return yes ? 'yes' : 'no';
}
