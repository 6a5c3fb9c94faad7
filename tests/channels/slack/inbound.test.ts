import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  addressOf,
  chatOf,
  type Pressed,
  pressOf,
  pressValue,
  saidInbounds,
  timeOf,
} from '#channels/slack/inbound.ts';

const id = fc.stringMatching(/^[A-Za-z0-9_-]{1,20}$/);
const pressed: fc.Arbitrary<Pressed> = fc.oneof(
  fc.record({ kind: fc.constant('answer' as const), conversation: id, question: fc.nat(9999), answer: id }),
  fc.record({
    kind: fc.constant('always' as const),
    what: fc.constantFrom('back' as const, 'again' as const, 'person' as const),
  }),
  fc.record({ kind: fc.constant('always' as const), what: fc.constant('back' as const), to: fc.nat(9999) }),
  fc.record({ kind: fc.constant('words' as const), words: fc.string({ maxLength: 40 }) }),
);

describe('what a button carries', () => {
  test('comes back as it was put in, and fits into an option', () => {
    fc.assert(
      fc.property(pressed, given => {
        const value = pressValue(given);
        expect(pressOf(value)).toEqual(given);
        expect(value.length).toBeLessThanOrEqual(75);
      }),
    );
  });

  test('of anything else is nothing, and harms nothing', () => {
    fc.assert(
      fc.property(fc.string(), value => {
        const read = pressOf(value);
        if (read !== null && read.kind !== 'words')
          expect(pressValue(read).split(' ')[0]).toBe(value.split(' ')[0]);
      }),
    );
    for (const value of [
      '',
      'a',
      'a c',
      'a c 1',
      'a c x yes',
      'a c 1 yes more',
      's',
      's dance',
      's back soon',
      'z',
    ])
      expect(pressOf(value)).toBeNull();
  });
});

const who = { team: 'T1', user: 'U1', name: 'Ada', mail: null, locale: 'de-DE' };

test('a person has one chat in each workspace (S24)', () => {
  expect(chatOf('T1', 'U1')).not.toBe(chatOf('T2', 'U1'));
  expect(addressOf(who, { channel: 'D1' })).toEqual({
    channel: 'slack',
    chat: 'slack:T1:U1',
    to: { team: 'T1', user: 'U1', channel: 'D1', locale: 'de-DE' },
    person: { id: 'U1', name: 'Ada', mail: null },
  });
});

test("a message's time stamp is its time", () => {
  expect(timeOf('1764090000.123456')).toBe(1_764_090_000_123);
});

test('words and files of one message are two happenings; a message without words and files is heard all the same', () => {
  const said = { channel: 'D1', ts: '1764090000.000100', self: 'U9' };
  const file = { id: 'F1', title: 'A photo', size: 5, url_private: 'https://files.slack.com/x' };
  const both = saidInbounds({ ...said, text: '<@U9> it clicks', files: [file] }, addressOf(who));
  expect(both).toMatchObject([
    { kind: 'text', text: 'it clicks', at: 1_764_090_000_000 },
    { kind: 'files', files: [{ id: 'F1', name: 'A photo', size: 5, url: 'https://files.slack.com/x' }] },
  ]);
  expect(both[0]!.identity).not.toBe(both[1]!.identity);
  expect(saidInbounds({ ...said, text: '', files: [] }, addressOf(who))).toMatchObject([
    { kind: 'text', text: '' },
  ]);
  expect(saidInbounds({ ...said, text: '', files: [file] }, addressOf(who))).toHaveLength(1);
});
