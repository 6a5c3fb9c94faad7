/** The desk's place in Teams: a team's channel, where each ticket has a thread, or a group chat. */
import { placeOf } from '../inbound.ts';
import type { Reference } from '../incoming.ts';
import type { TeamsSettings } from '../settings.ts';

export interface Place {
  conversation: string;
  /** A channel of a team. Group chats have no threads. */
  threads: boolean;
  /** How to reach it. Whoever acts there tells where Teams takes messages for it now. */
  reference(): Reference;
  learn(from: Reference): void;
  /** Was that said or done here? */
  holds(reference: Reference): boolean;
  /** Is that conversation this place, or a thread of it? */
  includes(conversation: string): boolean;
}

export function deskPlace(conversation: string, settings: TeamsSettings): Place {
  let known = placeOf(conversation, settings.tenant ?? '', settings);
  const includes = (other: string) => other === conversation || other.startsWith(`${conversation};`);
  const holds = (reference: Reference) =>
    includes(reference.conversation) || reference.channel === conversation;
  return {
    conversation,
    threads: !conversation.endsWith('@thread.v2'),
    reference: () => known,
    holds,
    includes,
    learn(from) {
      if (holds(from)) known = { ...known, serviceUrl: from.serviceUrl, tenant: from.tenant };
    },
  };
}
