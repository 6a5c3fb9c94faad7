/** Answers that begin alike: "just me" is half of "Only me, and I can't work" and of "Only me; I can manage". */
import { formsOf } from './forms.ts';
import { labelParts, type Sayable } from './sayings.ts';

/** Ways to say that it is nobody else. */
const ONLY_ME =
  /^(?:(?:just|only|solely) (?:me|myself|i|us)|(?:me|myself)(?: only| alone)?|nur (?:ich|bei mir)|(?:seulement moi|moi seulement|juste moi|que moi)|(?:solo yo|solo a mi|yo solo))$/;

/** The answers of whose labels the text is a half, where that leaves a choice; else none. */
export function halvesOf<A extends Pick<Sayable, 'label'>>(answers: readonly A[], text: string): A[] {
  const { unhedged } = formsOf(text);
  const said = ONLY_ME.test(unhedged) ? 'only me' : unhedged;
  if (said === '') return [];
  const fits = answers.filter(({ label }) => labelParts(label).some(part => formsOf(part).every === said));
  return fits.length > 1 ? fits : [];
}
