/** What the desk does to a ticket, and what the person is told of it. */
import type { DeskAction } from '#talk/inbound.ts';
import { act } from '#tickets/act.ts';
import { foldLife } from '#tickets/life.ts';
import { reference } from '#tickets/schema.ts';
import { priorityInWords } from '#tickets/words.ts';
import { add, type Draft, notice } from './draft.ts';

/** Applies one action of the desk. Returns one clear line when it makes no sense now, and then nothing has changed. */
export function desk(draft: Draft, action: DeskAction, by: string, ask: string): string | null {
  const { before, now, knowledge } = draft;
  const { ticket, conversation } = before;
  if (ticket === null || conversation.number === null)
    return 'There is no such ticket. List them with: reseat tickets';
  const entry = act(ticket.life, action, {
    by,
    at: now,
    ask,
    number: ticket.number,
    worked: ticket.ticket.priority,
    faults: Object.keys(knowledge.catalogue.faults),
  });
  if ('refused' in entry) return entry.refused;
  draft.life.push(entry);
  const name = reference(ticket.number);
  switch (action.do) {
    case 'take':
      notice(draft, `**${by}** from the desk has taken ${name}.`);
      break;
    case 'ask':
      draft.relays.push({
        kind: 'relay',
        lane: `relay:${conversation.id}`,
        conversation: conversation.id,
        dueAt: now,
        inbound: {
          kind: 'desk-question',
          identity: `desk-question:${ask}`,
          at: now,
          address: conversation.address,
          conversation: conversation.id,
          ask,
          ticket: ticket.number,
          by,
          text: action.text.trim(),
        },
      });
      break;
    case 'priority':
      notice(draft, `${name} now has priority ${priorityInWords(action.priority, knowledge.site)}.`);
      break;
    case 'close': {
      const fault = action.fault === null ? null : (knowledge.catalogue.faults[action.fault] ?? null);
      const cause = fault?.name ?? action.words;
      notice(draft, `${name} is closed. What it was: **${cause}**. If it comes back, just write here.`);
      break;
    }
    case 'reopen':
      notice(draft, `${name} is open again. The desk will be in touch.`);
      break;
    case 'hand':
    case 'note':
    case 'wait':
    case 'merge':
      break;
  }
  return null;
}

/** The person's answer to a question of the desk, back at its ticket. */
export function deskAnswer(draft: Draft, ask: string, text: string): void {
  const person = draft.before.conversation.address.person;
  const life = draft.before.ticket?.life ?? [];
  const standing = foldLife(life);
  if (standing.answers.some(answer => answer.ask === ask)) return;
  const [at, by] = [draft.now, person.name ?? person.id];
  draft.life.push({ kind: 'answered', at, by, ask, text });
  // Closed while the question was open: somebody has to look at what came.
  if (standing.status === 'closed')
    draft.life.push({ kind: 'reopened', at, by, reason: `Answered: ${text}` });
}

/** A question of the desk, put to the person in whatever they are doing now. */
export function deskQuestion(
  draft: Draft,
  {
    ask,
    ticket,
    conversation,
    by,
    text,
  }: { ask: string; ticket: number; conversation: string; by: string; text: string },
): void {
  add(draft, { kind: 'desk-ask', at: draft.now, ask, ticket, conversation, by, text });
}
