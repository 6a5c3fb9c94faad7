/** What else is said beside the last answer, or once there is a ticket: an alarm is never lost with it. */
import { describe, expect, test } from 'vitest';
import { rehearse } from '#talk/rehearse.ts';
import { knowledge } from '../support/knowledge.ts';

describe('an alarm beside the last answer, or after the ticket', () => {
  /** As far as the last question: where it is. */
  const room = () => {
    const talk = rehearse(knowledge);
    talk.say('my usb stick is write protected');
    while (!talk.question()?.step.endsWith('where-are-you.room')) {
      const { answers } = talk.question()!;
      if (answers.length > 0) talk.press(answers[0]!.id);
      else talk.say('since today, nothing else');
    }
    return talk;
  };

  test.each(['there is smoke coming out of it', 'somebody spilled water over it just now'])(
    'is not lost with it: "%s"',
    words => {
      const talk = room();
      const said = talk.say(`Eldermoor lab 2, 555-0188, ${words}`);
      expect(said.map(each => ('text' in each ? each.text : '')).join(' ')).toContain('People first');
      expect(talk.conversation().outcome).toBeNull();
      expect(talk.question()?.step).toMatch(/danger/);
      talk.press('now');
      // Where it is and how to ring them has been said.
      expect(talk.conversation().outcome).toBe('escalated');
      expect(talk.ticket()?.priority).toBe('critical');
    },
  );

  test('begins a matter of its own after the ticket, for that one may wait in a queue', () => {
    const talk = room();
    talk.say('Eldermoor lab 2, 555-0188');
    expect(talk.conversation().outcome).toBe('escalated');
    const said = talk.say('help there is smoke coming out of it now');
    expect(said.map(each => ('text' in each ? each.text : '')).join(' ')).toContain('People first');
    expect(talk.conversation().outcome).toBeNull();
  });

  test('a drive that clicked and was switched on again goes off again', () => {
    const talk = rehearse(knowledge);
    talk.say('my external drive clicks loudly, again and again');
    while (talk.conversation().outcome === null) {
      const { answers } = talk.question()!;
      if (answers.length > 0) talk.press(answers[0]!.id);
      else talk.say('since today, nothing else; Brackwater room 4, 555-0101');
    }
    expect(talk.conversation().outcome).toBe('escalated');
    const said = talk.say('I switched it on and now it works, copying files');
    expect(said.map(each => ('text' in each ? each.text : '')).join(' ')).toContain('switch it off again');
  });

  test('a question after the ticket is answered, and stands on it', () => {
    const talk = room();
    talk.say('Eldermoor lab 2, 555-0188');
    const said = talk
      .say('can I format it meanwhile?')
      .map(each => ('text' in each ? each.text : ''))
      .join(' ');
    expect(said).toContain('**No, please.**');
    expect(said).toContain('I have added that to');
  });
});
