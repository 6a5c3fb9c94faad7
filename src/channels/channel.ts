/** What every channel is: a name, a pure drawer, and a way to send what it drew. Inbound is each channel's own file. */
import type { Message } from '#engine/messages.ts';
import type { Address } from '#talk/inbound.ts';

/** How a sending ended. `at` is the platform's own clock where it tells it: typed answers are read against it. */
export type Sent =
  | { ok: true; ref: string | null; at: number }
  /** Try again, not before `after` milliseconds from now. */
  | { ok: false; again: true; after: number; error: string }
  /** It can never go. */
  | { ok: false; again: false; error: string };

/** One row on its way out. `row` and `conversation` are carried where the platform can keep them: buttons need the conversation. */
export interface Parcel {
  row: number;
  conversation: string;
  address: Address;
  messages: Message[];
}

export interface Channel {
  id: string;
  /** Sends the messages of one turn, in order, as the platform draws them. */
  send(parcel: Parcel, signal: AbortSignal): Promise<Sent>;
}
