/** Rows to the shapes of store.ts, and back. */
import type { Insertable, Selectable, Updateable } from 'kysely';
import type { Address, Inbound } from '#talk/inbound.ts';
import type { Priority } from '#tickets/schema.ts';
import type { ConversationTable, OutageTable, OutgoingTable, TicketTable } from './schema.ts';
import type { Conversation, ConversationChange, NewOutgoing, Outage, Outgoing, TicketRow } from './store.ts';

const RANK: Record<Priority, number> = { critical: 0, high: 1, medium: 2, low: 3 };

/** Text that both databases keep: PostgreSQL refuses a NUL, and half a surrogate pair is no UTF-8. JSON escapes both by itself. */
export function plain(text: string): string;
export function plain(text: string | null): string | null;
export function plain(text: string | null): string | null {
  return text === null ? null : text.replaceAll('\0', '\uFFFD').toWellFormed();
}

const flag = (value: boolean | undefined) => (value === undefined ? undefined : Number(value));
const json = (value: unknown) => (value === undefined ? undefined : JSON.stringify(value));

export const freshConversation = (
  address: Address,
  id: string,
  now: number,
): Insertable<ConversationTable> => ({
  id,
  chat: address.chat,
  current: 1,
  version: 1,
  address: JSON.stringify(address),
  entries: '[]',
  ticket: 0,
  asked_number: 0,
  asked_at: 0,
  opened_at: now,
  heard_at: now,
});

export const toConversation = (row: Selectable<ConversationTable>): Conversation => ({
  id: row.id,
  chat: row.chat,
  current: row.current === 1,
  version: row.version,
  number: row.number,
  address: JSON.parse(row.address),
  script: row.script,
  symptom: row.symptom,
  entries: JSON.parse(row.entries),
  outcome: row.outcome as Conversation['outcome'],
  fault: row.fault,
  ticket: row.ticket === 1,
  outage: row.outage,
  askedNumber: row.asked_number,
  askedAt: row.asked_at,
  dueAt: row.due_at,
  dueKind: row.due_kind as Conversation['dueKind'],
  openedAt: row.opened_at,
  heardAt: row.heard_at,
});

/** Only what the change names; the rest is undefined. */
export const fromChange = (change: ConversationChange): Updateable<ConversationTable> => ({
  current: flag(change.current),
  number: change.number,
  address: json(change.address),
  script: change.script,
  symptom: change.symptom,
  entries: json(change.entries),
  outcome: change.outcome,
  fault: change.fault,
  ticket: flag(change.ticket),
  outage: change.outage,
  asked_number: change.askedNumber,
  due_at: change.dueAt,
  due_kind: change.dueKind,
  heard_at: change.heardAt,
});

export const fromOutgoing = (row: NewOutgoing, now: number): Insertable<OutgoingTable> => ({
  lane: row.lane,
  conversation: row.conversation,
  kind: row.kind,
  body: bodyOf(row),
  question: row.kind === 'messages' ? row.question : null,
  due_at: row.dueAt,
  created_at: now,
  attempts: 0,
  dead: 0,
});

function bodyOf(row: NewOutgoing): string {
  if (row.kind === 'messages') return JSON.stringify(row.messages);
  if (row.kind === 'fetch') return JSON.stringify({ identity: row.identity, file: row.file });
  if (row.kind === 'read') return JSON.stringify({ file: row.file });
  return row.kind === 'ticket' ? JSON.stringify({ from: row.from, to: row.to }) : fromInbound(row.inbound);
}

export function toOutgoing(row: Selectable<OutgoingTable>): Outgoing {
  const common = {
    id: row.id,
    lane: row.lane,
    conversation: row.conversation,
    dueAt: row.due_at,
    attempts: row.attempts,
    attemptedAt: row.attempted_at,
    error: row.error,
  };
  if (row.kind === 'messages')
    return { ...common, kind: 'messages', messages: JSON.parse(row.body), question: row.question };
  if (row.kind === 'ticket') return { ...common, kind: 'ticket', ...JSON.parse(row.body) };
  if (row.kind === 'fetch') return { ...common, kind: 'fetch', ...JSON.parse(row.body) };
  if (row.kind === 'read') return { ...common, kind: 'read', ...JSON.parse(row.body) };
  return { ...common, kind: 'relay', inbound: toInbound(row.body) };
}

/** JSON has no bytes: those of a file are written in base64. */
const fromInbound = (inbound: Inbound) =>
  JSON.stringify(
    inbound.kind === 'file'
      ? { ...inbound, content: Buffer.from(inbound.content).toString('base64') }
      : inbound,
  );

function toInbound(body: string): Inbound {
  const inbound = JSON.parse(body);
  return inbound.kind === 'file' ? { ...inbound, content: Buffer.from(inbound.content, 'base64') } : inbound;
}

export const fromTicket = (row: TicketRow): Insertable<TicketTable> => ({
  number: row.number,
  conversation: row.conversation,
  chat: row.chat,
  status: row.status,
  priority: row.priority,
  rank: RANK[row.priority],
  symptom: row.symptom,
  site: plain(row.site),
  taken_by: plain(row.takenBy),
  fault: plain(row.fault),
  outage: row.outage,
  ticket: JSON.stringify(row.ticket),
  life: JSON.stringify(row.life),
  opened_at: row.openedAt,
  updated_at: row.updatedAt,
});

export const toTicket = (row: Selectable<TicketTable>): TicketRow => ({
  number: row.number,
  conversation: row.conversation,
  chat: row.chat,
  status: row.status as TicketRow['status'],
  priority: row.priority as Priority,
  symptom: row.symptom,
  site: row.site,
  takenBy: row.taken_by,
  fault: row.fault,
  outage: row.outage,
  ticket: JSON.parse(row.ticket),
  life: JSON.parse(row.life),
  openedAt: row.opened_at,
  updatedAt: row.updated_at,
});

export const fromOutage = (outage: Outage): Insertable<OutageTable> => ({
  id: outage.id,
  symptom: outage.symptom,
  site: plain(outage.site),
  text: plain(outage.text),
  declared_by: plain(outage.declaredBy),
  declared_at: outage.declaredAt,
  ended_at: outage.endedAt,
});

export const toOutage = (row: Selectable<OutageTable>): Outage => ({
  id: row.id,
  symptom: row.symptom,
  site: row.site,
  text: row.text,
  declaredBy: row.declared_by,
  declaredAt: row.declared_at,
  endedAt: row.ended_at,
});
