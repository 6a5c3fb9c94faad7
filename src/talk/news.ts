/** What somebody with an open ticket hears while they wait: where it stands, and of an outage that it is part of. */
import type { TicketRow } from '#store/store.ts';
import { foldLife } from '#tickets/life.ts';
import { reference } from '#tickets/schema.ts';
import { statusInWords } from '#tickets/words.ts';
import { add, type Draft, notice } from './draft.ts';
import type { Knowledge } from './knowledge.ts';
import { quote } from './quote.ts';

export const asksForNews = (text: string): boolean =>
  text.length < 120 &&
  /\b(?:any (?:news|update|progress)|news|update|status|how far|how long|when (?:will|does|do|is|can)|what('?s| is) happening|still waiting|anyone there|anybody there|hello\?|neuigkeiten|wie weit|wann|des nouvelles|quand|novedades|cuando)/i.test(
    text,
  );

/** Where the ticket stands, for the person who waits. */
export function newsOf({ number, life, ticket, priority }: TicketRow, { site }: Knowledge): string {
  const now = foldLife(life);
  const waits =
    now.status === 'open' ? ` The desk answers ${site.desk.answers[priority]} (${site.desk.hours}).` : '';
  return `${reference(number)} (${ticket.title}): ${statusInWords(now)}.${waits} If it cannot wait, call ${site.desk.phone}.`;
}

/** A report that was handed over already: the person hears of it, and the ticket says so. */
export function partOfOutage(draft: Draft, outage: string, text: string): void {
  const { before, now } = draft;
  if (before.ticket === null || isOver(before.ticket.status)) return;
  notice(
    draft,
    `The desk knows of it: ${text} Your ${reference(before.ticket.number)} is part of that, and I write here when it is over.`,
  );
  draft.life.push({ kind: 'note', at: now, by: 'Reseat', text: `Part of outage ${outage}: ${text}` });
  add(draft, { kind: 'outage', at: now, outage, text });
}

const isOver = (status: TicketRow['status']): boolean => status === 'closed' || status === 'merged';

export function outageOver(
  draft: Draft,
  { outage, text, by }: { outage: string; text: string; by: string },
): void {
  const { state, now, before } = draft;
  if (!state.outages.includes(outage) && before.conversation.outage !== outage) return;
  add(draft, { kind: 'outage-over', at: now, outage });
  if (before.ticket !== null)
    draft.life.push({ kind: 'note', at: now, by, text: `Outage ${outage} is over.` });
  notice(
    draft,
    `It is over. It was about: ${quote(text, 200)}. If yours still doesn't work, write here and we begin.`,
  );
}
