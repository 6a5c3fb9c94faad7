/** The tables as Kysely sees them. Text and integers, but for files: times are epoch milliseconds, flags 0 or 1, JSON is text. */
import type { Generated, Kysely, Transaction } from 'kysely';
import type { Tx } from './store.ts';

export interface ConversationTable {
  id: string;
  chat: string;
  current: number;
  version: number;
  number: number | null;
  address: string;
  script: string | null;
  symptom: string | null;
  entries: string;
  outcome: string | null;
  fault: string | null;
  ticket: number;
  outage: string | null;
  asked_number: number;
  asked_at: number;
  due_at: number | null;
  due_kind: string | null;
  opened_at: number;
  heard_at: number;
}

export interface OutgoingTable {
  id: Generated<number>;
  lane: string;
  conversation: string;
  kind: string;
  /** JSON: the messages, or the inbound of a relay. */
  body: string;
  question: number | null;
  due_at: number;
  created_at: number;
  attempts: number;
  attempted_at: number | null;
  error: string | null;
  /** Null while the row waits; then when it was sent or given up. */
  settled_at: number | null;
  /** 1: given up. */
  dead: number;
  /** The channel's own name for what was sent, kept for redrawing it. */
  ref: string | null;
}

export interface TicketTable {
  number: number;
  conversation: string;
  chat: string;
  status: string;
  priority: string;
  /** The priority's place in the list, 0 first. */
  rank: number;
  symptom: string | null;
  site: string | null;
  taken_by: string | null;
  fault: string | null;
  outage: string | null;
  ticket: string;
  life: string;
  opened_at: number;
  updated_at: number;
}

export interface OutageTable {
  id: string;
  symptom: string;
  site: string | null;
  text: string;
  declared_by: string;
  declared_at: number;
  ended_at: number | null;
}

export interface AttachmentTable {
  id: string;
  conversation: string;
  name: string;
  /** Media type. */
  type: string;
  bytes: Uint8Array;
  kept_at: number;
}

export interface Schema {
  conversations: ConversationTable;
  scripts: { hash: string; script: string; kept_at: number };
  /** Identities of what has been taken. */
  seen: { identity: string; at: number };
  outgoing: OutgoingTable;
  leases: { lane: string; owner: string; until: number };
  tickets: TicketTable;
  outages: OutageTable;
  attachments: AttachmentTable;
  proofs: { subject: string; longest: string; proven_at: number };
  links: { hash: string; chat: string; sealed: string; made_at: number; expires_at: number };
  counters: { name: string; value: number };
  migrations: { number: number; at: number };
}

export type Db = Kysely<Schema>;

/** An opened database: all that the queries need to know of which one it is. */
export interface Database {
  kind: 'sqlite' | 'postgres';
  db: Db;
  /** May trying again help? */
  isTransient(error: unknown): boolean;
}

/* `Tx` is opaque outside this folder; inside it is Kysely's transaction. */
export const asTx = (transaction: Transaction<Schema>): Tx => transaction as unknown as Tx;
export const within = (tx: Tx): Db => tx as unknown as Db;
