/** Lines of a ticket as sections: what we say of it is marked, what people said is literal. Pure. */
import type { SectionBlock } from '@slack/types';
import { cut, literal, marked } from '../text.ts';

export interface Told {
  /** In Slack's own markup, and ours. */
  head: string;
  /** As somebody said it. */
  text: string;
}

/** Characters of a section. A piece of text that stays together has 500, so that it fits even when all of it is escaped. */
const SECTION = 2900;

/** Somebody's words as literal text of at most `most` characters, escaped; an entity is never cut in two. */
export const literally = (text: string, most: number): string =>
  cut(literal(cut(text, most)), most).replace(/&[a-z]{0,4}…$/, '…');

/** As few sections as hold the lines. */
export function lineBlocks(lines: readonly Told[]): SectionBlock[] {
  const chunks: string[] = [];
  for (const line of lines.flatMap(drawn)) {
    const last = chunks.at(-1);
    if (last !== undefined && last.length + line.length < SECTION)
      chunks[chunks.length - 1] = `${last}\n${line}`;
    else chunks.push(line);
  }
  return chunks.filter(chunk => chunk.trim() !== '').map(chunk => ({ type: 'section', text: marked(chunk) }));
}

function drawn({ head, text }: Told): string[] {
  const lines = text.split(/\r?\n/).flatMap(line => (line === '' ? [''] : (line.match(/.{1,500}/gsu) ?? [])));
  return lines.map((line, at) => `${at === 0 ? head : ''}${literal(line)}`);
}
