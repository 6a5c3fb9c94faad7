/** An answer's words with its name in the file told apart, so that conditions can be read against it. */
import { STYLES } from './look.ts';
import type { Token } from './text.ts';

/** "Faint ticking" with `ticking` marked in it; "clock: It said that the date was lost", where the name is not among its words. */
export function markedAnswer(name: string, label: string): Token[] {
  const words = label.split(' ');
  const named = name.split(' ');
  const bare = words.map(word => word.toLowerCase().replace(/[^\p{L}\p{N}]/gu, ''));
  const at = bare.findIndex((_, index) =>
    named.every((part, offset) => isNamed(bare[index + offset] ?? '', part)),
  );
  if (at === -1) return namedFirst(name, label);
  return words.map((word, index) => token(word, index >= at && index < at + named.length));
}

export const namedFirst = (name: string, label: string): Token[] => [
  ...`${name}:`.split(' ').map(word => token(word, true)),
  ...label.split(' ').map(word => token(word, false)),
];

export const isName = ({ style }: Token): boolean => style === STYLES.answerName;

/** Neighbours of the same style together; `from` is the first one's place in the line. */
export function runsOf(line: Token[]): { from: number; text: string; style: 'answerName' | 'answer' }[] {
  const runs: { from: number; text: string; style: 'answerName' | 'answer' }[] = [];
  for (const [from, each] of line.entries()) {
    const style = isName(each) ? 'answerName' : 'answer';
    const last = runs.at(-1);
    if (last?.style === style) last.text += ` ${each.word}`;
    else runs.push({ from, text: each.word, style });
  }
  return runs;
}

/** "ticking" is named ticking, "whirring" is named whirr. */
const isNamed = (word: string, name: string): boolean =>
  word === name || (name.length > 3 && word.startsWith(name));

const token = (word: string, strong: boolean): Token => ({
  word,
  style: strong ? STYLES.answerName : STYLES.answer,
});
