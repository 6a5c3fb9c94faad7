/** What every channel is: a name, a pure drawer, and a way to send what it drew. Inbound is each channel's own file. */
import type { Message } from '#engine/messages.ts';
import type { TicketRow } from '#store/store.ts';
import type { Address, Lying } from '#talk/inbound.ts';
import type { LifeEntry } from '#tickets/schema.ts';

/** How a sending ended. `at` is the platform's own clock where it tells it: typed answers are read against it. */
export type Sent =
  | { ok: true; ref: string | null; at: number }
  /** Try again, not before `after` milliseconds from now. */
  | {
      ok: false;
      again: true;
      after: number;
      error: string;
      /** It waits for somebody to set something right, such as a closed channel, however long that takes. */
      patient?: true;
    }
  /** It can never go. */
  | { ok: false; again: false; error: string };

/** One row on its way out. `row` and `conversation` are carried where the platform can keep them: buttons need the conversation. */
export interface Parcel {
  row: number;
  conversation: string;
  address: Address;
  messages: Message[];
  /** A channel that can redraw shows it as answered. Null: nothing to redraw. */
  before: Drawn | null;
}

/** The last question of this conversation that went out before, and is not open any more. */
export interface Drawn {
  /** As `Sent` gave it. */
  ref: string;
  messages: Message[];
  question: number;
  /** What was answered, as pressed or typed; null when it passed without an answer. */
  chosen: string | null;
}

/** A ticket on the desk's place in a channel: one message for each ticket, kept current, with what happened since below it. */
export interface Card {
  row: number;
  /** `CHANNEL:desk:PLACE`. */
  lane: string;
  conversation: string;
  /** As it stands now. */
  ticket: TicketRow;
  /** Of the message that shows it; null when none does yet. */
  ref: string | null;
  /** What happened since the card before. */
  fresh: LifeEntry[];
  /** It was attempted before: without `ref` nobody knows whether a message of it is there already. */
  again: boolean;
}

/** What became of fetching a file. `refused`: one sentence for the person, that says what to do. */
export type Fetched =
  | { ok: true; type: string; content: Uint8Array }
  | { ok: false; refused: string }
  | { ok: false; again: true; after: number; error: string };

export interface Channel {
  id: string;
  /** Sends the messages of one turn, in order, as the platform draws them. */
  send(parcel: Parcel, signal: AbortSignal): Promise<Sent>;
  /** Shows a ticket on the desk's place; `ref` of the answer is that of the message that shows it now. */
  show?(card: Card, signal: AbortSignal): Promise<Sent>;
  /** Fetches a file that somebody sent, and looks what it is. */
  fetch?(file: Lying, address: Address, signal: AbortSignal): Promise<Fetched>;
}
