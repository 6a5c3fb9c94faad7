/** Texts in lines that fit. Nothing is lost: what is shortened keeps its full words beside it. */

export type Weight = 'regular' | 'strong';

/** A way of writing; sizes in px of the picture. */
export interface Style {
  size: number;
  weight: Weight;
}

/** Width in px of a text on one line: the sum of its letters' widths. */
export type Measure = (text: string, style: Style) => number;

const ELLIPSIS = '…';

/** Without the marks for bold, code and links; on one line. */
export const plain = (text: string): string =>
  text
    .replace(/\[([^\]]*)\]\([^)]*\)/g, '$1')
    .replace(/[*`]/g, '')
    .replace(/\s+/g, ' ')
    .trim();

/** What fits; `cut` when it ends with an ellipsis because there is more. */
export interface Fitted<Of> {
  lines: Of[];
  cut: boolean;
}

/** At most `most` lines; the last one ends with an ellipsis, after a whole word, when there is more. */
export function fittedLines(
  text: string,
  style: Style,
  width: number,
  most: number,
  measure: Measure,
): Fitted<string> {
  const fits = (line: string) => measure(line, style) <= width;
  const set: string[] = [];
  let rest = plain(text).split(' ');
  while (rest.length > 0 && set.length < most) {
    const count = longest(rest, style, width, measure);
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
  const cut = rest.length > 0 && set.length > 0;
  if (cut) set.push(ended(set.pop()!, fits));
  return { lines: set, cut };
}

/** A word in its own style. */
export interface Token {
  word: string;
  style: Style;
}

/** Words of several styles in at most `most` lines. */
export function mixedLines(tokens: Token[], width: number, most: number, measure: Measure): Fitted<Token[]> {
  const set: Token[][] = [];
  let rest = tokens;
  while (rest.length > 0 && set.length < most) {
    const over = mixedPlaces(rest, measure).ends.findIndex(end => end > width);
    const count = over === -1 ? rest.length : Math.max(1, over);
    set.push(rest.slice(0, count));
    rest = rest.slice(count);
  }
  // A word wider than the line is cut too.
  const last = set.findIndex(line => mixedWidth(line, measure) > width);
  const end = last === -1 ? set.length - 1 : last;
  const cut = rest.length > 0 || last !== -1;
  return { lines: cut ? [...set.slice(0, end), mixedEnd(set[end]!, width, measure)] : set, cut };
}

function mixedEnd(line: Token[], width: number, measure: Measure): Token[] {
  const kept = line.slice();
  const ended = (): Token[] => {
    const end = kept.at(-1)!;
    return [...kept.slice(0, -1), { ...end, word: `${trimmed(end.word)}${ELLIPSIS}` }];
  };
  while (mixedWidth(ended(), measure) > width) {
    const end = kept.pop()!;
    if (kept.length > 0) continue;
    const letters = [...end.word];
    if (letters.length === 1) return [{ ...end, word: ELLIPSIS }];
    kept.push({ ...end, word: letters.slice(0, -1).join('') });
  }
  return ended();
}

/** Where each word starts and ends. */
export function mixedPlaces(tokens: Token[], measure: Measure): { starts: number[]; ends: number[] } {
  const starts: number[] = [];
  const ends: number[] = [];
  let x = 0;
  tokens.forEach(({ word, style }, index) => {
    if (index > 0) x += measure(' ', style);
    starts.push(x);
    x += measure(word, style);
    ends.push(x);
  });
  return { starts, ends };
}

const mixedWidth = (tokens: Token[], measure: Measure): number =>
  mixedPlaces(tokens, measure).ends.at(-1) ?? 0;
const trimmed = (word: string): string => word.replace(/[\s.,;:!?–-]+$/, '');

export const shortened = (text: string, style: Style, width: number, measure: Measure): string =>
  fittedLines(text, style, width, 1, measure).lines[0] ?? '';

function longest(words: string[], style: Style, width: number, measure: Measure): number {
  const space = measure(' ', style);
  let used = -space;
  const over = words.findIndex(word => {
    used += space + measure(word, style);
    return used > width;
  });
  return over === -1 ? words.length : over;
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
