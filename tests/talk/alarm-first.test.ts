/** With an alarm in the first words nothing else is said before it is settled, and nothing is lost by that. */
import { describe, expect, test } from 'vitest';
import { rehearse } from '#talk/rehearse.ts';
import { knowledge } from '../support/knowledge.ts';

const kinds = (messages: ReturnType<ReturnType<typeof rehearse>['say']>) =>
  messages.map(message => (message.kind === 'caution' ? message.id : message.kind));

describe('an alarm in the first words', () => {
  test('is all that is spoken of until it is settled', () => {
    const talk = rehearse(knowledge);
    const said = talk.say('my laptop drive is full and clicks since i spilled tea on it');
    expect(kinds(said)).toEqual(['danger-first', 'ask']);
    expect(talk.question()?.step).toBe('danger!danger-when');
  });

  test('that was none gives way to what the flow says first', () => {
    const talk = rehearse(knowledge);
    const held = talk.say('a loud grinding noise from the external drive, and something smells');
    expect(kinds(held)).toEqual(['danger-first', 'ask']);
    const after = talk.press('no');
    expect(kinds(after)).toContain('noise-first');
    expect(talk.question()?.step.startsWith('@')).toBe(false);
  });

  test('taken back leaves the flow where it would have begun', () => {
    const talk = rehearse(knowledge);
    talk.say('a loud grinding noise from the external drive, and something smells');
    const after = talk.say('back');
    expect(kinds(after)).toContain('noise-first');
    expect(talk.question()?.step.startsWith('@')).toBe(false);
  });
});

test('what was stolen is no ransomware, and is nowhere to be left on', () => {
  const talk = rehearse(knowledge);
  talk.say('my laptop was stolen on the train');
  while (talk.question() !== null) {
    const { answers, step } = talk.question() as { answers: { id: string }[]; step: string };
    if (answers.length === 0) talk.say(`on the train, 555-0133, ${step.length} minutes ago`);
    else talk.press(answers[0]!.id);
  }
  const ticket = talk.ticket()!.ticket;
  expect(ticket).toMatchObject({
    title: 'A computer, drive or stick was lost or stolen',
    keep: null,
    suspects: [],
  });
});

describe('an alarm that the flow asks about itself', () => {
  const asked = () => {
    const talk = rehearse(knowledge);
    talk.say('no boot device found');
    talk.press('desktop');
    talk.press('noise');
    expect(talk.question()?.step).toBe('first-look.safe-first.mechanical.spins');
    return talk;
  };

  test('is answered by its words, and asked once', () => {
    const talk = asked();
    talk.say('it clicks');
    expect(talk.question()?.step).toBe('first-look.safe-first.mechanical.power-now.running');
  });

  test('is settled for this machine, and another one is thought of', () => {
    const talk = asked();
    talk.press('server');
    const question = talk.question()?.step;
    const said = JSON.stringify(talk.say('now my laptop is making grinding noises too'));
    expect(said).toContain('Is it about **another** machine');
    expect(said).not.toContain("don't switch it on again");
    expect(talk.question()?.step).toBe(question);
  });

  test('leaves a worse one room', () => {
    const talk = asked();
    talk.say('there is smoke coming out of it!');
    expect(talk.question()?.step).toBe('danger!danger-when');
  });
});

describe('an alarm beside a choice of what it is closest to', () => {
  test.each([
    ['None of these. Smoke is coming out of it now', 'danger!danger-when'],
    ['None of these. My laptop got water over it and is on', 'danger!danger-when'],
    ['None of these, the drive clicks', 'source-grave'],
    ['the first one, and smoke is coming out of it', 'danger!danger-when'],
    [
      'None of these. I think we got hacked, every file is renamed, there is a READ ME text asking for money',
      'attack!',
    ],
  ])('is heard: %s', (words, step) => {
    const talk = rehearse(knowledge);
    talk.say('my stick does something odd with my pictures');
    expect(talk.question()?.step).toBe('@symptom');
    talk.say(words);
    expect(talk.question()?.step).toContain(step);
  });

  test('none of them alone asks for other words', () => {
    const talk = rehearse(knowledge);
    talk.say('my stick does something odd with my pictures');
    expect(JSON.stringify(talk.say('none of these'))).toContain('in other words');
  });
});

test('what is wet and still on goes off now, whatever is being copied', () => {
  const talk = rehearse(knowledge);
  talk.say('I spilled juice over my laptop');
  talk.press('wet');
  const said = talk.say(
    "room 12, 555-0101. It's still on though, let me just finish the copy, 5 more minutes",
  );
  expect(JSON.stringify(said)).toContain('Off now, please');
});
