import { describe, expect, test } from 'vitest';
import { askCard, standingRow } from '#channels/web/ask.ts';
import type { Look } from '#channels/web/form.ts';
import { en } from '#channels/web/words/en.ts';
import type { Ask, Question } from '#engine/messages.ts';
import { knowledge } from '../../support/knowledge.ts';

let ids = 0;
const look: Look = { words: en, site: knowledge.site, csrf: 'secret', seen: 'c1:3', id: () => `id-${ids++}` };

const ask: Ask = {
  kind: 'ask',
  number: 3,
  step: 'step',
  form: 'choice',
  text: 'Which one?',
  answers: [{ id: 'a"b', label: 'This <one>' }],
  help: null,
  always: ['back', 'again', 'person', 'stop'],
  left: { shortest: 2, longest: 5 },
  optional: false,
  unit: null,
  minimum: null,
  maximum: null,
};
const card = (question: Question) => askCard({ conversation: 'c1', question, answered: 2 }, look).html;

describe('the open question', () => {
  test('its buttons carry conversation and question, and nothing in them is markup', () => {
    const drawn = card(ask);
    expect(drawn).toContain('name="conversation" value="c1"');
    expect(drawn).toContain('name="question" value="3"');
    expect(drawn).toContain('value="a&quot;b"');
    expect(drawn).toContain('This &lt;one&gt;');
  });

  test('how far: answered, sure to come, and perhaps', () => {
    const drawn = card(ask);
    const count = (kind: string) => drawn.split(`<i class="${kind}">`).length - 1;
    expect([count('done'), count('sure'), count('maybe')]).toEqual([2, 2, 3]);
    expect(drawn).toContain('2 to 5 questions to go');
  });

  test('a number is asked for with its unit, its range and the right keyboard', () => {
    const drawn = card({ ...ask, form: 'number', answers: [], unit: 'GB', minimum: 1, maximum: 900 });
    expect(drawn).toMatch(/<label for="number">A number in GB<\/label>/);
    expect(drawn).toContain('inputmode="decimal"');
    expect(drawn).toContain('placeholder="1–900"');
  });

  test('a question for a picture has its own large button, says what is taken, and can be skipped', () => {
    const drawn = card({ ...ask, form: 'photo', answers: [], optional: true });
    expect(drawn).toContain('Take or choose a picture');
    expect(drawn).toContain('up to 10 MB');
    expect(drawn).toContain('name="text" value="skip"');
  });

  test('a step to try stands above the question whether it worked', () => {
    const drawn = card({
      kind: 'try',
      number: 3,
      step: 'step',
      text: 'Take the stick **out**.',
      effect: 'start',
      minutes: 3,
      works: 'Does it start?',
      answers: [{ id: 'fixed', label: 'Yes' }],
      help: null,
      always: [],
      left: null,
    });
    expect(drawn).toContain('about 3 minutes');
    expect(drawn.indexOf('<strong>out</strong>')).toBeLessThan(drawn.indexOf('Does it start?'));
  });

  test('back says what it takes back; where there is nothing to take back it is not there', () => {
    const open = { conversation: 'c1', question: ask, answered: 1 };
    const answers = [{ asked: 'q', shown: 'A "desktop" PC', change: null }];
    expect(standingRow(open, { answers }, look).html).toContain(
      'Back: takes back “A &quot;desktop&quot; PC”',
    );
    const first = { ...open, question: { ...ask, always: ['person', 'stop'] as const } };
    const drawn = standingRow(
      { ...first, question: { ...ask, always: [...first.question.always] } },
      { answers: [] },
      look,
    ).html;
    expect(drawn).not.toContain('value="back"');
    expect(drawn).toContain('value="person"');
  });
});
