/** The official library's opinion on a card, and our own limits. */

import { createRequire } from 'node:module';
import { activityZodSchema } from '@microsoft/agents-activity';
import { host } from './host.ts';
import { actionsOf, type Json } from './teams.ts';

// The package's own entry cannot be loaded outside a browser; this one can.
const AC = createRequire(import.meta.url)('adaptivecards/dist/adaptivecards.js');

/** What is wrong with a message to Teams; empty: nothing. */
export function wrongWith(activity: Json): string[] {
  const wrong: string[] = [];
  const read = activityZodSchema.safeParse(activity);
  if (!read.success) wrong.push(read.error.message);
  const bytes = JSON.stringify(activity).length * 2;
  if (bytes > 25 * 1024) wrong.push(`${bytes} bytes`);
  if (activity.summary === undefined) wrong.push('no summary');
  const card = activity.attachments?.[0]?.content;
  if (card === undefined) return wrong;
  if (card.version !== '1.5') wrong.push(`version ${card.version}`);
  if (typeof card.fallbackText !== 'string' || card.fallbackText === '') wrong.push('no fallback text');
  return [...wrong, ...parsed(card), ...ids(card)];
}

function parsed(card: Json): string[] {
  const context = new AC.SerializationContext(AC.Versions.v1_5);
  const parsed = new AC.AdaptiveCard();
  parsed.hostConfig = new AC.HostConfig(host('light'));
  parsed.parse(card, context);
  const events = Array.from({ length: context.eventCount }, (_, index) => context.getEventAt(index).message);
  const { validationEvents } = parsed.validateProperties();
  return [...events, ...validationEvents.map(({ message }: { message: string }) => message)];
}

function ids(card: Json): string[] {
  const all: string[] = [];
  const walk = (value: Json) => {
    if (Array.isArray(value)) return value.forEach(walk);
    if (typeof value !== 'object' || value === null) return;
    if (typeof value.type === 'string' && typeof value.id === 'string') all.push(value.id);
    for (const [name, inner] of Object.entries(value)) if (name !== 'data') walk(inner);
  };
  walk(card);
  const doubled = all.filter((id, index) => all.indexOf(id) !== index);
  const unnamed = actionsOf(card).filter(({ title }) => typeof title !== 'string' || title === '');
  return [
    ...doubled.map(id => `two elements are called ${id}`),
    ...unnamed.map(() => 'an action without a title'),
  ];
}
