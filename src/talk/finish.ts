/** From a finished draft to what is stored and sent: ticket, timer, messages, and the columns that index the entries. */
import type { Entry } from '#engine/entries.ts';
import { fold } from '#engine/fold.ts';
import type { Message } from '#engine/messages.ts';
import { isQuestion } from '#engine/messages.ts';
import { isDeskTopic } from '#engine/schema.ts';
import type { Script } from '#engine/script.ts';
import type { ConversationChange, NewFile, NewOutgoing, TicketRow } from '#store/store.ts';
import { fileTicket } from '#tickets/fill.ts';
import { foldLife, priorityNow } from '#tickets/life.ts';
import { type LifeEntry, reference } from '#tickets/schema.ts';
import { handOverMessage } from '#tickets/words.ts';
import type { Draft } from './draft.ts';
import { endingOf } from './ending.ts';
import { offerOther } from './hear-opening.ts';
import { heardTogether } from './heard-together.ts';
import type { Inbound } from './inbound.ts';
import { questionOf } from './question.ts';
import { recordWork } from './work.ts';

export interface Decision {
  change: ConversationChange;
  /** To be kept under its hash. */
  script: { hash: string; script: Script } | null;
  ticket: TicketRow | null;
  outgoing: NewOutgoing[];
  file: NewFile | null;
  /** One clear line when the desk asked for something that makes no sense now. */
  refused: string | null;
}

export function finish(draft: Draft, inbound: Inbound): Omit<Decision, 'refused'> {
  const { before, entries, state, now, script, hash } = draft;
  const { conversation } = before;
  recordWork(draft);
  const ticket = ticketOf(draft);
  const messages = compose(draft, ticket);
  const outgoing: NewOutgoing[] = [...draft.relays];
  if (messages.length > 0) {
    const question = messages.findLast(isQuestion)?.number ?? null;
    const lane = conversation.chat;
    outgoing.push({ kind: 'messages', lane, conversation: conversation.id, messages, question, dueAt: now });
  }
  if (ticket !== null) outgoing.push(...shown(draft, ticket));
  const heard = 'address' in inbound && inbound.kind !== 'desk-question';
  return {
    change: {
      entries,
      script: hash,
      symptom: state.symptom,
      outcome: state.outcome?.how ?? null,
      fault: ticket?.fault ?? state.outcome?.fault ?? null,
      ticket: conversation.ticket || ticket !== null,
      outage: state.outages.at(-1) ?? null,
      ...(heard ? { heardAt: now } : {}),
      ...dueOf(draft, heard ? now : conversation.heardAt),
    },
    script: script !== null && hash !== null && hash !== conversation.script ? { hash, script } : null,
    ticket,
    outgoing,
    file: draft.file,
  };
}

/** Every place of the desk shows the ticket as it is now, with what happened in this turn. */
function shown({ before, knowledge, now }: Draft, ticket: TicketRow): NewOutgoing[] {
  const [from, to] = [before.ticket?.life.length ?? 0, ticket.life.length];
  const { conversation } = ticket;
  return knowledge.settings.boards.map(lane => ({
    kind: 'ticket',
    lane,
    conversation,
    from,
    to,
    dueAt: now,
  }));
}

/** One nudge after a while without an answer; after days the conversation counts as left. */
function dueOf(draft: Draft, heardAt: number): Pick<ConversationChange, 'dueAt' | 'dueKind'> {
  const { state, entries, knowledge } = draft;
  if (state.outcome !== null || entries.length === 0 || isDeskTopic(state.symptom))
    return { dueAt: null, dueKind: null };
  const { nudgeAfter, leftAfter } = knowledge.settings;
  const nudged = entries.some(entry => entry.kind === 'timer' && entry.at >= heardAt);
  return nudged || state.frames.length === 0
    ? { dueAt: heardAt + leftAfter, dueKind: 'left' }
    : { dueAt: heardAt + nudgeAfter, dueKind: 'nudge' };
}

/** What makes a ticket of its own even out of a technician's work, which else is recorded on the ticket it is for. */
const ALARMS = ['danger', 'attack'] as const;

/** The ticket as it stands after this turn, or null when there is none or nothing about it changed. */
function ticketOf(draft: Draft): TicketRow | null {
  const { before, state, now, knowledge, script, hash, entries } = draft;
  const { conversation } = before;
  const number = conversation.number;
  const due =
    state.ticketDue && (!isDeskTopic(state.symptom) || ALARMS.some(sign => state.signs.includes(sign)));
  if (number === null || !(before.ticket !== null || due)) return null;
  const moved = entries.length > conversation.entries.length;
  if (before.ticket !== null && !moved && draft.life.length === 0) return null;
  const { person, channel } = conversation.address;
  const filled = fileTicket({
    number,
    state,
    script,
    scriptHash: hash,
    entries,
    person: { ...person, channel },
    catalogue: knowledge.catalogue,
    site: knowledge.site,
    confirmed: knowledge.confirmed[state.symptom ?? ''] ?? {},
    openedAt: before.ticket?.openedAt ?? now,
    now,
    outage: state.outages.at(-1) ?? null,
  });
  const life = [
    ...(before.ticket?.life ?? [{ kind: 'opened', at: now, by: 'Reseat' } as LifeEntry]),
    ...draft.life,
  ];
  if (before.ticket !== null && changedForDesk(draft))
    life.push({ kind: 'changed', at: now, by: person.name ?? person.id });
  const standing = foldLife(life);
  return {
    number,
    conversation: conversation.id,
    chat: conversation.chat,
    status: standing.status,
    priority: priorityNow(standing, filled.priority),
    symptom: state.symptom,
    site: filled.fields['place.site'].state === 'known' ? filled.fields['place.site'].answer : null,
    takenBy: standing.takenBy,
    fault: standing.confirmedFault,
    outage: state.outages.at(-1) ?? null,
    ticket: filled,
    life,
    openedAt: before.ticket?.openedAt ?? now,
    updatedAt: now,
  };
}

/** Something the desk should notice on a ticket it may have read already: an answer taken back, or the end of the questions. */
function changedForDesk({ before, entries, state }: Draft): boolean {
  const fresh = entries.slice(before.conversation.entries.length);
  const takenBack = fresh.some(
    (entry: Entry) => entry.kind === 'back' || (entry.kind === 'always' && entry.what === 'again'),
  );
  return takenBack || (before.conversation.outcome === null && state.outcome !== null);
}

/** An answer and the alarm in it may bring the same caution; one message says it once. */
const isNew = (message: Message, index: number, all: readonly Message[]): boolean =>
  message.kind !== 'caution' ||
  all.findIndex(other => other.kind === 'caution' && other.id === message.id) === index;

function compose(draft: Draft, ticket: TicketRow | null): Message[] {
  const { before, knowledge, script, entries, state } = draft;
  const since = before.conversation.entries.length;
  const { said } = fold(script, entries, since);
  const messages: Message[] = [
    ...draft.notices,
    ...heardTogether(said.filter(isNew), state.outcome !== null),
  ];
  safetyFirst(draft, messages);
  const opensNow = ticket !== null && before.ticket === null;
  if (opensNow && state.outcome === null) {
    messages.push({
      kind: 'say',
      text: `I have opened ticket **${reference(ticket.number)}** with the desk already. A few more answers make it complete.`,
    });
  }
  const ended =
    state.outcome !== null &&
    (before.conversation.outcome === null || entries.slice(since).some(entry => entry.kind === 'returned'));
  if (state.outcome !== null && ended) {
    if (state.outcome.how === 'escalated' && ticket !== null) {
      messages.push(handOverMessage(ticket.ticket, knowledge.site, script));
    } else {
      messages.push(endingOf(draft, state.outcome));
    }
    messages.push(...offerOther(draft));
  }
  messages.push(...draft.after);
  const question = questionOf(knowledge, script, state);
  const moved = entries.slice(since).some(entry => entry.kind !== 'missed' && entry.kind !== 'note');
  if (question !== null && (moved || draft.askAgain || draft.notices.length > 0)) messages.push(question);
  return messages;
}

/** Words about a danger to people come before everything else in the message. */
function safetyFirst({ knowledge }: Draft, messages: Message[]): void {
  const ids = Object.values(knowledge.catalogue.interrupts)
    .filter(({ sign }) => sign === 'danger')
    .map(({ caution }) => caution);
  const at = messages.findIndex(message => message.kind === 'caution' && ids.includes(message.id));
  if (at > 0) messages.unshift(...messages.splice(at, 1));
}
