/** Keys and passwords are taken out before anything is stored, and the person is told. */
import { redact } from '#hearing/redact.ts';
import { type Draft, notice } from './draft.ts';

/** Longer texts are cut here. */
export const LONGEST_TEXT = 40_000;

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
