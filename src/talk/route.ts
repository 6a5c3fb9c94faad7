/** Does what a person does belong to the chat's current matter, or does a new one begin? Pure. */
import { hearOpening } from '#hearing/opening.ts';
import { hearStanding } from '#hearing/standing.ts';
import { alarming } from './alarming.ts';
import { cameBack } from './came-back.ts';
import { isThanks } from './decide.ts';
import { type Before, draftOf } from './draft.ts';
import type { Inbound } from './inbound.ts';
import type { Knowledge } from './knowledge.ts';

export function beginsNew(knowledge: Knowledge, before: Before, inbound: Inbound, now: number): boolean {
  const { state } = draftOf(knowledge, before, now);
  if (inbound.kind === 'begin') return state.outcome !== null;
  if (state.outcome === null || state.standing.length > 0) return false;
  if (inbound.kind === 'always') return inbound.what === 'again' || inbound.what === 'person';
  if (inbound.kind !== 'text' || isThanks(inbound.text)) return false;
  const word = hearStanding(inbound.text);
  if (word === 'again') return true;
  if (word === 'person') return before.openTicket === null;
  if (word !== null) return false;
  if (cameBack(knowledge, before, inbound.text, now)) return false;
  // A ticket about a drive does not wait in the queue with smoke on it.
  if (alarming(knowledge, state.signs, inbound.text).length > 0) return true;
  const heard = hearOpening(knowledge.openings, inbound.text);
  const open = before.openTicket !== null;
  // While a ticket is open, words that only might name another problem belong to it.
  if (open && !heard.sure) return false;
  // What is no matter of storage at all, or comes before anybody knows what the ticket is about, belongs to the ticket.
  if (open && (heard.symptom === 'not-storage' || state.symptom === null)) return false;
  const named = heard.symptom ?? heard.candidates[0] ?? null;
  if (named === null) return !open && state.outcome.how !== 'left';
  // The same symptom again while its ticket is open, or put aside, is the same matter.
  const same = named === state.symptom || (!heard.sure && heard.candidates.includes(state.symptom ?? ''));
  return !(same && (open || state.outcome.how === 'left'));
}
