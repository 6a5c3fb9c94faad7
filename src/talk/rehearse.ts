/** A whole conversation without database or channel: the same decisions, delivered at once. For walks, tests and figures. Pure. */
import { isQuestion, type Message, type Question } from '#engine/messages.ts';
import type { Script } from '#engine/script.ts';
import type { Conversation, TicketRow } from '#store/store.ts';
import { decide } from './decide.ts';
import type { Before } from './draft.ts';
import type { FromPerson, Inbound } from './inbound.ts';
import type { Knowledge } from './knowledge.ts';
import { beginsNew } from './route.ts';

export interface Rehearsal {
  /** What a person does; returns what is said to that. */
  say(text: string): Message[];
  press(answer: string): Message[];
  /** Anything else that can happen. */
  take(inbound: Inbound): Message[];
  conversation(): Conversation;
  ticket(): TicketRow | null;
  /** The open question as the person sees it. */
  question(): Question | null;
  /** Lets time pass. */
  wait(milliseconds: number): void;
  now(): number;
}

const ADDRESS: FromPerson['address'] = {
  channel: 'fake',
  chat: 'fake:walk',
  to: {},
  person: { id: 'walk', name: 'Somebody', mail: null },
};

export function rehearse(knowledge: Knowledge, start = 0): Rehearsal {
  let now = start;
  let count = 0;
  let number = 1001;
  let conversation = blank('c1', now);
  let script: Script | null = null;
  let ticket: TicketRow | null = null;
  let question: Question | null = null;

  function take(inbound: Inbound): Message[] {
    let before: Before = { conversation, script, ticket, openTicket: openTicket() };
    if (beginsNew(knowledge, before, inbound, now)) {
      number += 1;
      conversation = blank(`c${number}`, now);
      [script, ticket] = [null, null];
      before = { conversation, script, ticket, openTicket: before.openTicket };
    }
    if (conversation.number === null) conversation = { ...conversation, number };
    const decision = decide(knowledge, { ...before, conversation }, inbound, now, `ask-${count}`);
    if (decision.refused !== null) throw new Error(decision.refused);
    conversation = { ...conversation, ...decision.change };
    script = decision.script?.script ?? script;
    ticket = decision.ticket ?? ticket;
    const messages = decision.outgoing.flatMap(row => (row.kind === 'messages' ? row.messages : []));
    const asked = messages.findLast(isQuestion);
    if (asked !== undefined && asked.number > conversation.askedNumber) {
      conversation = { ...conversation, askedNumber: asked.number, askedAt: now };
    }
    question = asked ?? (conversation.outcome === null ? question : null);
    const relayed = decision.outgoing.flatMap(row => (row.kind === 'relay' ? take(row.inbound) : []));
    return [...messages, ...relayed];
  }
  const openTicket = () =>
    ticket !== null && ticket.status !== 'closed' && ticket.status !== 'merged'
      ? { number: ticket.number, conversation: ticket.conversation }
      : null;
  const stamp = () => {
    count += 1;
    now += 1000;
    return { identity: `walk:${count}`, at: now, address: ADDRESS };
  };
  return {
    say: text => take({ ...stamp(), kind: 'text', text }),
    press: answer =>
      take({
        ...stamp(),
        kind: 'press',
        conversation: conversation.id,
        question: question?.number ?? 0,
        answer,
      }),
    take,
    conversation: () => conversation,
    ticket: () => ticket,
    question: () => question,
    wait: milliseconds => {
      now += milliseconds;
    },
    now: () => now,
  };
}

const blank = (id: string, now: number): Conversation => ({
  id,
  chat: ADDRESS.chat,
  current: true,
  version: 1,
  number: null,
  address: ADDRESS,
  script: null,
  symptom: null,
  entries: [],
  outcome: null,
  fault: null,
  ticket: false,
  outage: null,
  askedNumber: 0,
  askedAt: 0,
  dueAt: null,
  dueKind: null,
  openedAt: now,
  heardAt: now,
});
