/** Which words of a picture are a key or a password: they are covered before the picture is kept for good. Pure. */
import { redact } from './redact.ts';

export interface ReadWord {
  text: string;
  /** Counts on through the picture. */
  line: number;
}

/** Groups of six figures, of which a recovery key has eight; so many of them are none by chance. */
const GROUPS = 3;
/** Where the picture speaks of a key, fewer tell one. */
const NAMED_GROUPS = 2;
const NAMES_KEY = /recovery|key|schl(?:ü|ue)ssel|cl[eé]f?\b|clave|bitlocker|filevault|luks/i;
/** Words that may stand between two groups. */
const BETWEEN = 3;
const ALIKE: Record<string, string> = {
  O: '0',
  o: '0',
  Q: '0',
  D: '0',
  I: '1',
  l: '1',
  i: '1',
  '|': '1',
  '!': '1',
  S: '5',
  s: '5',
  B: '8',
  Z: '2',
  z: '2',
};

/** Places in `words`. */
export function secretsIn(words: readonly ReadWord[]): number[] {
  const found = new Set([...redacted(words), ...groups(words)]);
  return [...found].sort((a, b) => a - b);
}

/** What redaction takes out of the words as a text. */
function redacted(words: readonly ReadWord[]): number[] {
  let text = '';
  const spans = words.map(({ text: word, line }, at) => {
    if (at > 0) text += line === words[at - 1]!.line ? ' ' : '\n';
    text += word;
    return { start: text.length - word.length, end: text.length };
  });
  const gaps = gapsOf(text, redact(text).text);
  return spans.flatMap(({ start, end }, at) =>
    gaps.some(gap => start < gap.end && end > gap.start) ? [at] : [],
  );
}

const REMOVED = /\[removed: [a-z ]+\]/;

/** Where the text has lost something, from what is left of it. */
function gapsOf(text: string, left: string): { start: number; end: number }[] {
  const kept = left.split(REMOVED);
  const gaps: { start: number; end: number }[] = [];
  let at = kept[0]!.length;
  for (const [index, piece] of kept.entries()) {
    if (index === 0) continue;
    const last = index === kept.length - 1;
    const next = last ? text.length - piece.length : text.indexOf(piece, at + 1);
    const end = next < at ? text.length : next;
    gaps.push({ start: at, end });
    at = end + piece.length;
  }
  return gaps;
}

/** Groups of figures near each other, and everything between them: what could not be read there may be a group too. */
function groups(words: readonly ReadWord[]): number[] {
  const text = words.map(word => word.text).join(' ');
  const least = NAMES_KEY.test(text) ? NAMED_GROUPS : GROUPS;
  const found: number[] = [];
  let run: { at: number; count: number }[] = [];
  const close = () => {
    const count = run.reduce((sum, each) => sum + each.count, 0);
    const [first, last] = [run[0]?.at, run.at(-1)?.at];
    if (count >= least && first !== undefined && last !== undefined) {
      let [from, to] = [first, last];
      // What stands next to them and is mostly figures is a group that was read badly.
      while (isFigures(words[from - 1])) from -= 1;
      while (isFigures(words[to + 1])) to += 1;
      for (let at = from; at <= to; at++) found.push(at);
    }
    run = [];
  };
  for (const [at, { text: word }] of words.entries()) {
    const count = groupsIn(word);
    if (count === 0) continue;
    const last = run.at(-1);
    if (last !== undefined && at - last.at > BETWEEN) close();
    run.push({ at, count });
  }
  close();
  return found;
}

const isFigures = (word: ReadWord | undefined): boolean => (word?.text.match(/\d/g)?.length ?? 0) >= 3;

/** "263956-" is one, and so is "26395b": most of it must be figures, and all of it may be. */
function groupsIn(word: string): number {
  return word.split(/[^\p{L}\p{N}|!]+/u).filter(part => {
    const figures = [...part].map(letter => ALIKE[letter] ?? letter).join('');
    return /^\d{6}$/.test(figures) && (part.match(/\d/g)?.length ?? 0) >= 4;
  }).length;
}
