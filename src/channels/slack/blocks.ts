/** The few kinds of blocks that we build messages of, within Slack's limits. Pure. */
import type { Button, KnownBlock, Overflow, PlainTextOption, SectionBlock } from '@slack/types';
import { cut, literal, marked, mrkdwn, unformatted } from './text.ts';

/** Characters of a section, with room for what escaping adds. */
const SECTION = 2900;
/** A line that is longer is broken: escaped it is five times as long at most. */
const LINE = 560;
const CONTEXT = 1900;
/** Escaped, the longest still fits. */
const SMALL = 390;
const LABEL = 75;

/** Our own text as sections; longer texts take several. */
export const sections = (text: string): SectionBlock[] =>
  chunked(text, mrkdwn).map(chunk => ({ type: 'section', text: marked(chunk) }));

/** Somebody's words as sections: nothing in them is markup. */
export const said = (words: string): SectionBlock[] =>
  chunked(words, literal).map(chunk => ({ type: 'section', text: marked(chunk) }));

/** One small grey line of our own. */
export const small = (text: string): KnownBlock => ({
  type: 'context',
  elements: [marked(cut(mrkdwn(text), CONTEXT))],
});

/** One small grey line in which nothing is markup. */
export const smallSaid = (text: string): KnownBlock => ({
  type: 'context',
  elements: [marked(literal(cut(text, SMALL)))],
});

export const header = (text: string): KnownBlock => ({ type: 'header', text: unformatted(cut(text, 150)) });

export const button = (
  action: string,
  label: string,
  value: string,
  style?: 'primary' | 'danger',
): Button => ({
  type: 'button',
  action_id: action,
  text: unformatted(cut(label, LABEL)),
  value,
  ...(style === undefined ? {} : { style }),
});

export const option = (label: string, value: string): PlainTextOption => ({
  text: unformatted(cut(label, LABEL)),
  value,
});

export const overflow = (action: string, options: PlainTextOption[]): Overflow => ({
  type: 'overflow',
  action_id: action,
  options,
});

/** A heading in bold over a list whose marks say with words and shape what they mean. */
export const list = (title: string, mark: string, lines: string[]): SectionBlock[] =>
  lines.length === 0
    ? []
    : sectionsOf([`*${literal(title)}*`, ...lines.map(line => `${mark} ${mrkdwn(line)}`)]);

const sectionsOf = (lines: string[]): SectionBlock[] =>
  joined(lines).map(chunk => ({ type: 'section', text: marked(chunk) }));

function chunked(text: string, draw: (line: string) => string): string[] {
  const lines = text
    .split('\n')
    .flatMap(line => (line.length <= LINE ? [line] : (line.match(/.{1,560}/gsu) ?? [])));
  return joined(lines.map(draw));
}

/** Lines put together to as few texts as hold them; empty texts are none. */
function joined(lines: string[]): string[] {
  const chunks: string[] = [];
  for (const line of lines) {
    const last = chunks.at(-1);
    if (last !== undefined && last.length + line.length + 1 <= SECTION)
      chunks[chunks.length - 1] = `${last}\n${line}`;
    else chunks.push(line);
  }
  return chunks.filter(chunk => chunk.trim() !== '');
}

/** Ids that no other block of the message has. Slack wants new ones whenever a message is redrawn. */
export const named = (blocks: KnownBlock[], key: string): KnownBlock[] =>
  blocks.map((block, index) => ({ ...block, block_id: `${key}:${index}` }));
