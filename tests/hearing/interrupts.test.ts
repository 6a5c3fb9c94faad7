import { describe, expect, test } from 'vitest';
import { spellOut } from '#hearing/alarm-words.ts';
import { hearInterrupts } from '#hearing/interrupts.ts';
import { catalogue, load } from './load.ts';

const table = load<Record<string, Record<'sure' | 'raised' | 'quiet', string[]>>>('interrupts.yaml');
const heard = (text: string, symptom: string | null = null) =>
  hearInterrupts(catalogue.interrupts, text, symptom);

for (const [interrupt, { sure, raised, quiet }] of Object.entries(table)) {
  const found = (text: string) => heard(text).find(each => each.interrupt === interrupt);
  describe(interrupt, () => {
    test.each(sure)('breaks in at once: %s', text => expect(found(text)).toMatchObject({ sure: true }));
    test.each(raised)('is not missed: %s', text => expect(found(text)).toBeDefined());
    test.each(quiet)('is no alarm: %s', text => expect(found(text)).toBeUndefined());
  });
}

describe('an alarm', () => {
  test('comes strongest first when several are raised', () => {
    const order = heard('The drive is clicking. All my files are encrypted. There is smoke.');
    expect(order.map(each => each.interrupt)).toEqual(['danger', 'attack', 'mechanical']);
  });
  test('quotes the sentence that raised it, as it was typed', () => {
    const [first] = heard('Hello there. My PC is SMOKING badly! What now?');
    expect(first).toEqual({ interrupt: 'danger', sure: true, words: 'My PC is SMOKING badly' });
  });
  test('is left to the questions of a symptom that cover it', () => {
    expect(heard('it clicks', 'drive-noise')).toEqual([]);
    expect(heard('it clicks', 'drive-slow')).toHaveLength(1);
    expect(heard('it clicks and there is smoke', 'drive-noise').map(each => each.interrupt)).toEqual([
      'danger',
    ]);
  });
  test('in a later sentence outweighs a denial in an earlier one', () => {
    expect(heard('No smoke yesterday. Today it is smoking!')[0]).toMatchObject({ sure: true });
  });
  test.each(Object.entries(catalogue.interrupts))(
    '%s: each of its own phrases is caught',
    (id, { sure, doubtful = [] }) => {
      const missed = [...sure, ...doubtful]
        .flatMap(spellOut)
        .filter(phrase => heard(`hello, ${phrase}.`).every(each => each.interrupt !== id));
      expect(missed).toEqual([]);
    },
  );
  test.each(Object.entries(catalogue.interrupts))(
    '%s: nothing that only looks like it is raised',
    (id, { unless = [] }) => {
      const raised = unless
        .flatMap(spellOut)
        .filter(phrase => heard(phrase).some(each => each.interrupt === id));
      expect(raised).toEqual([]);
    },
  );
  test('is found at the end of a text as long as a person can paste', () => {
    const long = `${'the computer is slow and I wait for it. '.repeat(1000)}Now there is smoke.`;
    expect(heard(long)[0]).toMatchObject({ interrupt: 'danger', sure: true });
  });
});
