import { describe, expect, test } from 'vitest';
import type { Form } from '#engine/script.ts';
import { type Asked, hearAnswer } from '#hearing/answer.ts';
import { load } from './load.ts';

interface Table {
  question: string;
  form: Form;
  answers?: Record<string, string>;
  hears?: Record<string, string[]>;
  optional?: boolean;
  unit?: string;
  minimum?: number;
  maximum?: number;
  /** Answer id to texts; `?` for none. */
  means?: Record<string, string[]>;
  numbers?: Record<string, number>;
  wrong?: string[];
  skipped?: string[];
  texts?: string[];
}

const tables = load<Table[]>('answers.yaml');

const askedOf = ({
  form,
  answers = {},
  hears = {},
  optional = false,
  unit,
  minimum,
  maximum,
}: Table): Asked => ({
  form,
  answers: Object.entries(answers).map(([id, label]) => ({ id, label, hears: hears[id] ?? [] })),
  optional,
  unit: unit ?? null,
  minimum: minimum ?? null,
  maximum: maximum ?? null,
});

function cases(table: Table): { text: string; heard: unknown }[] {
  const { means = {}, numbers = {}, skipped = [], texts = [] } = table;
  return [
    ...Object.entries(means).flatMap(([id, said]) =>
      said.map(text => ({ text, heard: id === '?' ? null : { value: { id } } })),
    ),
    ...Object.entries(numbers).map(([text, number]) => ({ text, heard: { value: { number } } })),
    ...skipped.map(text => ({ text, heard: { value: { skipped: true } } })),
    ...texts.map(text => ({ text, heard: { value: { text: text.trim() } } })),
  ];
}

for (const table of tables) {
  describe(`at "${table.question}"`, () => {
    test.each(cases(table))('$text is heard', ({ text, heard }) => {
      expect(hearAnswer(askedOf(table), text)).toEqual(heard);
    });
    if (table.wrong === undefined) return;
    test.each(table.wrong)('%s is told what is expected', text => {
      expect(hearAnswer(askedOf(table), text)).toEqual({ wrong: expect.stringMatching(/^[^\n]{10,120}\.$/) });
    });
  });
}

test('the table of typed answers stays large', () => {
  const count = tables.reduce((sum, table) => sum + cases(table).length + (table.wrong?.length ?? 0), 0);
  expect(count).toBeGreaterThanOrEqual(400);
});

test('an empty answer is no answer', () => {
  for (const table of tables) expect(hearAnswer(askedOf(table), ' \n\t ')).toBeNull();
});

test('every answer can be given by its id, its label and its number', () => {
  for (const table of tables) {
    const asked = askedOf(table);
    if (asked.form !== 'choice' && asked.form !== 'yes-no') continue;
    for (const [index, { id, label }] of asked.answers.entries())
      for (const text of [id, label, String(index + 1)])
        expect(hearAnswer(asked, text), text).toEqual({ value: { id } });
  }
});
