/** A typed answer against the open question. Not understood is null, never a guess. */
import type { AnswerValue } from '#engine/entries.ts';
import type { Answer, Form } from '#engine/script.ts';
import { choose } from './choice.ts';
import { hearNumber } from './number.ts';
import { fold } from './words.ts';

export interface Asked {
  form: Form;
  answers: readonly Answer[];
  optional: boolean;
  unit: string | null;
  minimum: number | null;
  maximum: number | null;
}

export type HeardAnswer = { value: AnswerValue } | { /** One line: what is expected. */ wrong: string };

const SKIP =
  /^(skip( it| this)?|pass|none|nothing|no|n\/?a|no idea|idk|dunno|i do ?n[o']?t know|don'?t know|not sure|weiss nicht|keine ahnung|uberspringen|je ne sais pas|passer|no lo se|saltar|-)$/;

export function hearAnswer(asked: Asked, text: string): HeardAnswer | null {
  const said = text.trim();
  if (said === '') return null;
  const skips = asked.optional && SKIP.test(fold(said).replace(/[.!?\s]+$/, ''));
  switch (asked.form) {
    case 'text':
      return skips ? { value: { skipped: true } } : { value: { text: said } };
    case 'photo':
      return skips ? { value: { skipped: true } } : null;
    case 'number': {
      const chosen = asked.answers.length > 0 && !/\d/.test(said) ? choose(asked.answers, said) : null;
      if (chosen !== null) return { value: { id: chosen } };
      return skips ? { value: { skipped: true } } : hearNumber(asked, said);
    }
    case 'yes-no':
    case 'choice': {
      const chosen = choose(asked.answers, said);
      return chosen === null ? null : { value: { id: chosen } };
    }
  }
}
