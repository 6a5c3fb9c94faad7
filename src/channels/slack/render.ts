/** What Reseat says in one turn as one Slack message: blocks, and the same as text for notifications and screen readers. Pure. */
import type { KnownBlock } from '@slack/types';
import { type HandOver, isQuestion, type Message } from '#engine/messages.ts';
import { plain, unmarked } from '../plain.ts';
import { answeredBlocks, askBlocks } from './ask.ts';
import { header, list, named, sections } from './blocks.ts';
import { cut, escaped } from './text.ts';
import type { Words } from './words.ts';

export interface Drawing {
  /** Escaped: no mention, link or entity is in it. */
  text: string;
  blocks: KnownBlock[];
}

const MOST_BLOCKS = 50;
const MOST_TEXT = 4000;

/** Messages of one turn. `key` begins the ids of its blocks, by which it is found again. */
export function drawn(messages: Message[], conversation: string, key: string, words: Words): Drawing {
  return drawing(messages, key, message =>
    isQuestion(message) ? askBlocks(message, conversation, words) : toldBlocks(message, words),
  );
}

/** The same message once its question is answered, or has passed. Its buttons are gone. */
export function redrawn(
  messages: Message[],
  question: number,
  chosen: string | null,
  key: string,
  words: Words,
): Drawing {
  return drawing(messages, key, message => {
    if (!isQuestion(message)) return toldBlocks(message, words);
    return answeredBlocks(message, message.number === question ? chosen : null, words);
  });
}

function drawing(messages: Message[], key: string, blocksOf: (message: Message) => KnownBlock[]): Drawing {
  const groups = messages.map(blocksOf);
  const last = groups.at(-1) ?? [];
  const earlier = groups.slice(0, -1).flat();
  // A question is never what is left out.
  const blocks = [...earlier.slice(0, Math.max(0, MOST_BLOCKS - last.length)), ...last].slice(0, MOST_BLOCKS);
  return { text: textOf(messages), blocks: named(blocks, key) };
}

function textOf(messages: Message[]): string {
  const texts = messages.map(message => escaped(unmarked(plain(message))));
  const last = cut(texts.at(-1) ?? '', MOST_TEXT);
  const room = MOST_TEXT - last.length - 2;
  const earlier = texts.slice(0, -1).join('\n\n');
  return earlier === '' || room < 1 ? last : `${cut(earlier, room)}\n\n${last}`;
}

function toldBlocks(message: Exclude<Message, { kind: 'ask' | 'try' }>, words: Words): KnownBlock[] {
  switch (message.kind) {
    case 'say':
      return sections(message.text);
    case 'outage-notice':
      return sections(`📣 ${message.text}`);
    case 'ending':
      return sections(message.how === 'fixed' ? `✅ ${message.text}` : message.text);
    case 'caution':
      return sections(`⚠️ **${words.careful}**\n${message.text}`);
    case 'hand-over':
      return handOver(message, words);
  }
}

const handOver = ({ ticket, priority, text, next, do: does, dont }: HandOver, words: Words): KnownBlock[] => [
  header(words.ticket(ticket)),
  ...sections(`**${unmarked(priority)}**\n${text}`),
  ...sections(`**${words.next}**\n${next}`),
  ...list(words.do, '✔', does),
  ...list(words.dont, '✘', dont),
];
