/** A decision in the making: entries are appended, the state is folded anew, and what is to be said gathers. */

import { pendingWork } from '#engine/advance.ts';
import type { Entry } from '#engine/entries.ts';
import { fold } from '#engine/fold.ts';
import type { Message, Say } from '#engine/messages.ts';
import type { Script } from '#engine/script.ts';
import type { State } from '#engine/state.ts';
import type { Conversation, NewFile, NewOutgoing, TicketRow } from '#store/store.ts';
import type { LifeEntry } from '#tickets/schema.ts';
import { flowFor, type Knowledge } from './knowledge.ts';
import { workedOut } from './worked.ts';

/** What was loaded before deciding. */
export interface Before {
  conversation: Conversation;
  script: Script | null;
  /** The conversation's own ticket, once opened. */
  ticket: TicketRow | null;
  /** Newest ticket of the chat that is not closed. */
  openTicket: { number: number; conversation: string } | null;
}

export interface Draft {
  knowledge: Knowledge;
  before: Before;
  now: number;
  entries: Entry[];
  script: Script | null;
  hash: string | null;
  state: State;
  /** Said before what the script says: redaction, what was not understood, what was undone. */
  notices: Say[];
  /** Further messages behind everything else but the question. */
  after: Message[];
  life: LifeEntry[];
  relays: NewOutgoing[];
  /** Bytes to be kept with the conversation. */
  file: NewFile | null;
  /** Repeat the open question although nothing moved. */
  askAgain: boolean;
}

export function draftOf(knowledge: Knowledge, before: Before, now: number): Draft {
  const { conversation, script } = before;
  return {
    knowledge,
    before,
    now,
    entries: [...conversation.entries],
    script,
    hash: conversation.script,
    state: fold(script, conversation.entries).state,
    notices: [],
    after: [],
    life: [],
    relays: [],
    file: null,
    askAgain: false,
  };
}

/** Appends an entry and folds. An opening brings its script with it; what comes up to be worked out is worked out at once. */
export function add(draft: Draft, entry: Entry): void {
  draft.entries.push(entry);
  if (entry.kind === 'opened') {
    const flow = entry.script === null ? null : flowFor(draft.knowledge, entry.symptom);
    draft.script = flow?.script ?? null;
    draft.hash = flow?.hash ?? null;
  }
  draft.state = fold(draft.script, draft.entries).state;
  const { script, state, now } = draft;
  const work = script === null ? null : pendingWork(script, state);
  if (work !== null) add(draft, workedOut(work, state, now));
}

/** Takes back what was appended since there were so many. */
export function withdraw(draft: Draft, length: number): void {
  draft.entries.length = length;
  draft.state = fold(draft.script, draft.entries).state;
}

export const notice = (draft: Draft, text: string): void => {
  draft.notices.push({ kind: 'say', text });
};
