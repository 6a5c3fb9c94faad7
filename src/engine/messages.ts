/** The closed set of what a channel must be able to draw. Texts are a small CommonMark subset: bold, code, list, link. */
import type { Always, OutcomeHow } from './entries.ts';
import type { Effect } from './schema.ts';
import type { Form } from './script.ts';

export interface Choice {
  id: string;
  label: string;
}

/** Questions still to come from here, the open one included. */
export interface Remaining {
  shortest: number;
  longest: number;
}

interface Asked {
  /** Carried by every button, so that a press on a question that has passed changes nothing. */
  number: number;
  /** Step id, or a standing question such as `@opening`. */
  step: string;
  answers: Choice[];
  help: string | null;
  always: Always[];
  left: Remaining | null;
}

export interface Say {
  kind: 'say';
  text: string;
}
export interface Caution {
  kind: 'caution';
  id: string;
  text: string;
}
export interface Ask extends Asked {
  kind: 'ask';
  form: Form;
  text: string;
  optional: boolean;
  unit: string | null;
  minimum: number | null;
  maximum: number | null;
}
/** A self-help step, then the question whether it worked. */
export interface Try extends Asked {
  kind: 'try';
  text: string;
  effect: Effect;
  minutes: number;
  works: string;
}
export interface HandOver {
  kind: 'hand-over';
  /** As shown, such as R-1001. */
  ticket: string;
  priority: string;
  text: string;
  next: string;
  do: string[];
  dont: string[];
}
export interface OutageNotice {
  kind: 'outage-notice';
  text: string;
}
export interface Ending {
  kind: 'ending';
  how: OutcomeHow;
  text: string;
}

export type Message = Say | Caution | Ask | Try | HandOver | OutageNotice | Ending;
export type Question = Ask | Try;

export const isQuestion = (message: Message): message is Question =>
  message.kind === 'ask' || message.kind === 'try';
