/** Where a conversation stands: always the fold of its entries over its script, never stored for its own sake. */
import type { AnswerValue, Attached, Outcome, Tried, WorkedOut } from './entries.ts';
import type { Sign } from './schema.ts';
import type { Evidence } from './script.ts';

/** A place in the script: `main` or an interrupt's id, and the step there. The last frame is the open one. */
export interface Frame {
  segment: string;
  at: number;
}

/** A standing question that stands before the script's own. */
export type Standing =
  | { step: '@outage'; outage: string; text: string }
  | { step: '@returned'; words: string }
  | { step: '@desk'; ask: string; ticket: number; conversation: string; by: string; text: string }
  | { step: '@doubt'; interrupt: string; words: string }
  | { step: '@photo'; id: string; verbatim: string };

export interface Given {
  question: number;
  step: string;
  finding: string;
  value: AnswerValue;
  /** The answer as one reads it: the label, the number with its unit, or the text. */
  shown: string;
  words: string;
  at: number;
  /** Taken from the opening words, not asked. */
  fromOpening: boolean;
}

export interface State {
  /** Null until the opening names a symptom. */
  symptom: string | null;
  /** The opening words so far. */
  opening: string;
  candidates: string[];
  screen: { id: string; verbatim: string } | null;
  waiting: Record<string, { answer: string; words: string }>;
  findings: Record<string, string>;
  answers: Given[];
  tried: Tried[];
  worked: Omit<WorkedOut, 'kind'>[];
  attachments: Omit<Attached, 'kind'>[];
  evidence: { step: string; evidence: Evidence }[];
  cautions: string[];
  signs: Sign[];
  frames: Frame[];
  standing: Standing[];
  /** Number of the open question; 0 before the first. */
  number: number;
  /** Back may not go before this question: a danger was confirmed there. */
  floor: number;
  misses: number;
  outages: string[];
  outcome: Outcome | null;
  /** A sign calls for a ticket now, or the outcome does. */
  ticketDue: boolean;
}

export const fresh = (start: Record<string, string> = {}): State => ({
  symptom: null,
  opening: '',
  candidates: [],
  screen: null,
  waiting: {},
  findings: { ...start },
  answers: [],
  tried: [],
  worked: [],
  attachments: [],
  evidence: [],
  cautions: [],
  signs: [],
  frames: [],
  standing: [],
  number: 0,
  floor: 0,
  misses: 0,
  outages: [],
  outcome: null,
  ticketDue: false,
});

/** Signs that a ticket must not wait for the end of the questions for. */
export const URGENT: readonly Sign[] = ['danger', 'attack', 'hardware-failure'];
