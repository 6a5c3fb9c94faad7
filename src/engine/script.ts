/** A flow compiled for talking: blocks inlined, texts and cautions with it, plain JSON. Stored under its hash while a conversation uses it. */
import type { Field } from './fields.ts';
import type { Condition, Effect, Sign, Touch } from './schema.ts';

export interface Answer {
  id: string;
  label: string;
  /** Further ways to say it. */
  hears: string[];
  /** Answers that it is meant before, where the words of both are said. There only where there are any. */
  over?: string[];
}

export interface Evidence {
  for: Record<string, number>;
  against: Record<string, number>;
}

/** What follows from one answer beside its own finding. */
export interface Consequence {
  raises: Sign[];
  clears: Sign[];
  sets: Record<string, string>;
  evidence: Evidence;
  /** Step to go on with, instead of the next one. */
  goes: string | null;
}

interface StepBase {
  /** Unique in the script: the block's name stands before the id of a step that came from a block, as in `data-first.copy`. */
  id: string;
  if: Condition | null;
}

interface Asking extends StepBase {
  cautions: string[];
  help: string | null;
  /** Name of the finding that the answer sets. */
  finding: string;
  fills: Field[];
  answers: Answer[];
  /** By answer id; for a text, number or photo by `given` and `skipped`. */
  after: Record<string, Consequence>;
  /** Interrupts whose own block it is a question of: what they listen for is being asked. There only where there are any. */
  within?: string[];
}

export type Form = 'yes-no' | 'choice' | 'number' | 'text' | 'photo';

export interface AskStep extends Asking {
  kind: 'ask';
  form: Form;
  text: string;
  optional: boolean;
  unit: string | null;
  minimum: number | null;
  maximum: number | null;
  /** How the ticket words the answer in a field, `{answer}` standing for it. There only where there are any. */
  records?: Partial<Record<Field, string>>;
  /** Answer id to phrases that give it already in the opening. */
  opening: Record<string, string[]>;
  /** Exact things in a text that give an answer: `error:53`, `path:\\\\server\\share`. There only where there are any. */
  tokens?: Record<string, string>;
}

export interface TryStep extends Asking {
  kind: 'try';
  text: string;
  effect: Effect;
  touches: Touch[];
  minutes: number;
  /** Fault confirmed when it works, or null: then the answers are done and could-not. */
  fixed: string | null;
  works: string;
}

export interface SayStep extends StepBase {
  kind: 'say';
  text: string;
}
export interface CautionStep extends StepBase {
  kind: 'caution';
  caution: string;
}
/** The door of a visited block, which others may go to: when the condition fails, go on at `else`. */
export interface GateStep extends StepBase {
  kind: 'gate';
  else: string;
}
/** A place to go to: the end of an inlined block. */
export interface MarkStep extends StepBase {
  kind: 'mark';
}
export interface HandOverStep extends StepBase {
  kind: 'hand-over';
  because: string | null;
  /** As usual: on purpose nothing. */
  keep: Keep | 'as-usual' | null;
}
export interface EndStep extends StepBase {
  kind: 'end';
  how: 'not-storage' | 'done';
  text: string | null;
}
/** What a field of a working is taken from. */
export interface WorkSource {
  finding: string;
  /** Answer id to what it means there; null: as it is. */
  as: Record<string, string | number | boolean> | null;
  list: boolean;
}
/** A working, worked out from earlier answers: `talk/` does it and keeps the verdict as an entry. */
export interface WorkStep extends StepBase {
  kind: 'work';
  working: string;
  from: Record<string, WorkSource>;
  with: Record<string, unknown>;
  tells: boolean;
  /** Nothing to work with is nothing to speak of. There only where it is so. */
  perhaps?: true;
  finding: string;
  /** By verdict. */
  verdicts: Record<string, Consequence>;
}
export type Step =
  | WorkStep
  | AskStep
  | TryStep
  | SayStep
  | CautionStep
  | GateStep
  | MarkStep
  | HandOverStep
  | EndStep;
export type Question = AskStep | TryStep;

export type Keep = 'off' | 'on' | 'as-it-is';

export interface Interrupt {
  id: string;
  /** A higher rank may interrupt a lower one, never the other way round. */
  rank: number;
  sign: Sign;
  /** Said at once, before the first question of its block. */
  caution: string;
  /** Asked first when the word was doubtful. */
  doubt: string;
}

export interface Script {
  format: 1;
  symptom: string;
  title: string;
  /** Faults that can be behind this symptom. */
  faults: string[];
  main: Step[];
  /** By interrupt id: the steps it leads to. They return to the question they broke into, or end. */
  interrupts: Record<string, { about: Interrupt; steps: Step[] }>;
  /** Every finding with its finite values, for conditions and the checker. */
  findings: Record<string, string[]>;
  /** Values known before the first question: signs are `no`, policies as site.yaml says. */
  start: Record<string, string>;
  cautions: Record<string, CautionWords>;
  /** Said in the same message as the answer that raises the sign. */
  onSign: Partial<Record<Sign, string>>;
  /** Words for `{share.NAME}` in texts, by share and for any other; there only where the texts need them. */
  shares?: { listed: Record<string, Record<string, string>>; otherwise: Record<string, string> };
}

export interface CautionWords {
  text: string;
  do: string[];
  dont: string[];
  /** By caution that was said before: words that say which of the two holds. There only where there are any. */
  takesOver?: Record<string, string>;
}

export const TRY_ANSWERS = {
  fixing: [
    {
      id: 'fixed',
      label: 'Yes, it works now',
      hears: [
        'it works',
        'works now',
        'fixed',
        'solved',
        'that did it',
        'it helped',
        'quiet now',
        'opens now',
        'opens again',
        'shows up now',
        'starts now',
      ],
    },
    {
      id: 'no-change',
      label: 'No change',
      hears: [
        'no',
        'still the same',
        'same',
        'nothing',
        'still not',
        // "Yes, still clicking" is no yes.
        'still',
        'still loud',
        'still slow',
        'still hot',
        'still gone',
        'still missing',
        'same message',
        'same again',
        'still loops',
        'still blue',
        'still black',
        'still dead',
        'still beeps',
        'no luck',
        'same as before',
        "didn't help",
        'did not work',
        "isn't anywhere",
        'is not anywhere',
        'found nothing',
        'nothing was found',
        'not in there',
        'still full',
        // Had it worked they would not be here.
        'already tried',
        'tried that already',
        'tried it already',
        'did that already',
        'already did',
        'schon probiert',
        'schon gemacht',
        'déjà essayé',
        'ya lo probé',
      ],
    },
    {
      id: 'could-not',
      label: "I couldn't do that",
      hears: [
        'not sure',
        "can't",
        'cannot',
        'could not',
        'not possible',
        'not allowed',
        "don't know how",
        "don't dare",
        'rather not',
        "don't have one",
        "don't have that",
        "don't have cloud storage",
        "don't have such",
        'no such thing here',
      ],
    },
  ],
  doing: [
    {
      id: 'done',
      label: 'Done',
      hears: [
        'yes',
        'ok',
        'did it',
        'finished',
        'i did',
        "it's off",
        'off now',
        'switched off',
        'already off',
      ],
    },
    {
      id: 'could-not',
      label: "I couldn't do that",
      // Whoever has no idea has not done it.
      hears: [
        'no',
        'not sure',
        "can't",
        'cannot',
        'could not',
        'not possible',
        "don't dare",
        'rather not',
        "it won't go off",
        "it won't turn off",
        'still on',
      ],
    },
  ],
} as const satisfies Record<string, readonly { id: string; label: string; hears: string[] }[]>;

/** The verdict where there is not enough to work with. */
export const UNCLEAR = 'unclear';

/** Where the verdict waits for its step. The checker takes every one as possible, as it does policies. */
export const verdictOf = (step: string): string => `verdict.${step}`;

/** What a text, number or photo question sets its finding to. */
export const OPEN_VALUES = ['given', 'skipped'] as const;
