import { describe, expect, test } from 'vitest';
import { de } from '#channels/web/words/de.ts';
import { en } from '#channels/web/words/en.ts';
import { es } from '#channels/web/words/es.ts';
import { fr } from '#channels/web/words/fr.ts';
import { wordsFor } from '#channels/web/words/words.ts';

describe("the page's own words", () => {
  test.each([
    [undefined, 'en'],
    ['de-AT,de;q=0.9,en;q=0.5', 'de'],
    ['nl,fr;q=0.3,es;q=0.7', 'es'],
    ['fr;q=0,es;q=0.1', 'es'],
    ['ja', 'en'],
    ['*', 'en'],
    ['constructor,toString;q=9', 'en'],
    [';;q=,,de', 'de'],
  ])('asked for %s they are in %s', (accept, language) => {
    expect(wordsFor(accept).language).toBe(language);
  });

  test.each([de, fr, es])('nothing is left in English: $language', words => {
    const same = Object.entries(words).filter(([name, value]) => {
      const other = en[name as keyof typeof en];
      return typeof value === 'string' && value === other && !['bot', 'ticket', 'stop'].includes(name);
    });
    expect(same).toEqual([]);
    for (const part of ['errors', 'refused', 'said', 'ended'] as const) {
      expect(Object.keys(words[part])).toEqual(Object.keys(en[part]));
    }
  });

  test('"questions to go" says one, a number, or from and to', () => {
    expect([en.far(0, 1), en.far(4, 4), en.far(2, 7)]).toEqual([
      'The last question',
      '4 questions to go',
      '2 to 7 questions to go',
    ]);
  });
});
