/** Messages as lines of a terminal, wrapped, with nothing in them that a terminal would obey. */
import type { Message, Remaining } from '#engine/messages.ts';
import { isQuestion } from '#engine/messages.ts';
import { plain, unmarked } from '../plain.ts';

export interface Look {
  width: number;
  colour: boolean;
}

export function render(messages: Message[], look: Look): string {
  return messages.map(message => draw(message, look)).join('\n\n');
}

function draw(message: Message, look: Look): string {
  const text = wrap(clean(unmarked(plain(message))), look.width - 2)
    .split('\n')
    .map(line => (line === '' ? '' : `  ${line}`))
    .join('\n');
  if (message.kind === 'caution') return paint(text, '1;33', look);
  if (message.kind === 'hand-over') return paint(text, '1', look);
  if (!isQuestion(message)) return text;
  const foot = [soFar(message.left), `or: ${message.always.map(word => WORDS[word]).join(', ')}`]
    .filter(Boolean)
    .join(' · ');
  return `${text}\n${paint(wrap(`  ${foot}`, look.width), '2', look)}`;
}

export const WORDS = { back: 'back', again: 'start again', person: 'a person', stop: 'stop' } as const;

function soFar(left: Remaining | null): string {
  if (left === null) return '';
  const { shortest, longest } = left;
  if (longest <= 1) return 'the last question';
  return shortest === longest ? `${longest} questions left` : `${shortest} to ${longest} questions left`;
}

const paint = (text: string, code: string, { colour }: Look) =>
  colour ? `\u001b[${code}m${text}\u001b[0m` : text;

/** Control characters other than line breaks are shown as a mark, so that nobody's text moves a cursor. */
export const clean = (text: string): string =>
  text.replace(/[^\P{Cc}\n]|[\u202a-\u202e\u2066-\u2069]/gu, '\ufffd');

export function wrap(text: string, width: number): string {
  return text
    .split('\n')
    .map(line => wrapLine(line, Math.max(20, width)))
    .join('\n');
}

function wrapLine(line: string, width: number): string {
  const indent = /^\s*(?:[-•] |\d+ {2})?/.exec(line)?.[0] ?? '';
  const lines: string[] = [];
  let current = indent;
  for (const word of line.slice(indent.length).split(' ')) {
    const glue = current.trim() === indent.trim() && current.length === indent.length ? '' : ' ';
    if (current.length + glue.length + word.length > width && current.length > indent.length) {
      lines.push(current);
      current = ' '.repeat(indent.length) + word;
    } else {
      current += glue + word;
    }
  }
  return [...lines, current].join('\n');
}
