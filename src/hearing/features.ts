/** What the model of openings looks at: pieces of words, and neighbouring concepts. Each is a bucket of a fixed table. */
import type { Concept } from './concepts.ts';
import type { Word } from './words.ts';

/** A power of two. More keeps fewer pieces apart from each other and weighs more; measured from 8192 to 131072, it hardly matters. */
export const BUCKETS = 16_384;
/** Letters of the pieces; `<` and `>` are a word's edges. Pieces bear typing mistakes and endings in any language. */
const SHORTEST = 3;
const LONGEST = 5;
/** Longer words are no words. */
const WORD = 40;
/** Words that are looked at. */
const MOST = 250;

/** Buckets of a text, each once. A concept keeps its `!` when it is denied, so that "not clicking" differs from "clicking". */
export function featuresOf(words: readonly Word[], concepts: readonly Concept[]): Set<number> {
  const buckets = new Set<number>();
  for (const { text } of words.slice(0, MOST)) {
    const edged = `<${text.slice(0, WORD)}>`;
    for (let length = SHORTEST; length <= LONGEST; length++)
      for (let at = 0; at + length <= edged.length; at++)
        buckets.add(bucket(`c${edged.slice(at, at + length)}`));
  }
  const keys = concepts.slice(0, MOST).map(({ key }) => key);
  for (const [at, key] of keys.entries()) {
    buckets.add(bucket(`k${key}`));
    for (const before of keys.slice(Math.max(0, at - 2), at)) buckets.add(bucket(`p${before} ${key}`));
  }
  return buckets;
}

/** FNV-1a, 32 bits. */
function bucket(feature: string): number {
  let hash = 0x811c9dc5;
  for (let at = 0; at < feature.length; at++) hash = Math.imul(hash ^ feature.charCodeAt(at), 0x01000193);
  return (hash >>> 0) % BUCKETS;
}
