/** Who comes back with the same matter is not asked everything anew. */
import { describe, expect, test } from 'vitest';
import type { DeskAction } from '#talk/inbound.ts';
import { rehearse } from '#talk/rehearse.ts';
import { compiled } from '../support/flows.ts';
import { knowledge } from '../support/knowledge.ts';

const tried = (id: string, fault: string) => ({
  id,
  try: `Try ${id}.`,
  effect: 'none' as const,
  minutes: 1,
  works: 'Does it work now?',
  fixed: fault,
});
const { script } = compiled({
  symptom: 'drive-slow',
  title: 'It is slow',
  steps: [
    { id: 'which', ask: 'Which one?' },
    tried('one', 'cable-loose'),
    tried('two', 'wrong-port'),
    { hand_over: {} },
  ],
});
const small = { ...knowledge, flows: { 'drive-slow': { script, hash: 'h', longest: null } } };
const DAY = 24 * 3_600_000;

const solved = () => {
  const talk = rehearse(small);
  talk.say('my drive is very slow');
  talk.say('the blue one');
  talk.press('fixed');
  expect(talk.conversation().outcome).toBe('fixed');
  return talk;
};

describe('what was solved and comes back', () => {
  test.each(["it's me again, still broken", 'it came back', 'Es ist wieder so', 'my drive is slow again'])(
    'goes on behind the step that had helped: %s',
    words => {
      const talk = solved();
      const { id } = talk.conversation();
      talk.say(words);
      expect(talk.conversation()).toMatchObject({ id, outcome: null });
      expect(talk.question()?.step).toBe('two');
      talk.press('no-change');
      expect(talk.ticket()?.ticket.tried[0]).toMatchObject({ step: 'one', result: 'no-change' });
      expect(JSON.stringify(talk.ticket()?.ticket.answers)).toContain('It helped, and then it came back');
    },
  );

  test('is another matter where another is named, or much later', () => {
    const other = solved();
    const first = other.conversation().id;
    other.say('my usb stick is not recognised again');
    expect(other.conversation().id).not.toBe(first);
    const late = solved();
    late.wait(20 * DAY);
    late.say('still broken');
    expect(late.conversation().outcome).toBeNull();
    expect(late.question()?.step).not.toBe('two');
  });
});

describe('a ticket that was closed', () => {
  const closed = () => {
    const talk = rehearse(small);
    talk.say('my drive is very slow');
    talk.say('the blue one');
    talk.press('no-change');
    talk.press('no-change');
    const act = (action: DeskAction) => {
      const conversation = talk.conversation().id;
      talk.take({ kind: 'desk', identity: 'd1', at: talk.now(), conversation, by: 'Ada', action });
    };
    return { talk, act };
  };

  test('is open again when the person says that it is still so', () => {
    const { talk, act } = closed();
    act({ do: 'close', fault: 'cable-loose', words: '' });
    expect(talk.ticket()?.status).toBe('closed');
    talk.say('its me again, still broken');
    expect(talk.ticket()?.status).toBe('open');
    expect(talk.ticket()?.life.at(-1)).toMatchObject({
      kind: 'reopened',
      reason: 'its me again, still broken',
    });
  });
});
