/**
 * What the rest of Reseat may ask of the database. One set of queries serves SQLite and PostgreSQL.
 * Functions that take a `Tx` belong to a turn and run inside its transaction; only talk/turn.ts opens one.
 */
import type { Entry, OutcomeHow } from '#engine/entries.ts';
import type { Message } from '#engine/messages.ts';
import type { Script } from '#engine/script.ts';
import type { Address, Inbound, Lying } from '#talk/inbound.ts';
import type { LifeEntry, Priority, Ticket, TicketStatus } from '#tickets/schema.ts';

/** One matter of one person, from the first words to the outcome. A chat has one current conversation. */
export interface Conversation {
  id: string;
  chat: string;
  /** False once a newer matter has begun in the same chat. */
  current: boolean;
  /** Grows by one with every turn. */
  version: number;
  /** The number that the person and the desk see, as in R-1001; null until the first words came. */
  number: number | null;
  address: Address;
  /** Hash of the script in use. */
  script: string | null;
  symptom: string | null;
  entries: Entry[];
  outcome: OutcomeHow | null;
  fault: string | null;
  /** Has a ticket been opened under `number`? */
  ticket: boolean;
  /** The outage this conversation was told of and counted in. */
  outage: string | null;
  /** Number of the newest question delivered, and when by the platform's clock. */
  askedNumber: number;
  askedAt: number;
  dueAt: number | null;
  dueKind: 'nudge' | 'left' | null;
  openedAt: number;
  /** When the person last said something. */
  heardAt: number;
}

/** What a turn may change of a conversation. Entries are the whole new list. */
export type ConversationChange = Partial<
  Pick<
    Conversation,
    | 'current'
    | 'number'
    | 'address'
    | 'script'
    | 'symptom'
    | 'entries'
    | 'outcome'
    | 'fault'
    | 'ticket'
    | 'outage'
    | 'askedNumber'
    | 'dueAt'
    | 'dueKind'
    | 'heardAt'
  >
>;

export interface TicketRow {
  number: number;
  conversation: string;
  chat: string;
  status: TicketStatus;
  priority: Priority;
  symptom: string | null;
  site: string | null;
  takenBy: string | null;
  /** The confirmed fault, once closed. */
  fault: string | null;
  outage: string | null;
  ticket: Ticket;
  life: LifeEntry[];
  openedAt: number;
  updatedAt: number;
}

/** Something that goes out after the commit: messages to a person, or an inbound for another conversation. */
export type NewOutgoing =
  | {
      kind: 'messages';
      lane: string;
      conversation: string;
      messages: Message[];
      question: number | null;
      dueAt: number;
    }
  | { kind: 'relay'; lane: string; conversation: string; inbound: Inbound; dueAt: number }
  /** The conversation's ticket changed: the desk's place on a channel shows it, with life entries `from` up to `to` as news. */
  | { kind: 'ticket'; lane: string; conversation: string; from: number; to: number; dueAt: number }
  /** A file to be fetched from the platform, which comes back as an inbound of this identity. */
  | { kind: 'fetch'; lane: string; conversation: string; identity: string; file: Lying; dueAt: number }
  /** A picture that was kept is to be looked at; what it shows comes back as an inbound. */
  | { kind: 'read'; lane: string; conversation: string; file: string; dueAt: number };

export type Outgoing = NewOutgoing & {
  /** Grows in the order of creation; rows of one lane go out in this order, one at a time. */
  id: number;
  attempts: number;
  /** When the last attempt began, null before the first. */
  attemptedAt: number | null;
  error: string | null;
};

/** Bytes that came with a conversation: a picture of the screen or of a light. */
export interface NewFile {
  id: string;
  name: string;
  type: string;
  content: Uint8Array;
}

export interface Outage {
  id: string;
  symptom: string;
  /** Null: every site. */
  site: string | null;
  text: string;
  declaredBy: string;
  declaredAt: number;
  endedAt: number | null;
}

/** What a person was shown, and when it was said. Rows on their way out count: their channel has them. */
export interface SentRow {
  id: number;
  conversation: string;
  messages: Message[];
  question: number | null;
  at: number;
}

/** A question that went out, as the channel calls it. */
export interface DrawnRow {
  id: number;
  ref: string;
  messages: Message[];
  question: number;
}

/** Opens a chat on another device. */
export interface Link {
  /** Of the link's secret, which is kept nowhere. */
  hash: string;
  chat: string;
  /** What the secret opens. */
  sealed: string;
  madeAt: number;
  expiresAt: number;
}

export interface TicketFilter {
  status?: TicketStatus[];
  priority?: Priority[];
  symptom?: string;
  site?: string;
  limit?: number;
}

/** A turn's hold on the database. Opaque outside store/. */
export interface Tx {
  readonly turn: true;
}

export interface Store {
  /** Runs `work` in one transaction. Rejects with the cause; `isTransient` tells whether trying again may help. */
  transaction<T>(work: (tx: Tx) => Promise<T>): Promise<T>;
  isTransient(error: unknown): boolean;
  /** Nothing was kept because the disk is full. */
  isFull(error: unknown): boolean;

  /* Inside a turn, in this order. */
  /** First statement: true when this identity is new. */
  remember(tx: Tx, identity: string, at: number): Promise<boolean>;
  /** Second statement: creates, locks and loads the chat's current conversation in one. `id` is used when it is new. */
  openChat(tx: Tx, address: Address, id: string, now: number): Promise<Conversation>;
  /** Second statement for what comes from inside: locks and loads; null when there is no such conversation. */
  lockConversation(tx: Tx, id: string): Promise<Conversation | null>;
  change(tx: Tx, id: string, change: ConversationChange): Promise<void>;
  /** A new current conversation for a chat whose former one has just been made not current. */
  begin(tx: Tx, address: Address, id: string, now: number): Promise<Conversation>;
  nextNumber(tx: Tx): Promise<number>;
  keepScript(tx: Tx, hash: string, script: Script, now: number): Promise<void>;
  script(hash: string, tx?: Tx): Promise<Script | null>;
  send(tx: Tx, rows: NewOutgoing[], now: number): Promise<void>;
  keepFile(tx: Tx, conversation: string, file: NewFile, now: number): Promise<void>;
  ticket(number: number, tx?: Tx): Promise<TicketRow | null>;
  /** Newest first. */
  ticketsOf(chats: string[], limit: number): Promise<TicketRow[]>;
  /** Inserts or replaces. */
  saveTicket(tx: Tx, row: TicketRow): Promise<void>;
  /** The newest ticket of a chat that is not closed. */
  openTicketOf(tx: Tx, chat: string): Promise<{ number: number; conversation: string } | null>;
  openOutages(tx?: Tx): Promise<Outage[]>;
  saveOutage(tx: Tx, outage: Outage): Promise<void>;

  /* Delivery. */
  /**
   * Of `lanes` (one that ends in a colon stands for every lane that begins so), those whose first waiting row is due and
   * that nobody holds, oldest row first.
   */
  dueLanes(now: number, limit: number, lanes: string[]): Promise<string[]>;
  /** Takes or renews the lease on a lane; false when another holds it. */
  lease(lane: string, owner: string, now: number, until: number): Promise<boolean>;
  release(lane: string, owner: string): Promise<void>;
  /** The first waiting row of a lane, due or not. */
  firstWaiting(lane: string): Promise<Outgoing | null>;
  /**
   * Recorded before sending, and returned with it. From now on the row's question counts as seen: after a crash nobody knows
   * whether it went, and an answer to it must not be taken for one to the question before.
   */
  attempt(row: Outgoing, now: number): Promise<Outgoing>;
  /** `row` as `attempt` returned it. Also corrects since when its question is seen, to the platform's clock. */
  sent(row: Outgoing, ref: string | null, at: number): Promise<void>;
  /** Tries again not before `dueAt`. What surely did not go was not seen. */
  postpone(row: Outgoing, dueAt: number, error: string, went: 'surely-not' | 'perhaps'): Promise<void>;
  /** Can never go: marked, and out of the way. */
  giveUp(id: number, error: string, now: number): Promise<void>;
  /** The newest row before `row` that put a question of this conversation where it can be redrawn. */
  drawn(conversation: string, row: number): Promise<DrawnRow | null>;
  /** It has been redrawn as answered and need not be again. */
  redrawn(id: number): Promise<void>;
  /** How the lane's channel calls the message that shows this conversation's ticket; null before the first. */
  cardRef(lane: string, conversation: string): Promise<string | null>;

  /* Reading, outside turns. */
  file(id: string): Promise<(NewFile & { conversation: string }) | null>;
  /** Something on it must not be kept: this takes its place, and what was there is gone. */
  coverFile(id: string, covered: Pick<NewFile, 'type' | 'content'>): Promise<void>;
  conversation(id: string): Promise<Conversation | null>;
  currentOf(chat: string): Promise<Conversation | null>;
  /** The newest so many conversations of a chat, oldest first, with all that was sent in them. */
  history(chat: string, conversations: number): Promise<{ conversations: Conversation[]; sent: SentRow[] }>;
  /** Id of the newest row sent to each chat; one without any is missing. */
  newestSent(chats: string[]): Promise<Map<string, number>>;
  dueConversations(now: number, limit: number): Promise<Pick<Conversation, 'id' | 'version' | 'dueKind'>[]>;
  /**
   * Current conversations about the outage's symptom without an outcome, those whose open ticket may be about it, and all that
   * were told of it: whom it concerns.
   * In the transaction of `saveOutage`, and after it, no report can slip between: each is listed here or finds the outage.
   */
  conversationsFor(outage: Outage, tx?: Tx): Promise<string[]>;
  /** Hashes of scripts that open conversations still use. */
  scriptsInUse(): Promise<{ hash: string; conversations: string[] }[]>;
  /** Critical first, and within a priority the oldest first; at most 200 unless told. An empty list filters nothing. */
  tickets(filter: TicketFilter): Promise<TicketRow[]>;
  /** The open ones, or those that have ended; oldest first. */
  outages(filter: { open: boolean }): Promise<Outage[]>;
  /** How many closed tickets of a symptom confirmed each fault. */
  confirmedFaults(): Promise<{ symptom: string; fault: string; tickets: number }[]>;
  counts(): Promise<Record<'conversations' | 'open' | 'tickets' | 'waiting' | 'dead', number>>;

  /* Links to a chat; none of these belongs to a turn. Expired ones are cleared away when one is kept. */
  keepLink(link: Link): Promise<void>;
  link(hash: string, now: number): Promise<Link | null>;
  newestLink(chat: string, now: number): Promise<Link | null>;
  withdrawLinks(chat: string): Promise<void>;

  /* What has been proven; `subject` is a hash of everything that the proof depends on. */
  keepProof(subject: string, longest: Record<string, number>, now: number): Promise<void>;
  /** Questions of the longest conversation by flow, or null when this was never proven here. */
  proof(subject: string): Promise<Record<string, number> | null>;

  close(): Promise<void>;
}
