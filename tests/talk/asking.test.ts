/** People ask instead of answering, ask for somebody, or leave out the number. */
import { describe, expect, test } from 'vitest';
import { asksForHelp, asksLeave } from '#hearing/asking.ts';
import { wantsPerson } from '#hearing/standing.ts';
import { rehearse } from '#talk/rehearse.ts';
import { compiled } from '../support/flows.ts';
import { knowledge } from '../support/knowledge.ts';

const { script } = compiled({
  symptom: 'drive-slow',
  title: 'It is slow',
  steps: [
    {
      id: 'which',
      ask: 'Which one?',
      answers: { one: 'The one', two: 'The other' },
      help: 'Look at its label.',
    },
    {
      id: 'again',
      try: 'Plug it in again.',
      effect: 'start',
      minutes: 1,
      works: 'Does it work now?',
      fixed: 'cable-loose',
    },
    { id: 'room', ask: 'Where, and which number?', fills: ['place.room', 'contact.way'] },
    { hand_over: {} },
  ],
});
const small = { ...knowledge, flows: { 'drive-slow': { script, hash: 'h', longest: null } } };

const begun = () => {
  const talk = rehearse(small);
  talk.say('my drive is very slow');
  return talk;
};
const told = (talk: ReturnType<typeof rehearse>, text: string) =>
  talk.say(text).map(message => ('text' in message ? message.text : ''));

describe('whoever asks instead of answering', () => {
  test('gets the question’s help for "help", and answers nothing by it', () => {
    const talk = begun();
    expect(told(talk, 'help')[0]).toContain('Look at its label.');
    talk.say('the one');
    expect(told(talk, 'help!').join(' ')).toContain('**person**');
    expect(talk.conversation().outcome).toBeNull();
    expect(talk.question()?.step).toBe('again');
  });

  test('is given no leave by silence, not even where any text would do', () => {
    const talk = begun();
    expect(told(talk, "Can't I just copy them quickly first?")[0]).toContain('Please wait with that');
    talk.say('the one');
    talk.say('no change');
    expect(told(talk, 'should I swap it now?')[0]).toContain('Please wait with that');
    expect(talk.question()?.step).toBe('room');
  });
});

test('a wish for a person beside other words is heard', () => {
  const talk = begun();
  talk.say('NO IDEA. JUST GET ME A HUMAN');
  expect(talk.conversation().outcome).toBe('escalated');
});

describe('how to reach somebody', () => {
  test('is asked for once more where there is no number, and both answers are kept', () => {
    const talk = begun();
    talk.say('the one');
    talk.say('no change');
    expect(told(talk, 'second floor')[0]).toContain('on which number');
    talk.say('none, come by');
    expect(talk.conversation().outcome).toBe('escalated');
    expect(talk.conversation().entries.at(-1)).toMatchObject({
      value: { text: 'second floor; none, come by' },
    });
  });

  test('is not asked again where there is one', () => {
    const talk = begun();
    talk.say('the one');
    talk.say('no change');
    talk.say('second floor, 555-0101');
    expect(talk.conversation().outcome).toBe('escalated');
  });
});

describe('the words', () => {
  test.each(['help', 'Help!!', 'please help me', 'I need help', 'Hilfe', 'aidez-moi svp'])(
    '%s asks for help',
    text => expect(asksForHelp(text)).toBe(true),
  );
  test.each(['that helped', 'it did not help', 'help desk', 'the help text is missing', 'helper'])(
    '%s does not',
    text => expect(asksForHelp(text)).toBe(false),
  );
  test.each([
    'should i swap disk 3 now with a spare from the shelf?',
    'can i dry it with the hair dryer?',
    'But can’t I just restart it?',
    'is it ok to unplug it?',
    'Darf ich ihn ausstecken?',
    'je peux redémarrer ?',
  ])('%s asks for leave', text => expect(asksLeave(text)).toBe(true));
  test.each(['which port do you mean?', 'can i talk to someone?', 'I can open it', 'the blue one?'])(
    '%s does not',
    text => expect(asksLeave(text)).toBe(false),
  );
  test.each([
    'i dont know. i want to talk to a person',
    'no idea, just get me a human',
    'weiss nicht, ich will mit einem Menschen sprechen',
  ])('%s wants a person', text => expect(wantsPerson(text)).toBe(true));
  test.each([
    'I talked to a technician yesterday, no luck',
    'it is on the desk, second floor',
    'nobody else, a colleague has it',
  ])('%s does not', text => expect(wantsPerson(text)).toBe(false));
});
