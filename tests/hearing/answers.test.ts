import { describe, expect, test } from 'vitest';
import { hearAnswer } from '#hearing/answer.ts';
import { answersHeard, askedOf, casesOf, type Table } from './answered.ts';
import { load } from './load.ts';

const tables = load<Table[]>('answers.yaml');

for (const table of tables) {
  describe(`at "${table.question}"`, () => {
    test.each(casesOf(table))('$text is heard', ({ text, heard }) => {
      expect(hearAnswer(askedOf(table), text)).toEqual(heard);
    });
    if (table.wrong === undefined) return;
    test.each(table.wrong)('%s is told what is expected', text => {
      expect(hearAnswer(askedOf(table), text)).toEqual({ wrong: expect.stringMatching(/^[^\n]{10,120}\.$/) });
    });
  });
}

test('the table of typed answers stays large', () => {
  const count = tables.reduce((sum, table) => sum + casesOf(table).length + (table.wrong?.length ?? 0), 0);
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

test('of a thousand typed answers, at the questions of the shipped flows too, 98 in a hundred are heard as meant', () => {
  const { answers, right, wrong } = answersHeard();
  expect(answers).toBeGreaterThanOrEqual(1000);
  expect(right / answers).toBeGreaterThanOrEqual(0.98);
  expect(wrong.filter(({ heard }) => heard !== null).length).toBeLessThanOrEqual(3);
});
