/** The words of a picture. */
import type { Box } from './view.ts';

export interface Word {
  text: string;
  /** Counts on through the picture, from 0. */
  line: number;
  box: Box;
  /** 0 to 100. */
  sure: number;
}

/** As one text, lines as lines. */
export const linesOf = (words: readonly Word[]): string =>
  words
    .map(({ text, line }, at) => `${at === 0 ? '' : line === words[at - 1]!.line ? ' ' : '\n'}${text}`)
    .join('');
