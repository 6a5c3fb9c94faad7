/** A typed answer, heard against the open question. Never a guess: what fits two answers fits none. */
import type { AnswerValue } from '#engine/entries.ts';
import type { Answer, Form } from '#engine/script.ts';
import { hearChoice } from './choice.ts';
import { hearNumber } from './number.ts';
import { codesIn, heardToken } from './tokens.ts';
import { listen } from './words.ts';
import { isSkip, leading } from './yes-no.ts';

export interface Asked {
  form: Form;
  answers: readonly (Pick<Answer, 'id' | 'label' | 'over'> & { hears: readonly string[] })[];
  /** A text, number or photo that may be skipped. */
  optional: boolean;
  unit: string | null;
  minimum: number | null;
  maximum: number | null;
  /** Exact things that give an answer by themselves, such as an error number. */
  tokens?: Readonly<Record<string, string>> | undefined;
}

/** `wrong`: one line on what is expected. Null: not understood. */
export type HeardAnswer = { value: AnswerValue } | { wrong: string } | null;

/** Of a long answer to a choice, its beginning and end are read. */
const HEAD = 3000;
const TAIL = 1000;

export function hearAnswer(asked: Asked, text: string): HeardAnswer {
  const said = text.trim();
  if (said === '') return null;
  const skipped =
    asked.optional &&
    said.length < 60 &&
    isSkip(
      listen(said).map(word => word.text),
      said,
    );
  switch (asked.form) {
    case 'text':
      return { value: skipped ? { skipped: true } : { text: said } };
    case 'photo':
      return skipped ? { value: { skipped: true } } : null;
    case 'number': {
      if (skipped) return { value: { skipped: true } };
      const heard = hearNumber(said, asked);
      if ('number' in heard) return { value: heard };
      return asked.optional && unsure(said) ? { value: { skipped: true } } : heard;
    }
    default: {
      const read = said.length > HEAD + TAIL ? `${said.slice(0, HEAD)}\n${said.slice(-TAIL)}` : said;
      const exact = asked.tokens && heardToken(asked.tokens, asked.answers, read);
      const id = exact === undefined ? (hearChoice(asked.answers, read) ?? failed(asked, read)) : exact;
      return id === null ? null : { value: { id } };
    }
  }
}

/** "No idea, there is a door in front": no figure in it, and it begins with not knowing. */
function unsure(text: string): boolean {
  const words = listen(text).map(word => word.text);
  return !/\p{N}/u.test(text) && leading(words, () => true)?.reply === 'not-sure';
}

/** A step that is answered with an error number did not help: "System error 85 has occurred". A "6" of three is a slip. */
const failed = ({ answers }: Asked, text: string): string | null =>
  answers.some(({ id }) => id === NO_CHANGE) && !PLACE.test(text) && codesIn(text, true).length > 0
    ? NO_CHANGE
    : null;
const PLACE = /^\W*\d{1,2}\W*$/;
const NO_CHANGE = 'no-change';
