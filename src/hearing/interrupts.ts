/** Words that break into any question: danger, attack, a dying drive. Never missed; where it is unclear, doubtful. */
import type { Interrupts } from '#engine/catalogue.ts';
import { COMMON_WORDS } from './common-words.ts';
import { type Vocabulary, vocabulary } from './spelling.ts';
import { type Phrase, phrase, places, type Spoken, spoken, typed } from './spoken.ts';
import { listen } from './words.ts';

export interface Alarm {
  interrupt: string;
  sure: boolean;
  /** The sentence that raised it, as typed. */
  words: string;
}

interface Prepared {
  alarms: {
    id: string;
    rank: number;
    notFor: string[];
    sure: Phrase[];
    doubtful: Phrase[];
    unless: Phrase[];
  }[];
  spelling: Vocabulary;
}

/** A text is read to here; nobody reports a fire after twenty thousand characters. */
const LONGEST = 20_000;
/** Feared, asked or long past: not sure. */
const NOT_NOW =
  /\b(if|might|could|afraid|worried|risk|last (week|month|year)|(days?|weeks?|months?|years?) ago|used to|once had|wenn|falls|letzte\w* (woche|monat|jahr)|si jamais|hace (un|dos|tres))\b/i;
const prepared = new WeakMap<Interrupts, Prepared>();

/** The alarms that the text raises, highest rank first, each once. `symptom`: those that its own questions cover are left out. */
export function hearInterrupts(interrupts: Interrupts, text: string, symptom: string | null): Alarm[] {
  const { alarms, spelling } = prepare(interrupts);
  const read = text.slice(0, LONGEST);
  const said = spoken(read, spelling);
  const sentences = bySentence(said);
  return alarms
    .filter(({ notFor }) => symptom === null || !notFor.includes(symptom))
    .flatMap(alarm => {
      const spared = new Set(
        alarm.unless.flatMap(each =>
          [...places(each, said, 1, false)].flatMap(({ from, to }) => said.slice(from, to + 1)),
        ),
      );
      const found = sentences.flatMap(sentence => {
        const words = sentence.filter(word => !spared.has(word));
        const sure = alarm.sure.some(each => stands(each, words));
        if (!sure && !alarm.doubtful.some(each => stands(each, words))) return [];
        const whole = typed(read, sentence, { from: 0, to: sentence.length - 1 });
        return [{ interrupt: alarm.id, sure: sure && !NOT_NOW.test(whole), words: whole }];
      });
      const first = found.find(({ sure }) => sure) ?? found[0];
      return first === undefined ? [] : [first];
    });
}

/** Every word of the phrase in one sentence, in any order, and none of them denied. */
function stands({ words }: Phrase, sentence: readonly Spoken[]): boolean {
  const wanted = words.filter(({ denier }) => !denier);
  return (
    wanted.length > 0 &&
    wanted.every(({ key }) => sentence.some(said => said.key === key && !said.denied && !said.denier))
  );
}

function bySentence(said: readonly Spoken[]): Spoken[][] {
  const sentences = new Map<number, Spoken[]>();
  for (const each of said) {
    const { sentence } = each.word;
    sentences.set(sentence, [...(sentences.get(sentence) ?? []), each]);
  }
  return [...sentences.values()];
}

function prepare(interrupts: Interrupts): Prepared {
  const had = prepared.get(interrupts);
  if (had !== undefined) return had;
  const words = new Set<string>();
  const alarms = Object.entries(interrupts)
    .map(([id, { rank, sure, doubtful = [], unless = [], not_for: notFor = [] }]) => {
      for (const text of [...sure, ...doubtful]) for (const word of listen(text)) words.add(word.text);
      const phrases = (texts: readonly string[]) => texts.map(phrase);
      return { id, rank, notFor, sure: phrases(sure), doubtful: phrases(doubtful), unless: phrases(unless) };
    })
    .sort((a, b) => b.rank - a.rank);
  const made = { alarms, spelling: vocabulary(words, COMMON_WORDS) };
  prepared.set(interrupts, made);
  return made;
}
