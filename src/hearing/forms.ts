/** A text as plain strings that can be held against each other. */
import { unhedged } from './hedges.ts';
import { isFiller } from './spoken.ts';
import { listen } from './words.ts';

/** Every word; without hedges at the ends; without fillers too, so that "still nothing" is "nothing". */
export const FORMS = ['every', 'unhedged', 'weighty'] as const;
export type Forms = Record<(typeof FORMS)[number], string>;

export function formsOf(text: string): Forms {
  const words = listen(text).map(word => word.text);
  const bare = unhedged(words);
  return {
    every: words.join(' '),
    unhedged: bare.join(' '),
    weighty: bare.filter(word => !isFiller(word)).join(' '),
  };
}
