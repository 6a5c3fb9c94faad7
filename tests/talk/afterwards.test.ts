/** What happens once the questions are over: words for the ticket, the desk, an outage. */
import { describe, expect, test } from 'vitest';
import { rehearse } from '#talk/rehearse.ts';
import { foldLife } from '#tickets/life.ts';
import { knowledge } from '../support/knowledge.ts';
import { inside, kinds, texts, word } from '../support/rehearsing.ts';

const handedOver = () => {
  const rehearsal = rehearse(knowledge);
  rehearsal.say('no bootable device found');
  rehearsal.say('a person please');
  return rehearsal;
};

describe('after the hand-over', () => {
  test('words that begin nothing new are added to the ticket', () => {
    const rehearsal = handedOver();
    const said = rehearsal.say('by the way I am in room 12 until noon');
    expect(texts(said)).toContain('R-1001');
    expect(rehearsal.ticket()!.life.at(-1)).toMatchObject({
      kind: 'note',
      text: 'by the way I am in room 12 until noon',
    });
  });

  test('thanks are just thanks', () => {
    const rehearsal = handedOver();
    expect(texts(rehearsal.say('thanks!'))).toContain('welcome');
    expect(rehearsal.ticket()!.life.some(({ kind }) => kind === 'note')).toBe(false);
  });

  test('another problem begins another conversation with a number of its own', () => {
    const rehearsal = handedOver();
    rehearsal.say('also my external drive makes a clicking noise');
    expect(rehearsal.conversation()).toMatchObject({ symptom: 'drive-noise', number: 1002, outcome: null });
  });

  test('a question of the desk reaches the person, and the answer comes back to the ticket', () => {
    const rehearsal = handedOver();
    const said = inside(rehearsal, {
      kind: 'desk',
      by: 'Ada',
      action: { do: 'ask', text: 'Which floor are you on?' },
    });
    expect(said.at(-1)).toMatchObject({ kind: 'ask', step: '@desk' });
    expect(texts(said)).toContain('Which floor are you on?');
    expect(texts(rehearsal.say('the third, next to the kitchen'))).toContain('passed that on');
    expect(foldLife(rehearsal.ticket()!.life).answers).toMatchObject([
      { text: 'the third, next to the kitchen' },
    ]);
  });

  test('closing tells the person what it was', () => {
    const rehearsal = handedOver();
    const said = inside(rehearsal, {
      kind: 'desk',
      by: 'Ada',
      action: { do: 'close', fault: 'cable-loose', words: '' },
    });
    expect(texts(said)).toContain(knowledge.catalogue.faults['cable-loose']!.name);
    expect(rehearsal.conversation().fault).toBe('cable-loose');
    expect(rehearsal.ticket()!.status).toBe('closed');
  });

  test('there is no going back after the outcome', () => {
    const rehearsal = handedOver();
    expect(texts(word(rehearsal, 'back'))).toContain('closed');
    expect(rehearsal.conversation().outcome).toBe('escalated');
  });
});

describe('an outage', () => {
  const outage = {
    id: 'O-1',
    symptom: 'boot-no-device',
    site: null,
    text: 'Machines on the second floor lost their start-up drive after an update.',
    declaredBy: 'Ada',
    declaredAt: 0,
    endedAt: null,
  };
  const known = { ...knowledge, outages: [outage] };

  test('is told at once to who reports the same, who is counted in and told when it is over', () => {
    const rehearsal = rehearse(known);
    const said = rehearsal.say('no bootable device found');
    expect(kinds(said)).toContain('outage-notice');
    expect(rehearsal.press('same').at(-1)).toMatchObject({ kind: 'ending', how: 'known-outage' });
    expect(rehearsal.conversation().outage).toBe('O-1');
    expect(
      texts(
        inside(rehearsal, {
          kind: 'outage-over',
          outage: 'O-1',
          text: 'The update was withdrawn.',
          by: 'Ada',
        }),
      ),
    ).toContain('It is over');
  });

  test('is told to who was handed over before it was known, and so is its end', () => {
    const rehearsal = rehearse(knowledge);
    rehearsal.say('no bootable device found');
    rehearsal.say('person');
    expect(rehearsal.conversation().outcome).toBe('escalated');
    const told = texts(inside(rehearsal, { kind: 'outage', outage: 'O-1', text: outage.text }));
    expect(told).toContain(outage.text);
    expect(told).toContain('is part of that');
    expect(rehearsal.ticket()?.outage).toBe('O-1');
    const over = texts(
      inside(rehearsal, { kind: 'outage-over', outage: 'O-1', text: outage.text, by: 'Ada' }),
    );
    expect(over).toContain('It is over');
    expect(rehearsal.ticket()?.life.at(-1)).toMatchObject({ by: 'Ada', text: 'Outage O-1 is over.' });
  });

  test('"mine is different" goes on with the questions', () => {
    const rehearsal = rehearse(known);
    rehearsal.say('no bootable device found');
    rehearsal.say('mine is different');
    expect(rehearsal.question()!.step).not.toMatch(/^@/);
    expect(rehearsal.conversation().outcome).toBeNull();
  });
});

describe('whoever waits for the desk', () => {
  test('hears where it stands, and the question is on the ticket too', () => {
    const rehearsal = handedOver();
    const said = texts(rehearsal.say('any news?'));
    expect(said).toContain('waiting for somebody from the desk');
    expect(said).toMatch(/R-\d+/);
    expect(rehearsal.ticket()?.life.at(-1)).toMatchObject({ kind: 'note', text: 'any news?' });
  });
  test('may say how to be reached without a new matter beginning', () => {
    const rehearsal = handedOver();
    const { id } = rehearsal.conversation();
    rehearsal.say('ok then call me 5551234');
    expect(rehearsal.conversation().id).toBe(id);
    expect(rehearsal.ticket()?.life.at(-1)).toMatchObject({ kind: 'note', text: 'ok then call me 5551234' });
  });
});
