import { describe, expect, test } from 'vitest';
import type { Question } from '#engine/script.ts';
import { hearAnswer } from '#hearing/answer.ts';
import { hearStanding } from '#hearing/standing.ts';
import { hearWaiting } from '#hearing/waiting.ts';
import { loadKept } from '#library/kept.ts';
import { firstTime } from '../support/first-time.ts';

const { library } = loadKept('flows');
if (library === null) throw new Error('the flows do not load');

const heard = (step: Question, text: string): string | null => {
  const form = step.kind === 'try' ? 'choice' : step.form;
  const limits = { optional: false, unit: null, minimum: null, maximum: null };
  const answer = hearAnswer({ form, answers: step.answers, ...limits }, text);
  return answer !== null && 'value' in answer && 'id' in answer.value ? answer.value.id : null;
};

const isNew = firstTime();

describe.each(Object.entries(library.flows))('in the flow %s', (_symptom, { script }) => {
  const steps = [...script.main, ...Object.values(script.interrupts).flatMap(each => each.steps)];
  const questions = steps
    .filter(step => step.kind === 'ask' || step.kind === 'try')
    .filter(step => isNew([step.id, step.kind === 'ask' && step.form, step.answers]));

  test.each([
    ['as it is written', (text: string) => text],
    ['in capital letters and with a full stop', (text: string) => `${text.toUpperCase()}.`],
    ['with words around it', (text: string) => `well, ${text}`],
  ])('every answer is heard by its label and by each of its phrases, %s', (_how, told) => {
    const misheard = questions.flatMap(step =>
      step.answers.flatMap(({ id, label, hears }) =>
        [label, ...hears]
          .map(told)
          .filter(text => heard(step, text) !== id)
          .map(text => `${step.id}: ${text} should be ${id}, is ${heard(step, text)}`),
      ),
    );
    expect(misheard).toEqual([]);
  });

  test('no phrase of an answer is a standing word', () => {
    const standing = questions.flatMap(({ answers }) =>
      answers.flatMap(({ label, hears }) => [label, ...hears].filter(text => hearStanding(text) !== null)),
    );
    expect(standing).toEqual([]);
  });

  test('every phrase of an opening gives its answer', () => {
    const missed = script.main.flatMap(step =>
      step.kind !== 'ask'
        ? []
        : Object.entries(step.opening).flatMap(([answer, phrases]) =>
            phrases
              .filter(text => hearWaiting(script, `hello, ${text}`)[step.finding]?.answer !== answer)
              .map(text => `${step.id}: ${text} should be ${answer}`),
          ),
    );
    expect(missed).toEqual([]);
  });
});
