import { describe, expect, test } from 'vitest';
import { isQuestion } from '#engine/messages.ts';
import { rehearse } from '#talk/rehearse.ts';
import { knowledge } from '../support/knowledge.ts';
import { HOUR, inside, kinds, last, texts, toTheEnd, word } from '../support/rehearsing.ts';

describe('a person', () => {
  test('names the problem and is asked the first question of its flow', () => {
    const rehearsal = rehearse(knowledge);
    const said = rehearsal.say('my laptop says no bootable device found');
    expect(rehearsal.conversation().symptom).toBe('boot-no-device');
    expect(said.at(-1)).toSatisfy(isQuestion);
  });

  test('who only greets is asked what is wrong', () => {
    const said = rehearse(knowledge).say('hi');
    expect(said.at(-1)).toMatchObject({ kind: 'ask', step: '@opening' });
  });

  test('who says something elsewhere while a matter is open is asked which of the two it is', () => {
    const rehearsal = rehearse(knowledge);
    rehearsal.say('my laptop says no bootable device found');
    const elsewhere = {
      identity: 'elsewhere',
      at: rehearsal.now(),
      address: rehearsal.conversation().address,
    };
    rehearsal.take({ ...elsewhere, kind: 'arrived', words: 'my usb stick is write protected' });
    expect(rehearsal.question()).toMatchObject({ step: '@returned' });
    rehearsal.press('new');
    expect(rehearsal.conversation().symptom).toBe('write-protected');
  });

  test('who says something elsewhere and has no matter open is heard', () => {
    const rehearsal = rehearse(knowledge);
    rehearsal.say('hi');
    const elsewhere = {
      identity: 'elsewhere',
      at: rehearsal.now(),
      address: rehearsal.conversation().address,
    };
    rehearsal.take({ ...elsewhere, kind: 'arrived', words: 'my usb stick is write protected' });
    expect(rehearsal.conversation().symptom).toBe('write-protected');
  });

  test('is never met with silence: what was not understood is said back, and after two misses a person is offered', () => {
    const rehearsal = rehearse(knowledge);
    rehearsal.say('no bootable device found');
    const number = rehearsal.question()!.number;
    const first = rehearsal.say('purple monkey dishwasher');
    expect(texts(first)).toContain('purple monkey dishwasher');
    expect(first.at(-1)).toMatchObject({ number });
    expect(texts(first)).toContain('in other words');
    expect(texts(first)).not.toContain('person');
    expect(texts(rehearsal.say('blue monkey'))).toContain('**person**');
  });

  test('a doubtful alarm that was none takes its words back, so that what follows does not contradict them', () => {
    const rehearsal = rehearse(knowledge);
    const first = rehearsal.say('my laptop is slow, perhaps it is infected');
    expect(rehearsal.question()!.step).toBe('@doubt');
    expect(texts(first)).toContain('network cable');
    expect(texts(rehearsal.press('no'))).toContain('does not hold for you');
  });

  test('who presses a button of a question that has passed changes nothing and hears so', () => {
    const rehearsal = rehearse(knowledge);
    rehearsal.say('no bootable device found');
    const { number, answers } = rehearsal.question()!;
    rehearsal.press(answers[0]!.id);
    const before = rehearsal.conversation().entries;
    const said = rehearsal.take({
      kind: 'press',
      identity: 'old',
      at: rehearsal.now(),
      address: rehearsal.conversation().address,
      conversation: rehearsal.conversation().id,
      question: number,
      answer: answers[1]!.id,
    });
    expect(texts(said)).toContain('You answered that already');
    expect(rehearsal.conversation().entries).toEqual(before);
  });

  test('goes back: hears what is undone, and the question comes again under a number of its own', () => {
    const rehearsal = rehearse(knowledge);
    rehearsal.say('no bootable device found');
    const first = rehearsal.question()!;
    rehearsal.press(first.answers.at(-1)!.id);
    const said = word(rehearsal, 'back');
    expect(texts(said)).toContain('Taken back');
    expect(rehearsal.question()!.step).toBe(first.step);
    expect(rehearsal.question()!.number).toBeGreaterThan(first.number);
  });

  test('goes back to any earlier answer, and all that came after it is taken back with it', () => {
    const rehearsal = rehearse(knowledge);
    rehearsal.say('no bootable device found');
    const first = rehearsal.question()!;
    rehearsal.press(first.answers.at(-1)!.id);
    rehearsal.press(rehearsal.question()!.answers.at(-1)!.id);
    word(rehearsal, 'back', first.number);
    expect(rehearsal.question()!.step).toBe(first.step);
  });

  test('types a password and is told that it was taken out before anything was stored', () => {
    const rehearsal = rehearse(knowledge);
    rehearsal.say('no bootable device found');
    const said = rehearsal.say('I do not know, my password is Hunter-Gatherer7');
    expect(texts(said)).toMatch(/password/);
    expect(JSON.stringify(rehearsal.conversation())).not.toContain('Hunter-Gatherer7');
    expect(JSON.stringify(said)).not.toContain('Hunter-Gatherer7');
  });

  test('pastes more than can be kept: the beginning is kept, and they are told', () => {
    const rehearsal = rehearse(knowledge);
    const said = rehearsal.say(`no bootable device found ${'x '.repeat(30_000)}`);
    expect(texts(said)).toContain('40,000');
    expect(rehearsal.conversation().symptom).toBe('boot-no-device');
  });

  test('sends two messages in a burst: they are heard as one', () => {
    const rehearsal = rehearse(knowledge);
    const address = rehearsal.conversation().address;
    rehearsal.take({ kind: 'text', identity: 'a', at: 0, address, text: 'hello' });
    const early = {
      kind: 'text' as const,
      identity: 'b',
      at: -1,
      address,
      text: 'my external drive is clicking',
    };
    rehearsal.take(early);
    expect(rehearsal.conversation().symptom).toBe('drive-noise');
    const opened = rehearsal.conversation().entries.findLast(entry => entry.kind === 'opened');
    expect(opened).toMatchObject({ words: 'hello\nmy external drive is clicking' });
  });

  test('who says yes twice before the next question was there has answered one question', () => {
    const rehearsal = rehearse(knowledge);
    rehearsal.say('no bootable device found');
    const first = rehearsal.question()!;
    rehearsal.press(first.answers.at(-1)!.id);
    const open = rehearsal.question()!.step;
    rehearsal.take({
      kind: 'text',
      identity: 'twice',
      at: 0,
      address: rehearsal.conversation().address,
      text: first.answers.at(-1)!.label,
    });
    expect(rehearsal.question()!.step).toBe(open);
  });

  test('smells smoke at any question: the caution comes first, then whether it is happening now', () => {
    const rehearsal = rehearse(knowledge);
    rehearsal.say('no bootable device found');
    const said = rehearsal.say('wait there is smoke coming out of it');
    expect(kinds(said)[0]).toBe('caution');
    expect(rehearsal.question()!.step).toMatch(/^danger!/);
  });

  test('writes of smoke in the very first words: it does not wait until we know which drive', () => {
    const said = rehearse(knowledge).say('help there is smoke coming out of my computer');
    expect(kinds(said)).toContain('caution');
  });

  test('writes of smoke and of a clicking drive: what protects people is said first, and alone', () => {
    const said = rehearse(knowledge).say(
      'my external drive is clicking and now there is smoke coming out of it',
    );
    expect(said[0]).toMatchObject({ kind: 'caution', id: 'danger-first' });
    expect(said.filter(({ kind }) => kind === 'caution')).toHaveLength(1);
  });

  test('asks for a person and has a ticket at once', () => {
    const rehearsal = rehearse(knowledge);
    rehearsal.say('no bootable device found');
    const said = rehearsal.say('I want to talk to a person');
    expect(said.at(-1)).toMatchObject({ kind: 'hand-over', ticket: 'R-1001' });
    expect(rehearsal.ticket()!.ticket.fields['place.room']).toEqual({
      state: 'not-asked',
      why: 'asked-for-a-person',
    });
  });

  test('stops, and may come back where they were', () => {
    const rehearsal = rehearse(knowledge);
    rehearsal.say('no bootable device found');
    const open = rehearsal.question()!.step;
    expect(word(rehearsal, 'stop').at(-1)).toMatchObject({ kind: 'ending', how: 'left' });
    rehearsal.say('hello again');
    expect(rehearsal.question()!.step).toBe('@returned');
    rehearsal.say('yes');
    expect(rehearsal.question()!.step).toBe(open);
  });

  test('starts again: the history is kept, the questions begin anew', () => {
    const rehearsal = rehearse(knowledge);
    rehearsal.say('no bootable device found');
    const kept = rehearsal.conversation().entries.length;
    rehearsal.say('start again');
    expect(rehearsal.question()!.step).toBe('@opening');
    rehearsal.say('my external drive is clicking');
    expect(rehearsal.conversation().symptom).toBe('drive-noise');
    expect(rehearsal.conversation().entries.length).toBeGreaterThan(kept);
  });
});

describe('time', () => {
  test('who writes after five hours is asked whether the old matter is still the matter; the words answer nothing', () => {
    const rehearsal = rehearse(knowledge);
    rehearsal.say('no bootable device found');
    const open = rehearsal.question()!;
    rehearsal.wait(5 * HOUR);
    rehearsal.say('no');
    expect(rehearsal.question()!.step).toBe('@returned');
    expect(rehearsal.conversation().entries.filter(({ kind }) => kind === 'answer')).toEqual([]);
    rehearsal.say('yes');
    expect(rehearsal.question()!.step).toBe(open.step);
  });

  test('who comes back with something else begins that', () => {
    const rehearsal = rehearse(knowledge);
    rehearsal.say('no bootable device found');
    rehearsal.wait(50 * HOUR);
    rehearsal.say('now my external drive makes a clicking noise');
    rehearsal.press('new');
    expect(rehearsal.conversation().symptom).toBe('drive-noise');
  });

  test('one nudge after four hours, left after three days', () => {
    const rehearsal = rehearse(knowledge);
    rehearsal.say('no bootable device found');
    expect(rehearsal.conversation()).toMatchObject({ dueKind: 'nudge', dueAt: rehearsal.now() + 4 * HOUR });
    expect(inside(rehearsal, { kind: 'timer', what: 'nudge' })).toEqual([]);
    rehearsal.wait(4 * HOUR);
    expect(texts(inside(rehearsal, { kind: 'timer', what: 'nudge' }))).toContain('still there');
    expect(rehearsal.conversation().dueKind).toBe('left');
    rehearsal.wait(68 * HOUR);
    inside(rehearsal, { kind: 'timer', what: 'left' });
    expect(rehearsal.conversation()).toMatchObject({ outcome: 'left', dueKind: null, ticket: false });
  });

  test('a failing drive is not forgotten because its owner stops answering', () => {
    const rehearsal = rehearse(knowledge);
    rehearsal.say('my external drive is clicking');
    for (let turn = 0; turn < 12 && rehearsal.ticket() === null && rehearsal.question() !== null; turn++) {
      const { answers } = rehearsal.question()!;
      const id =
        answers.find(({ id: each }) => ['clicking', 'external', 'yes', 'inside'].includes(each))?.id ??
        answers[0]?.id;
      if (id === undefined) rehearsal.say('words');
      else rehearsal.press(id);
    }
    expect(rehearsal.ticket()).not.toBeNull();
    rehearsal.wait(4 * HOUR);
    inside(rehearsal, { kind: 'timer', what: 'nudge' });
    rehearsal.wait(80 * HOUR);
    inside(rehearsal, { kind: 'timer', what: 'left' });
    expect(rehearsal.conversation().outcome).toBe('escalated');
  });
});

test('every conversation comes to an end that says so', () => {
  for (const opening of [
    'no bootable device found',
    'my external drive is clicking',
    'the share S: is gone',
  ]) {
    const rehearsal = rehearse(knowledge);
    rehearsal.say(opening);
    const said = toTheEnd(rehearsal);
    expect(['hand-over', 'ending']).toContain(said.at(-1)?.kind);
    expect(last(rehearsal)).toBeDefined();
  }
});
