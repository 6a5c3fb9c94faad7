import { describe, expect, test } from 'vitest';
import { hearWaiting } from '#hearing/waiting.ts';
import { script } from './script.ts';

const heard = (text: string) =>
  Object.fromEntries(
    Object.entries(hearWaiting(script, text)).map(([finding, { answer }]) => [finding, answer]),
  );

describe('what the first words already say is not asked again', () => {
  test.each<[string, Record<string, string>]>([
    ['my drive is clicking', { noise: 'clicking' }],
    ['my laptop makes a grinding sound', { noise: 'grinding', place: 'laptop' }],
    ['MY LAPTOP IS CLIKCING', { noise: 'clicking', place: 'laptop' }],
    ["I don't have a backup", { copy: 'nowhere' }],
    ['there is no backup of it', { copy: 'nowhere' }],
    ['it was never backed up', { copy: 'nowhere' }],
    ["it isn't backed up", { copy: 'nowhere' }],
    ['laptop will not start', { did: 'message' }],
    ["the laptop doesn't start anymore", { did: 'message' }],
    ['there are no lights at all', { did: 'dead' }],
    ['I left a usb stick in', { plugged: 'yes' }],
    ['nothing is plugged in', { plugged: 'no' }],
    ['the big external usb drive', { place: 'powered' }],
    ['the usb drive', { place: 'portable' }],
    [
      'clicks when I plug in the usb drive, no backup',
      { noise: 'clicking', place: 'portable', copy: 'nowhere' },
    ],
  ])('%s', (text, waiting) => {
    expect(heard(text)).toEqual(waiting);
  });
});

describe('what is denied, unclear or said of something else waits for its question', () => {
  test.each([
    'it is not clicking',
    'no clicking at all',
    'it does not make a clicking sound',
    'it was backed up',
    'I have a backup',
    'the laptop starts',
    'clicking and grinding',
    'my laptop does not see the usb drive',
    'I clock in at nine',
    'there is a stick',
    'something is plugged in',
    'the whine of coils',
    'hello',
    '',
  ])('%s', text => {
    expect(heard(text)).toEqual({});
  });
});

test("the person's own words are kept", () => {
  expect(hearWaiting(script, 'Hello! It is CLICKING, and there is no recent backup.')).toEqual({
    noise: { answer: 'clicking', words: 'CLICKING' },
    copy: { answer: 'nowhere', words: 'no recent backup' },
  });
});

test('what only an alarm’s own questions ask is heard too: it waits, and counts when the alarm comes', () => {
  expect(heard('since today')).toEqual({ when: 'now' });
});
