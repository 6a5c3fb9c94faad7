/** The one plain-text drawing of every message: what the terminal shows, and what other channels fall back to. */
import type { Ask, Message, Try } from '#engine/messages.ts';

/** Text of one message. `marked` keeps **bold** and `code` marks; else they are taken out. */
export function plain(message: Message): string {
  switch (message.kind) {
    case 'say':
    case 'outage-notice':
    case 'ending':
      return message.text;
    case 'caution':
      return `! ${message.text}`;
    case 'ask':
      return [`${message.text}${hint(message)}`, ...choices(message)].join('\n');
    case 'try':
      return [
        `Please try this (about ${minutes(message.minutes)}):`,
        message.text,
        '',
        message.works,
        ...choices(message),
      ].join('\n');
    case 'hand-over':
      return [
        `Ticket ${message.ticket}: ${message.priority}`,
        message.text,
        `What happens next: ${message.next}`,
        ...list('Please do', message.do),
        ...list('Please do not', message.dont),
      ]
        .filter(line => line !== '')
        .join('\n');
  }
}

const list = (title: string, lines: string[]) =>
  lines.length === 0 ? [] : [`${title}:`, ...lines.map(line => `- ${line}`)];

const choices = ({ answers }: Ask | Try) => answers.map(({ label }, index) => `  ${index + 1}  ${label}`);

export const minutes = (count: number): string => (count === 1 ? '1 minute' : `${count} minutes`);

function hint(ask: Ask): string {
  if (ask.form === 'number')
    return ` (a number in ${ask.unit ?? 'units'}${ask.optional ? ', or "skip"' : ''})`;
  return ask.optional ? ' (or "skip")' : '';
}

/** Our own texts' marks taken out, for places that can't draw them. */
export const unmarked = (text: string): string =>
  text
    .replace(/\*\*(.+?)\*\*/g, '$1')
    .replace(/(?<![\w*])\*(\p{L}[^*\n]*)\*(?![\w*])/gu, '“$1”')
    .replace(/`([^`\n]+)`/g, '$1')
    .replace(/\[([^\]\n]+)\]\(([^)\s]+)\)/g, '$1 ($2)');
