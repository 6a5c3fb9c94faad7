import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { unmarked } from '#channels/plain.ts';
import { addressOf, inboundOf, screenAfter } from '#channels/terminal/inbound.ts';
import { clean, render, wrap } from '#channels/terminal/render.ts';
import type { Ask, HandOver } from '#engine/messages.ts';

const look = { width: 40, colour: false };
const ask: Ask = {
  kind: 'ask',
  number: 7,
  step: 'noise',
  form: 'choice',
  text: 'Which **noise** do you hear?',
  answers: [
    { id: 'clicking', label: 'A regular clicking, like a clock that ticks too fast' },
    { id: 'hum', label: 'A hum' },
  ],
  help: null,
  always: ['back', 'person'],
  left: { shortest: 2, longest: 5 },
  optional: false,
  unit: null,
  minimum: null,
  maximum: null,
};
const handOver: HandOver = {
  kind: 'hand-over',
  ticket: 'R-1001',
  priority: 'high',
  text: 'The desk takes over.',
  next: 'Somebody calls you.',
  do: ['Leave it off.'],
  dont: [],
};

describe('what a terminal shows', () => {
  test('a question with numbered answers, wrapped under themselves, and how far along one is', () => {
    expect(render([ask], look)).toBe(
      [
        '  Which noise do you hear?',
        '    1  A regular clicking, like a clock',
        '       that ticks too fast',
        '    2  A hum',
        '  2 to 5 questions left · or: back, a',
        '  person',
      ].join('\n'),
    );
  });

  test('a hand-over with number, what next and what to do', () => {
    expect(render([handOver], look)).toContain('Ticket R-1001: high');
    expect(render([handOver], look)).toContain('- Leave it off.');
    expect(render([handOver], look)).not.toContain('Please do not');
  });

  test('nothing that people write can move the cursor or change a colour', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'binary' }), text => {
        expect(clean(text)).not.toMatch(/[^\P{Cc}\n]/u);
      }),
    );
    expect(clean('a\u001b[31mred\u0007\rb')).toBe('a\ufffd[31mred\ufffd\ufffdb');
  });

  test('wrapping keeps every word and never makes a line longer than it must be', () => {
    const words = fc.array(fc.stringMatching(/^[a-z]{1,12}$/), { minLength: 1, maxLength: 40 });
    fc.assert(
      fc.property(words, fc.integer({ min: 20, max: 60 }), (given, width) => {
        const wrapped = wrap(given.join(' '), width);
        expect(wrapped.split(/\s+/).join(' ')).toBe(given.join(' '));
        expect(Math.max(...wrapped.split('\n').map(line => line.length))).toBeLessThanOrEqual(width);
      }),
    );
  });

  test('marks of our texts are taken out, a path with stars is left alone', () => {
    expect(unmarked('Press **F2**, say *back*, type `dir`')).toBe('Press F2, say “back”, type dir');
    expect(unmarked('2*3*4 and *.*')).toBe('2*3*4 and *.*');
  });
});

describe('what a terminal sends', () => {
  const screen = { conversation: 'c1', question: ask };
  test("an answer's id is a press that carries its question; anything else is text as typed", () => {
    const address = addressOf('ada');
    expect(inboundOf(' clicking ', screen, address, 'i1', 5)).toMatchObject({
      kind: 'press',
      conversation: 'c1',
      question: 7,
      answer: 'clicking',
    });
    expect(inboundOf('2', screen, address, 'i2', 6)).toMatchObject({ kind: 'text', text: '2' });
  });

  test('after a hand-over no old answer can be pressed', () => {
    expect(screenAfter('c1', [handOver], screen).question).toBeNull();
    expect(screenAfter('c1', [{ kind: 'say', text: 'Hm' }], screen).question).toBe(ask);
  });
});
