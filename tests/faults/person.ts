/** A person who answers whatever is asked, by chance, and sends the same thing again until it was acknowledged. */
import { isQuestion, type Message, type Question } from '#engine/messages.ts';
import type { FromPerson } from '#talk/inbound.ts';

export interface Delivered {
  row: number;
  conversation: string;
  chat: string;
  messages: Message[];
  at: number;
}

export interface Person {
  chat: string;
  /** Sent and not acknowledged yet. */
  pending: FromPerson | null;
  /** The step that it answers; `@opening` for the first words. */
  step: string;
  /** Every answer that was acknowledged, by conversation and question. */
  acknowledged: { conversation: string; question: number; step: string; said: string }[];
  done: boolean;
}

const OPENINGS = [
  'My laptop says no bootable device found',
  'there is a clicking noise from my external drive',
  'computer starts but then: no boot device available',
  'the hard disk makes a grinding noise',
];

export const address = (chat: string): FromPerson['address'] => ({
  channel: 'fake',
  chat,
  to: {},
  person: { id: chat, name: 'Somebody', mail: null },
});

export function begin(chat: string, chance: () => number): Person {
  const text = OPENINGS[Math.floor(chance() * OPENINGS.length)]!;
  const pending: FromPerson = {
    kind: 'text',
    identity: `${chat}:opening`,
    at: Date.now(),
    address: address(chat),
    text,
  };
  return { chat, pending, step: '@opening', acknowledged: [], done: false };
}

/** What was pending is committed now. */
export function acknowledge(person: Person): void {
  const { pending, step } = person;
  if (pending === null) return;
  // The person's own identities end in conversation and question; the first words stand before any question.
  const [conversation = '', question = ''] = pending.identity.split(':').slice(-2);
  const number = question === 'opening' ? 0 : Number(question);
  person.acknowledged.push({ conversation, question: number, step, said: saidBy(pending) });
  person.pending = null;
}

/** Reads what was delivered and decides what to say next. */
export function hear(person: Person, delivered: Delivered, chance: () => number): void {
  if (delivered.messages.some(({ kind }) => kind === 'ending' || kind === 'hand-over')) {
    // The reply proves the commit, whether or not its acknowledgement survived.
    acknowledge(person);
    person.done = true;
    return;
  }
  const question = delivered.messages.findLast(isQuestion);
  if (question === undefined || person.done) return;
  const answered = person.acknowledged.some(
    each => each.conversation === delivered.conversation && each.question === question.number,
  );
  const identity = `${person.chat}:${delivered.conversation}:${question.number}`;
  if (answered || person.pending?.identity === identity) return;
  // The next question proves that what was pending is committed, whether or not its acknowledgement survived.
  acknowledge(person);
  person.pending = answer(question, delivered, identity, chance);
  person.step = question.step;
}

function answer(
  question: Question,
  { chat, conversation }: Delivered,
  identity: string,
  chance: () => number,
): FromPerson {
  const base = { identity, at: Date.now(), address: address(chat) };
  const choice = question.answers[Math.floor(chance() * question.answers.length)];
  if (choice === undefined) return { ...base, kind: 'text', text: `words for ${question.step}, 555-0100` };
  return { ...base, kind: 'press', conversation, question: question.number, answer: choice.id };
}

export const saidBy = (inbound: FromPerson): string =>
  inbound.kind === 'press' ? inbound.answer : inbound.kind === 'text' ? inbound.text : inbound.kind;
