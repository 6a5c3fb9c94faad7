/** Everything that can happen to a conversation, whoever brings it. Channels make these; turn.ts takes one at a time. */
import type { Always, PictureRead } from '#engine/entries.ts';
import type { Priority } from '#tickets/schema.ts';

/** A person as the channel knows them. Nothing in it is trusted beyond being shown. */
export interface Person {
  id: string;
  name: string | null;
  mail: string | null;
}

/** Where a conversation lives: enough for the channel to send to it after a restart. */
export interface Address {
  channel: string;
  /** One per person and place, such as `terminal:ada` or `slack:T1:D2`. */
  chat: string;
  /** Whatever else the channel needs to send. */
  to: Record<string, string>;
  person: Person;
}

interface Happened {
  /** Of what happened, not of its delivery: the same happening twice has the same identity. */
  identity: string;
  /** When it happened, by the clock of the place where it did. Epoch milliseconds. */
  at: number;
}

/** What a person does. */
export type FromPerson = Happened & { address: Address } & (
    | { kind: 'text'; text: string }
    /** A button. It carries the conversation and the question it was drawn for. */
    | { kind: 'press'; conversation: string; question: number; answer: string }
    | {
        kind: 'always';
        what: Always /** For back: the question to go back to; the last one unless given. */;
        to?: number;
        /** For back: what was taken from the opening, when that is the answer that was wrong. */
        finding?: string;
      }
    /** A picture or file, its type told from its content. */
    | { kind: 'file'; name: string; type: string; content: Uint8Array }
    /** Files that lie with the platform. Each is fetched after the commit and comes back as a `file`, or refused. */
    | { kind: 'files'; files: Lying[] }
    /** `why`: one sentence that says what to do. */
    | { kind: 'file-refused'; name: string; why: string }
    /** The person opened the chat and said nothing yet, or said `words` elsewhere: those are no answer to what is asked here. */
    | { kind: 'arrived'; words?: string }
    | Begin
  );

/** A file that is still with the platform; `size` in bytes. */
export interface Lying {
  id: string;
  name: string;
  size: number;
  url: string;
}

/** A technician begins a desk flow, with or without a ticket that the work is for. */
export interface Begin {
  kind: 'begin';
  topic: string;
  work: { ticket: number; conversation: string } | null;
}

/** What the clock, the desk or a neighbouring conversation does to a conversation known by its id. */
export type FromInside = Happened & { conversation: string } & (
    | { kind: 'timer'; what: 'nudge' | 'left' }
    | { kind: 'desk'; by: string; action: DeskAction }
    /** The person's answer, carried back to the conversation whose ticket it belongs to. */
    | { kind: 'desk-answer'; ask: string; text: string }
    | { kind: 'outage'; outage: string; text: string }
    | { kind: 'outage-over'; outage: string; text: string; by: string }
    | { kind: 'script-withdrawn'; why: string }
    /** A picture was looked at: what its screen shows, and whether something on it had to be covered. */
    | ({ kind: 'read'; file: string } & Pick<PictureRead, 'seen' | 'covered'>)
  );

/** The desk's question, carried to whatever the person's current conversation is. `conversation` is the ticket's own. */
export type DeskQuestion = Happened & {
  kind: 'desk-question';
  address: Address;
  conversation: string;
  ask: string;
  ticket: number;
  by: string;
  text: string;
};

export type Inbound = FromPerson | FromInside | DeskQuestion;

/** What a technician can do with a ticket. */
export type DeskAction =
  | { do: 'take' }
  | { do: 'hand'; to: string }
  | { do: 'ask'; text: string }
  | { do: 'note'; text: string }
  | { do: 'priority'; priority: Priority; reason: string }
  | { do: 'wait'; until: number; reason: string }
  | { do: 'merge'; into: number }
  | { do: 'close'; fault: string | null; words: string }
  | { do: 'reopen'; reason: string };
