import { describe, expect, test } from 'vitest';
import type { AskStep, Script } from '#engine/script.ts';
import { hearWaiting } from '#hearing/waiting.ts';

const ask = (finding: string, opening: Record<string, string[]>): AskStep => ({
  kind: 'ask',
  id: finding,
  finding,
  if: null,
  form: 'choice',
  text: finding,
  answers: Object.keys(opening).map(id => ({ id, label: id, hears: [] })),
  after: {},
  cautions: [],
  help: null,
  fills: [],
  optional: false,
  unit: null,
  minimum: null,
  maximum: null,
  opening,
});

const script: Script = {
  format: 1,
  symptom: 'drive-noise',
  title: 'noise',
  faults: [],
  main: [
    ask('noise', {
      clicking: ['clicking', 'it clicks', 'drive clicks'],
      grinding: ['grinding'],
      whine: ['coil whine'],
    }),
    ask('place', {
      laptop: ['my laptop', 'laptop makes'],
      portable: ['usb drive', 'portable hard drive'],
      powered: ['big external usb drive'],
    }),
    ask('copy', { nowhere: ['no backup', 'only copy', 'not backed up', 'never backed up'] }),
    ask('did', {
      message: ["laptop won't start", 'no boot device'],
      dead: ['no lights at all', 'no sign of life'],
    }),
    ask('plugged', { yes: ['left a stick in', 'stick is still in'], no: ['nothing plugged in'] }),
  ],
  interrupts: {
    danger: {
      about: { id: 'danger', rank: 3, sign: 'danger', caution: 'c', doubt: 'd' },
      steps: [ask('when', { now: ['today'] })],
    },
  },
  findings: {},
  start: {},
  cautions: {},
  onSign: {},
};

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

test('questions that only an alarm leads to are not answered by the opening', () => {
  expect(heard('since today')).toEqual({});
});
