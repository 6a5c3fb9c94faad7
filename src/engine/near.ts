/** What was probably meant. */
import { distance } from 'fastest-levenshtein';

/** The nearest of the words, if it is near enough to be a misspelling: a letter or two, or two letters changed over. */
export function nearest(given: string, words: readonly string[]): string | null {
  const plain = given.toLowerCase();
  const most = Math.max(1, Math.floor(plain.length / 3));
  const [best] = words
    .map(word => ({ word, far: sorted(word) === sorted(plain) ? 0.5 : distance(plain, word) }))
    .sort((a, b) => a.far - b.far);
  return best !== undefined && best.far <= most ? best.word : null;
}

const sorted = (word: string): string => [...word].sort().join('');

/** What to do about a word that is not known: the one that was meant, else `otherwise`. */
export function choiceOf(
  given: string,
  words: readonly string[],
  otherwise = `use one of: ${words.join(', ')}`,
): string {
  const meant = nearest(given, words) ?? words.find(word => given !== '' && word.includes(given));
  return meant === undefined ? otherwise : `write "${meant}" if that is meant`;
}
