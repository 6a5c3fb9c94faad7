/** A question's card as it stands once it was answered, or has passed: what the person who pressed sees in its place at once. */
import type { Store } from '#store/store.ts';
import { type Carried, chatOf } from './inbound.ts';
import type { Incoming } from './incoming.ts';
import { lookOf } from './look-of.ts';
import { cardOf } from './render.ts';

/** Matters of a chat in which the question is looked for. */
const MATTERS = 4;

/** Null: there is no such question in this chat. */
export async function answeredCard(
  store: Pick<Store, 'history'>,
  { c, q }: Carried,
  incoming: Incoming,
  bot: string,
  now: number,
): Promise<unknown> {
  const { conversations, sent } = await store.history(chatOf(incoming.reference), MATTERS);
  const conversation = conversations.find(({ id }) => id === c);
  const row = sent.findLast(each => each.conversation === c && each.question === q);
  if (conversation === undefined || row === undefined) return null;
  const answer = conversation.entries.findLast(entry => entry.kind === 'answer' && entry.question === q);
  const chosen = answer?.kind === 'answer' ? answer.words : null;
  return cardOf(row.messages, lookOf(incoming, c, bot, now), { question: q, chosen });
}
