import { describe, expect, test } from 'vitest';
import { hearOpening } from '#hearing/opening.ts';
import { catalogue, openings } from './load.ts';

const prepared = openings();
/** What a screen shows where the catalogue has a star. */
const shown = (text: string): string =>
  text
    .replaceAll('\\\\*', '\\\\harbour\\plans')
    .replace(/\*(?=\p{L})/gu, 'E7 ')
    .replaceAll('*', 'E7');

const messages = Object.entries(catalogue.screenMessages).flatMap(([id, { texts, symptom }]) =>
  texts.map(text => ({ id, symptom, text: shown(text) })),
);

describe.each([
  ['alone', (text: string) => text],
  [
    'in the middle of a story',
    (text: string) => `Hello, since this morning I get this: ${text}\nPlease help, Tomas`,
  ],
  ['in quotation marks', (text: string) => `my colleague sees "${text}" and went for coffee`],
  ['in capital letters', (text: string) => `IT SAYS: ${text.toUpperCase()}`],
])('a message on the screen %s', (_where, told) => {
  test.each(messages)('$text is found and kept word for word', ({ id, text }) => {
    const words = told(text);
    const { screen } = hearOpening(prepared, words);
    expect(screen).not.toBeNull();
    expect(words).toContain(screen!.verbatim);
    // One message may contain another; the longer one is found then.
    const found = catalogue.screenMessages[screen!.id]!;
    expect(screen!.id === id || found.symptom === catalogue.screenMessages[id]!.symptom, screen!.id).toBe(
      true,
    );
  });
});

test.each(messages)('$text alone is about $symptom', ({ text, symptom }) => {
  const heard = hearOpening(prepared, text);
  expect([heard.symptom, ...heard.candidates]).toContain(symptom);
});

test('a text without a message has none', () => {
  for (const text of ['my laptop is slow', 'hello', 'the drive makes a noise', 'I cannot find my files', ''])
    expect(hearOpening(prepared, text).screen).toBeNull();
});

test('typing mistakes in a long message are forgiven, and kept', () => {
  const text = 'it says reboot and slect proper boot devcie and that is all';
  expect(hearOpening(prepared, text).screen).toEqual({
    id: 'select-boot-device',
    verbatim: 'reboot and slect proper boot devcie',
  });
});

test('more than eighty kinds of messages are known', () => {
  expect(Object.keys(catalogue.screenMessages).length).toBeGreaterThanOrEqual(80);
});
