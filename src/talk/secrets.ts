/** What is kept of a person's words: no more than can be read, and no key or password; of both they are told. */
import { redact } from '#hearing/redact.ts';
import { type Draft, notice } from './draft.ts';

/** Characters of an answer or an opening that are read. */
export const LONGEST_TEXT = 40_000;

export function toldWhereCut(draft: Draft, given: string): void {
  if (given.length > LONGEST_TEXT)
    notice(draft, `That was long; I kept the first ${LONGEST_TEXT.toLocaleString('en')} characters.`);
}

export function withoutSecrets(draft: Draft, given: string): string {
  const { text, removed } = redact(given);
  if (removed.length > 0) {
    notice(
      draft,
      `I have taken out what looked like a ${removed.map(kind => kind.replace('-', ' ')).join(' and a ')} before storing anything. Please never send one here: nobody at the desk will ask for it.`,
    );
  }
  return text;
}
