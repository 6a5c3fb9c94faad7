/** Texts in lines that fit. Nothing is lost: what is shortened keeps its full words beside it. */

export type Weight = 'regular' | 'strong';

/** A way of writing; sizes in px of the picture. */
export interface Style {
  size: number;
  weight: Weight;
}

/** Width in px of a text on one line. */
export type Measure = (text: string, style: Style) => number;

const ELLIPSIS = '…';

/** Without the marks for bold, code and links; on one line. */
export const plain = (text: string): string =>
  text
    .replace(/\[([^\]]*)\]\([^)]*\)/g, '$1')
    .replace(/[*`]/g, '')
    .replace(/\s+/g, ' ')
    .trim();

/** At most `most` lines; the last one ends with an ellipsis, after a whole word, when there is more. */
export function lines(text: string, style: Style, width: number, most: number, measure: Measure): string[] {
  const fits = (line: string) => measure(line, style) <= width;
  const set: string[] = [];
  let rest = plain(text).split(' ');
  while (rest.length > 0 && set.length < most) {
    const count = longest(rest, fits);
    if (count === 0) {
      // A word that is wider than the line is broken where it must be.
      const [head, tail] = broken(rest[0]!, fits);
      set.push(head);
      rest = [tail, ...rest.slice(1)];
    } else {
      set.push(rest.slice(0, count).join(' '));
      rest = rest.slice(count);
    }
  }
  if (rest.length > 0 && set.length > 0) set.push(ended(set.pop()!, fits));
  return set;
}

/** A word in its own style. */
export interface Token {
  word: string;
  style: Style;
}

/** Words of several styles in at most `most` lines; the last word is an ellipsis when there are more. */
export function mixedLines(tokens: Token[], width: number, most: number, measure: Measure): Token[][] {
  const set: Token[][] = [];
  let rest = tokens;
  while (rest.length > 0 && set.length < most) {
    let count = 1;
    while (count < rest.length && mixedWidth(rest.slice(0, count + 1), measure) <= width) count += 1;
    set.push(rest.slice(0, count));
    rest = rest.slice(count);
  }
  const last = set.at(-1);
  if (last === undefined) return set;
  if (rest.length > 0 || mixedWidth(last, measure) > width) {
    const kept = last.slice();
    let end = kept.at(-1)!;
    const ended = () => [...kept.slice(0, -1), { ...end, word: `${trimmed(end.word)}${ELLIPSIS}` }];
    while (kept.length > 1 && mixedWidth(ended(), measure) > width) {
      kept.pop();
      end = kept.at(-1)!;
    }
    while (end.word.length > 1 && mixedWidth(ended(), measure) > width) {
      end = { ...end, word: [...end.word].slice(0, -1).join('') };
    }
    set[set.length - 1] = ended();
  }
  return set;
}

/** Where each word starts, and where the line ends. */
export function mixedPlaces(tokens: Token[], measure: Measure): { starts: number[]; end: number } {
  const starts: number[] = [];
  let x = 0;
  tokens.forEach(({ word, style }, index) => {
    if (index > 0) x += measure(' ', style);
    starts.push(x);
    x += measure(word, style);
  });
  return { starts, end: x };
}

const mixedWidth = (tokens: Token[], measure: Measure): number => mixedPlaces(tokens, measure).end;
const trimmed = (word: string): string => word.replace(/[\s.,;:!?–-]+$/, '');

export const shortened = (text: string, style: Style, width: number, measure: Measure): string =>
  lines(text, style, width, 1, measure)[0] ?? '';

function longest(words: string[], fits: (line: string) => boolean): number {
  let count = 0;
  while (count < words.length && fits(words.slice(0, count + 1).join(' '))) count += 1;
  return count;
}

function broken(word: string, fits: (line: string) => boolean): [string, string] {
  const letters = [...word];
  let count = 1;
  while (count < letters.length && fits(letters.slice(0, count + 1).join(''))) count += 1;
  return [letters.slice(0, count).join(''), letters.slice(count).join('')];
}

function ended(line: string, fits: (line: string) => boolean): string {
  const words = line.split(' ');
  for (let count = words.length; count > 0; count--) {
    const shorter = `${trimmed(words.slice(0, count).join(' '))}${ELLIPSIS}`;
    if (fits(shorter)) return shorter;
  }
  const letters = [...line];
  while (letters.length > 0 && !fits(`${letters.join('')}${ELLIPSIS}`)) letters.pop();
  return `${letters.join('')}${ELLIPSIS}`;
}
