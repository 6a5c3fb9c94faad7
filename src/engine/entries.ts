/** One line of a conversation's history. Entries are only ever added; the state is a fold over them. */
import type { Effect } from './schema.ts';

export type Always = 'back' | 'again' | 'person' | 'stop';

export type AnswerValue =
  | { id: string }
  | { number: number }
  | { text: string }
  | { photo: string }
  | { skipped: true };

interface Stamp {
  /** Epoch milliseconds. */
  at: number;
}

/** The first words about a problem, as heard. `symptom` null: not yet known, `candidates` are offered. */
export interface Opened extends Stamp {
  kind: 'opened';
  words: string;
  symptom: string | null;
  /** Hash of the script, with a symptom. */
  script: string | null;
  candidates: string[];
  /** Answers already given in the words, by finding; they wait for their question. */
  waiting: Record<string, { answer: string; words: string }>;
  /** Message on the screen, word for word, with the id of the catalogue's entry. */
  screen: { id: string; verbatim: string } | null;
  /** Another matter in the same words, offered when this one has its outcome. */
  also?: { symptom: string; words: string };
  /** A desk flow: the ticket that the work is for. */
  work?: { ticket: number; conversation: string };
}

/** An answer to question `question`. `step` is a step's id, or one of the standing questions, which begin with `@`. */
export interface Answered extends Stamp {
  kind: 'answer';
  question: number;
  step: string;
  value: AnswerValue;
  /** As typed, or the label pressed. */
  words: string;
  /** Answers to later questions that the words give as well, by finding; they wait for their question. */
  also?: Record<string, { answer: string; words: string }>;
}

/** A word that breaks into any question (danger, attack, mechanical). Not sure: one yes/no comes first. */
export interface Interrupted extends Stamp {
  kind: 'interrupt';
  question: number;
  interrupt: string;
  sure: boolean;
  words: string;
  /** As with an answer: what the same words say beside it, for questions to come. */
  also?: Answered['also'];
}

/** Words that answered nothing. Not understood, which is counted, or `asked`: a question back, which was answered. */
export interface Missed extends Stamp {
  kind: 'missed';
  question: number;
  words: string;
  asked?: true;
}

/** Withdraws every answer from question `to` on. `why` `joined`: the words were part of one message and are heard again together. */
export interface Back extends Stamp {
  kind: 'back';
  to: number;
  why: 'asked' | 'joined';
  /** Findings taken from the opening that were wrong: they are asked after all. */
  forget?: string[];
}

export interface Stood extends Stamp {
  kind: 'always';
  what: Exclude<Always, 'back'>;
  words: string;
}

export interface Timed extends Stamp {
  kind: 'timer';
  what: 'nudge' | 'left';
}

/** The person wrote again after a long time: first, is the old matter still the matter? */
export interface Returned extends Stamp {
  kind: 'returned';
  words: string;
}

/** A working's verdict and what it says, worked out when its step came up. */
export interface WorkedOut extends Stamp {
  kind: 'worked';
  /** The question that would have come; a back to it or before withdraws the working. */
  question: number;
  step: string;
  working: string;
  verdict: string;
  /** What went in, as far as it was known. */
  input: unknown;
  /** Plain sentences for the ticket, and for the person where the flow tells it. */
  says: string[];
}

/** From outside the talk: a known outage, the answer's source being the desk or the site. */
export interface GivenOutage extends Stamp {
  kind: 'outage';
  outage: string;
  text: string;
}
export interface OutageOver extends Stamp {
  kind: 'outage-over';
  outage: string;
}

/** A question from the desk about a ticket, put to the person between other questions. */
export interface DeskAsked extends Stamp {
  kind: 'desk-ask';
  ask: string;
  ticket: number;
  /** The ticket's own conversation, where the answer goes. */
  conversation: string;
  by: string;
  text: string;
}

/** A picture or file that came with the conversation. Its bytes are kept apart, under `id`. */
export interface Attached extends Stamp {
  kind: 'attached';
  id: string;
  name: string;
  /** Media type, told from the content. */
  type: string;
  bytes: number;
}

/** What was read off a picture, and how large it is since a key or password on it was covered. */
export interface PictureRead extends Stamp {
  kind: 'read';
  /** The picture's. */
  id: string;
  /** A message or error number of the catalogue, as it was read; the person is asked whether it is so. */
  seen: { id: string; verbatim: string } | null;
  covered: { type: string; bytes: number } | null;
}

/** Words added to an open ticket after the questions were over. */
export interface Noted extends Stamp {
  kind: 'note';
  words: string;
}

/** A script that no longer passes the checker, or cannot be read, is ended by a hand-over. */
export interface Withdrawn extends Stamp {
  kind: 'script-withdrawn';
}

export type Entry =
  | Opened
  | Answered
  | WorkedOut
  | Interrupted
  | Missed
  | Back
  | Stood
  | Timed
  | Returned
  | GivenOutage
  | OutageOver
  | DeskAsked
  | Attached
  | PictureRead
  | Noted
  | Withdrawn;

export type OutcomeHow = 'fixed' | 'escalated' | 'known-outage' | 'not-storage' | 'left' | 'done';

export interface Outcome {
  how: OutcomeHow;
  /** The confirmed fault, when fixed. */
  fault: string | null;
  /** Why a hand-over came: the flow's own words or one of the standing reasons. */
  because: 'script' | 'asked-for-a-person' | 'stopped' | 'left' | 'sign' | 'withdrawn' | null;
  text: string | null;
  keep: 'off' | 'on' | 'as-it-is' | null;
}

/** A self-help step as it went, for the ticket. */
export interface Tried {
  step: string;
  text: string;
  effect: Effect;
  result: string;
}
