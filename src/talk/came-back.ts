/** "It's me again, still broken": what was solved or closed has come back, and nothing is begun from the start. */
import { openStep } from '#engine/advance.ts';
import { hearOpening } from '#hearing/opening.ts';
import { reference } from '#tickets/schema.ts';
import { add, type Before, type Draft, notice } from './draft.ts';
import type { Knowledge } from './knowledge.ts';

const AGAIN =
  /(?<![\p{L}])(?:again|still|(?:came|comes|come|is|it's|its) back|not (?:fixed|solved|better)|no better|wieder|immer noch|nach wie vor|encore|toujours|revenu|otra vez|de nuevo|sigue)(?![\p{L}])/iu;
const LONGEST = 300;
/** Later than this it is a new matter. Common practice, no source. */
const WITHIN = 14 * 24 * 3_600_000;

/** Do these words say that the matter that ended here has come back? A named other symptom says that it has not. */
export function cameBack({ openings }: Knowledge, before: Before, text: string, now: number): boolean {
  const { conversation, ticket } = before;
  const closed = conversation.outcome === 'escalated' && ticket?.status === 'closed';
  if (!(conversation.outcome === 'fixed' || closed)) return false;
  if (now - conversation.heardAt > WITHIN || text.length > LONGEST || !AGAIN.test(text)) return false;
  const { sure, symptom } = hearOpening(openings, text);
  return !sure || symptom === conversation.symptom;
}

/** What seemed to help did not: the questions go on behind it. A closed ticket is open again. */
export function takeUpAgain(draft: Draft, text: string): void {
  const { before, now } = draft;
  const { person } = before.conversation.address;
  const by = person.name ?? person.id;
  if (before.ticket?.status === 'closed') {
    draft.life.push({ kind: 'reopened', at: now, by, reason: text });
    return notice(
      draft,
      `${reference(before.ticket.number)} is open again, and the desk has what you wrote.`,
    );
  }
  const solved = draft.entries.findLast(entry => entry.kind === 'answer');
  if (solved?.kind !== 'answer') return;
  if (before.ticket !== null) draft.life.push({ kind: 'note', at: now, by, text });
  notice(draft, 'So it did not last. I have kept everything you told me, and we go on from there.');
  add(draft, { kind: 'back', at: now, to: solved.question, why: 'asked' });
  const { state, script } = draft;
  const step = script === null ? null : openStep(script, state);
  if (step?.kind !== 'try' || step.id !== solved.step) return;
  const words = `It helped, and then it came back: ${text}`;
  const value = { id: 'no-change' };
  add(draft, { kind: 'answer', at: now, question: state.number, step: step.id, value, words });
}
