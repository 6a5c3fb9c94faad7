/** One line of a terminal as an inbound. */
import { isQuestion, type Message, type Question } from '#engine/messages.ts';
import type { Address, FromPerson } from '#talk/inbound.ts';

/** The question on the screen, for lines that are an answer's id or number. */
export interface OnScreen {
  conversation: string;
  question: Question | null;
}

/** `place`: one of several chats of the same person; their name alone unless given. */
export const addressOf = (name: string, place = name): Address => ({
  channel: 'terminal',
  chat: `terminal:${place}`,
  to: {},
  person: { id: name, name, mail: null },
});

/** An answer's id is a press; everything else is text and is heard as such. */
export function inboundOf(
  line: string,
  screen: OnScreen,
  address: Address,
  identity: string,
  at: number,
): FromPerson {
  const answer = line.trim();
  if (screen.question?.answers.some(({ id }) => id === answer)) {
    const { number } = screen.question;
    return {
      kind: 'press',
      identity,
      at,
      address,
      conversation: screen.conversation,
      question: number,
      answer,
    };
  }
  return { kind: 'text', identity, at, address, text: line };
}

/** What is on the screen after these messages. */
export const screenAfter = (conversation: string, messages: Message[], before: OnScreen): OnScreen => {
  const question = messages.findLast(isQuestion);
  if (question !== undefined) return { conversation, question };
  return messages.some(({ kind }) => kind === 'ending' || kind === 'hand-over')
    ? { conversation, question: null }
    : before;
};
