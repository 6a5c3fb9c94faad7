/** A picture of a screen: what was read off it is confirmed in one question, and counts as if it had been typed. */
import { describe, expect, test } from 'vitest';
import type { PictureRead } from '#engine/entries.ts';
import { rehearse } from '#talk/rehearse.ts';
import { compiled } from '../support/flows.ts';
import { knowledge } from '../support/knowledge.ts';

const { script } = compiled({
  symptom: 'boot-no-os',
  title: 'The system does not start',
  steps: [
    { id: 'since', ask: 'Since when?', answers: { today: 'Today', longer: 'Longer' } },
    { id: 'words', ask: 'What does the screen say?', fills: ['message'] },
    { id: 'rest', ask: 'Which room?' },
    { hand_over: {} },
  ],
});
const { any } = knowledge.flows;
const small = { ...knowledge, flows: { any: any!, 'boot-no-os': { script, hash: 'h', longest: null } } };

const MISSING = { id: 'bootmgr-missing', verbatim: 'BOOTMGR is missing' };
type Read = Pick<PictureRead, 'seen' | 'covered'>;

function begun() {
  const talk = rehearse(small);
  let count = 0;
  const stamp = () => ({ identity: `picture:${++count}`, at: talk.now() });
  const { address } = talk.conversation();
  const content = new Uint8Array([1, 2, 3]);
  return {
    ...talk,
    sends: () => talk.take({ ...stamp(), address, kind: 'file', name: 'a.png', type: 'image/png', content }),
    read: ({ seen = MISSING, covered = null }: Partial<Read> = {}) => {
      const conversation = talk.conversation();
      const file = conversation.entries.find(entry => entry.kind === 'attached')?.id ?? 'none';
      return talk.take({ ...stamp(), kind: 'read', conversation: conversation.id, file, seen, covered });
    },
    texts: (messages: ReturnType<typeof talk.say>) =>
      messages.map(message => ('text' in message ? message.text : '')).join('\n'),
  };
}

describe('a picture of a screen', () => {
  test('that is the first thing sent says what the matter is, once it is confirmed', () => {
    const talk = begun();
    talk.sends();
    expect(talk.texts(talk.read())).toBe('Your photo seems to show: `BOOTMGR is missing`. Is that right?');
    expect(talk.conversation().symptom).toBeNull();
    talk.say('yes');
    expect(talk.conversation().symptom).toBe('boot-no-os');
    expect(talk.question()?.step).toBe('since');
    talk.press('today');
    expect(talk.question()?.step).toBe('rest');
    talk.say('2.14');
    expect(talk.ticket()?.ticket.screen).toEqual(MISSING);
    expect(talk.ticket()?.ticket.fields.message).toMatchObject({ state: 'known', value: MISSING.verbatim });
  });

  test('adds to what was said already', () => {
    const talk = begun();
    talk.say('it stopped this morning');
    talk.sends();
    talk.read();
    talk.press('yes');
    expect(talk.conversation().symptom).toBe('boot-no-os');
    expect(talk.conversation().entries.findLast(({ kind }) => kind === 'opened')).toMatchObject({
      words: 'it stopped this morning\nOn the screen: "BOOTMGR is missing"',
    });
  });

  test('that was read wrong changes nothing', () => {
    const talk = begun();
    talk.say('the operating system is missing, my pc does not start');
    talk.sends();
    talk.read({ seen: { id: 'grub', verbatim: 'grub rescue' } });
    talk.press('no');
    expect(talk.question()?.step).toBe('since');
    talk.say('today');
    talk.say('something white on blue');
    talk.say('2.14');
    expect(talk.ticket()?.ticket.fields.message).toMatchObject({ value: 'something white on blue' });
  });

  test('is passed over by whoever says something else', () => {
    const talk = begun();
    talk.sends();
    talk.read();
    talk.say('my pc does not start, the operating system is missing');
    expect(talk.conversation().symptom).toBe('boot-no-os');
    expect(talk.question()?.step).toBe('since');
  });

  test('gives way to an alarm', () => {
    const talk = begun();
    talk.sends();
    talk.read();
    const said = talk.say('yes and now it smells of burning, there is smoke');
    expect(said.some(({ kind }) => kind === 'caution')).toBe(true);
    expect(talk.question()?.step).not.toBe('@photo');
  });

  test('is not asked about while an alarm is', () => {
    const talk = begun();
    talk.say('smoke comes out of my pc');
    const { step } = talk.question()!;
    talk.sends();
    talk.read();
    expect(talk.question()?.step).toBe(step);
  });

  test('answers the question for the message when that is open', () => {
    const talk = begun();
    talk.say('the operating system is missing, my pc does not start');
    talk.say('today');
    expect(talk.question()?.step).toBe('words');
    talk.sends();
    talk.read();
    talk.say('yes');
    expect(talk.question()?.step).toBe('rest');
  });

  test('of which an answer is typed before it was seen leaves that answer to its question', () => {
    const talk = begun();
    talk.say('the operating system is missing, my pc does not start');
    talk.sends();
    const before = talk.now();
    talk.wait(60_000);
    talk.read();
    const { address } = talk.conversation();
    talk.take({ identity: 'late', at: before, address, kind: 'text', text: 'today' });
    expect(talk.conversation().entries.at(-1)).toMatchObject({ kind: 'answer', step: 'since' });
    expect(talk.question()?.step).toBe('@photo');
  });

  test('with an answer taken back is asked about again', () => {
    const talk = begun();
    talk.sends();
    talk.read();
    talk.say('no');
    talk.say('back');
    expect(talk.question()?.step).toBe('@photo');
  });

  test('that shows what was typed already is not asked about', () => {
    const talk = begun();
    talk.say('it says BOOTMGR is missing');
    talk.sends();
    expect(talk.read()).toEqual([]);
  });

  test('of a finished matter is kept in silence', () => {
    const talk = begun();
    talk.say('the operating system is missing, my pc does not start');
    talk.say('person');
    talk.sends();
    expect(talk.read()).toEqual([]);
  });

  test('with a key on it is told of, and its size on the ticket is that of the covered one', () => {
    const talk = begun();
    talk.say('the operating system is missing, my pc does not start');
    talk.sends();
    const said = talk.texts(talk.read({ seen: null, covered: { type: 'image/jpeg', bytes: 99 } }));
    expect(said).toContain('I have covered what looked like a recovery key or a password');
    expect(talk.question()?.step).toBe('since');
    talk.say('person');
    expect(talk.ticket()?.ticket.attachments).toMatchObject([{ type: 'image/jpeg', bytes: 99 }]);
  });
});
