/** Open questions that the first words have answered: where and how to ring, and how it came about. */
import { describe, expect, test } from 'vitest';
import { hearTold } from '#hearing/told.ts';
import { compiled } from '../support/flows.ts';

const { script } = compiled({
  symptom: 'drive-slow',
  title: 'It is slow',
  steps: [
    { id: 'room', ask: 'Where is it, and which number?', fills: ['place.room', 'contact.way'] },
    {
      id: 'story',
      ask: 'How did it come about?',
      fills: ['history.first', 'history.changed', 'history.tried'],
    },
    { id: 'tried', ask: 'What was tried?', fills: ['history.tried'] },
    { id: 'note', ask: 'Anything else?' },
    { hand_over: {} },
  ],
});
const heard = (text: string) =>
  Object.fromEntries(Object.entries(hearTold(script, text)).map(([finding, { words }]) => [finding, words]));

describe('where it is and how to ring', () => {
  test.each([
    ['My disk is slow. I am in room 12, extension 4402.', 'I am in room 12, extension 4402.'],
    [
      'It sits in the server room. Disk is slow! Call me on 555-0122.',
      'It sits in the server room. Call me on 555-0122.',
    ],
    [
      'slow, I am working from home, my mobile is +1 555 555 0126',
      'slow, I am working from home, my mobile is +1 555 555 0126',
    ],
  ])('"%s" tells both', (text, words) => expect(heard(text)).toMatchObject({ room: words }));

  test.each([
    'My disk is slow, room 12.',
    'My disk is slow, ring 555-0122.',
    'Error 0x80070035 in room 12.',
    'room 12: serial number 5550122888 is printed on it, and 2026-11-25 10:30',
    'room 12, either 555-0122 rings. Or 555-0123.',
    'room 12, error 1234567 came up',
    'Please call me: since 2026-11-04 it is so in room 12.',
    'Drive S/N 50001123 at desk 12 is not found, please call me.',
    'The pc in room 12 says error 80070057 1234, call me please',
  ])('"%s" does not', text => expect(heard(text)).not.toHaveProperty('room'));
});

describe('how it came about', () => {
  const told = 'Since yesterday my laptop is very slow, I have restarted it twice and nothing helped.';
  test('is known from whoever tells it', () => expect(heard(told)).toEqual({ story: told, tried: told }));

  test.each([
    'my laptop is slow since yesterday',
    'My laptop is very slow when I open the big table with all the invoices in it, please help me.',
    'Since yesterday my laptop is very slow when I open the big table with all the invoices in it.',
    'Since this morning my office computer keeps trying to start from the network and then stops there.',
    'It has been so since yesterday when I took the laptop home and sat down to work with it.',
  ])('"%s" is no story', text => expect(heard(text)).toEqual({}));

  test('is said back by what it is about, and can be taken back', async () => {
    const { rehearse } = await import('#talk/rehearse.ts');
    const { knowledge } = await import('../support/knowledge.ts');
    const talk = rehearse(knowledge);
    talk.say(
      'C drive is almost full since yesterday on my windows laptop, I emptied the bin twice already. Room 12, ring 555-0122.',
    );
    const said: string[] = [];
    while (talk.question() !== null && said.length < 30) {
      const { answers } = talk.question() as { answers: { id: string }[] };
      expect(talk.question()?.step).not.toMatch(/story|room/);
      const id = ['no-change', 'could-not', 'not-sure'].find(each =>
        answers.some(answer => answer.id === each),
      );
      const now =
        id === undefined && answers.length === 0
          ? talk.say('this and that')
          : talk.press(id ?? answers[0]!.id);
      said.push(...now.map(message => ('text' in message ? message.text : '')));
    }
    expect(said.join('\n')).toContain('**how it came about**');
    expect(said.join('\n')).toContain('**where it is, and how to reach you**');
    expect(JSON.stringify(talk.ticket()?.ticket)).toContain('Room 12, ring 555-0122.');
  });
});
