import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { parse } from 'yaml';
import { type Language, languageOf } from '#hearing/language.ts';

type Openings = Record<string, string[]>;
const read = (file: string) => parse(readFileSync(`tests/hearing/${file}`, 'utf8'));
const languages: Record<Language, Openings> = read('openings-languages.yaml');
const english: Openings = read('openings.yaml');

describe('the language that somebody writes', () => {
  test.each(['de', 'fr', 'es'] as const)('%s is told where there is enough of it', language => {
    const said = Object.values(languages[language])
      .flat()
      .filter(text => text.split(/\s+/).length >= 6);
    const told = said.filter(text => languageOf(text) === language);
    const wrong = said.filter(text => ![language, null].includes(languageOf(text) as Language));
    expect(told.length / said.length).toBeGreaterThan(0.8);
    expect(wrong).toEqual([]);
  });

  test('English is hardly ever taken for another', () => {
    const said = Object.values(english).flat();
    expect(said.length).toBeGreaterThan(500);
    // A few of the first words are in the other languages too.
    const isEnglish = (text: string) => /\b(?:the|my|is|it|and|to|on|of)\b/i.test(text);
    expect(said.filter(text => isEnglish(text) && languageOf(text) !== null)).toEqual([]);
  });

  test('a word or two tell nothing', () => {
    for (const text of ['nein', 'USB stick kaputt', 'no', 'SMART error', ''])
      expect(languageOf(text)).toBeNull();
  });
});
