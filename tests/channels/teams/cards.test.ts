/** Every message that the flows can produce, in every language of the channel, as Teams' own library reads it. */
import { describe, expect, test } from 'vitest';
import type { Look } from '#channels/teams/look.ts';
import { drawn } from '#channels/teams/render.ts';
import { wordsFor } from '#channels/teams/words.ts';
import { isQuestion, type Message } from '#engine/messages.ts';
import { firstTime } from '../../support/first-time.ts';
import { wrongWith } from '../../support/teams/cards.ts';
import { ask, FLOWS, saidIn } from '../../support/teams/said.ts';
import { actionsOf, cardOf, textsOf } from '../../support/teams/teams.ts';

const look = (locale: string, among: boolean): Look => ({
  words: wordsFor(locale),
  locale,
  zone: 'Europe/Berlin',
  conversation: 'twelve-chars',
  owner: among ? '66666666-7777-4888-8999-000000000000' : null,
  name: among ? 'Ada Bright' : null,
  bot: '11111111-2222-4333-8444-555555555555',
  now: 1_764_000_000_000,
});
const LOOKS = [
  look('en-GB', false),
  look('en-GB', true),
  ...['de-DE', 'fr-FR', 'es-ES'].map(locale => look(locale, false)),
];
const shown = (activity: unknown) => ({ id: '1', updates: 0, activity });

function wrong(messages: Message[]): string[] {
  return LOOKS.flatMap(each => {
    const open = drawn(messages, each);
    const question = messages.findLast(isQuestion);
    if (question === undefined) return wrongWith(open);
    const over = drawn(messages, each, { question: question.number, chosen: 'x'.repeat(40_000) });
    const left = actionsOf(cardOf(shown(over))).filter(({ type }) => type !== 'Action.OpenUrl');
    const texts = textsOf(open);
    return [
      ...wrongWith(open),
      ...wrongWith(over),
      ...(left.length > 0 ? ['an answered question can be answered'] : []),
      ...question.answers
        .filter(({ label }) => !texts.includes(label))
        .map(({ label }) => `not shown: ${label}`),
    ];
  });
}

const isNew = firstTime();
const unnumbered = (messages: Message[]) => messages.map(message => ({ ...message, number: 0 }));

describe.each(FLOWS)('%s', flow => {
  test('what it says is a card that Teams draws', () => {
    expect([
      ...new Set(
        saidIn(flow)
          .filter(messages => isNew(unnumbered(messages)))
          .flatMap(wrong),
      ),
    ]).toEqual([]);
  });
});

describe('a card', () => {
  test('of more answers than buttons stand together is a list to choose from', () => {
    const answers = Array.from({ length: 19 }, (_, index) => ({ id: `a${index}`, label: `Answer ${index}` }));
    const card = cardOf(shown(drawn([ask({ form: 'choice', answers })], LOOKS[0]!)));
    expect(card.body.filter((each: { type: string }) => each.type === 'Input.ChoiceSet')).toHaveLength(1);
    expect(wrong([ask({ form: 'choice', answers })])).toEqual([]);
  });

  test('has a field for numbers, and for words only where others read along', () => {
    expect(wrong([ask({ form: 'number', unit: 'GB', minimum: 1, maximum: 9, optional: true })])).toEqual([]);
    const inputs = (each: Look) =>
      cardOf(shown(drawn([ask({})], each))).body.filter(
        ({ type }: { type: string }) => type === 'Input.Text',
      );
    expect(inputs(LOOKS[0]!)).toHaveLength(0);
    expect(inputs(LOOKS[1]!)).toHaveLength(1);
  });

  test('shows what somebody typed among others to nobody else', () => {
    const asked = [ask({ text: 'How can we reach you?' })];
    const among = drawn(asked, LOOKS[1]!, { question: 3, chosen: '555-0123' });
    expect(JSON.stringify(among)).not.toContain('555-0123');
    expect(JSON.stringify(drawn(asked, LOOKS[0]!, { question: 3, chosen: '555-0123' }))).toContain(
      '555-0123',
    );
  });

  test('however long its texts, stays within the limit', () => {
    const long = 'All of it. '.repeat(4000);
    expect(wrong([{ kind: 'say', text: long }, ask({ text: long, help: long })])).toEqual([]);
    expect(wrong([{ kind: 'say', text: long }])).toEqual([]);
  });

  test('takes hostile words for words', () => {
    const text =
      'I have kept “<at>all</at> **x** [a](javascript:alert(1)) ![b](https://x.example/p.png) <b>&amp;\u202e”.';
    expect(wrong([{ kind: 'say', text }, ask({ text })])).toEqual([]);
    const flat = JSON.stringify(drawn([{ kind: 'say', text }, ask({ text })], LOOKS[0]!));
    expect(flat).not.toMatch(/"url":"javascript|\u202e|"type":"Image"/);
    const { text: said } = drawn([{ kind: 'say', text }], LOOKS[0]!);
    expect(said).not.toMatch(/[<>\u202e]|\]\(javascript|!\[/);
    expect(said).toContain('&#60;at&#62;all');
  });
});
