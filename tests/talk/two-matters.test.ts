/** Two matters in the first words: one after the other, and the second is not forgotten. */
import { describe, expect, test } from 'vitest';
import type { Message } from '#engine/messages.ts';
import { rehearse } from '#talk/rehearse.ts';
import { compiled } from '../support/flows.ts';
import { knowledge } from '../support/knowledge.ts';

const flowOf = (symptom: string) =>
  compiled({ symptom, title: symptom, steps: [{ id: 'room', ask: 'Which room?' }, { hand_over: {} }] })
    .script;
const small = {
  ...knowledge,
  flows: Object.fromEntries(
    ['files-lost', 'drive-missing-usb'].map(symptom => [
      symptom,
      { script: flowOf(symptom), hash: symptom, longest: null },
    ]),
  ),
};
const texts = (said: Message[]) => said.map(message => ('text' in message ? message.text : ''));

test('the first is asked about; the other is named at once, and offered in their words after the outcome', () => {
  const talk = rehearse(small);
  const begun = texts(talk.say('I deleted a folder on the share, and my usb stick is not recognised'));
  expect(begun[0]).toMatch(/^I read two things in that: .*, and .*\. We take the first one first\.$/);
  expect(talk.conversation().symptom).toBe('files-lost');
  const ended = texts(talk.say('room 12'));
  expect(talk.conversation().outcome).toBe('escalated');
  expect(ended.at(-1)).toBe(
    'At the start you also wrote: “my usb stick is not recognised”. If that still needs help, send me those words again, and we begin with it.',
  );
  talk.say('my usb stick is not recognised');
  expect(talk.conversation().symptom).toBe('drive-missing-usb');
});

test('one matter is one matter', () => {
  const talk = rehearse(small);
  const begun = texts(talk.say('I deleted a folder on the share by mistake'));
  expect(begun.join('\n')).not.toContain('two things');
  expect(texts(talk.say('room 12')).join('\n')).not.toContain('you also wrote');
});

test('what stands beside an alarm is a part of it', () => {
  const talk = rehearse(small);
  const begun = texts(
    talk.say('There is smoke. I deleted a folder on the share, and my usb stick is not recognised'),
  );
  expect(begun.join('\n')).not.toContain('two things');
});

test('who puts it aside is offered nothing more', () => {
  const talk = rehearse(small);
  talk.say('I deleted a folder on the share, and my usb stick is not recognised');
  const { address } = talk.conversation();
  const stopped = talk.take({ kind: 'always', what: 'stop', identity: 's', at: talk.now(), address });
  expect(texts(stopped).join('\n')).not.toContain('you also wrote');
});

describe('who says in the middle that it is about something else', () => {
  const started = () => {
    const rehearsal = rehearse(knowledge);
    rehearsal.say('I deleted a folder from my laptop yesterday');
    return rehearsal;
  };

  test.each([
    'no, I changed my mind. My C drive is full, 0 bytes free',
    'never mind that, my C drive is full, 0 bytes free',
    "it's something else: my C drive is full, 0 bytes free",
  ])('is not taken to have answered, and told how to turn to that: "%s"', words => {
    const rehearsal = started();
    const asked = rehearsal.question()!;
    const said = texts(rehearsal.say(words)).join(' ');
    expect(said).toContain('a drive that is full');
    expect(said).toContain('start again');
    expect(rehearsal.question()!.step).toBe(asked.step);
  });

  test('has answered where no other matter is named', () => {
    const rehearsal = started();
    const asked = rehearsal.question()!;
    rehearsal.say('no, I changed my mind: on a stick');
    expect(rehearsal.question()!.step).not.toBe(asked.step);
  });
});
