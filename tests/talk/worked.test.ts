/** A flow that has something worked out: from the answers, once, told where it says so, and on the ticket. */
import { describe, expect, test } from 'vitest';
import { fold } from '#engine/fold.ts';
import { rehearse } from '#talk/rehearse.ts';
import { ticketText } from '#tickets/text.ts';
import { compiled } from '../support/flows.ts';
import { knowingOnly } from '../support/knowledge.ts';

const { script, problems } = compiled({
  symptom: 'drive-slow',
  title: 'An array',
  steps: [
    {
      id: 'level',
      ask: 'Which level?',
      answers: { five: 'RAID 5', six: 'RAID 6', 'not-sure': "I'm not sure" },
    },
    { id: 'members', kind: 'number', ask: 'How many?', unit: 'members', minimum: 1, maximum: 100 },
    { id: 'down', ask: 'Which ones are down?' },
    {
      id: 'standing',
      work_out: 'array',
      from: {
        level: { answer: 'level', as: { five: '5', six: '6' } },
        members: 'members',
        failed: { answer: 'down', list: true },
      },
      with: { copy: 'seen' },
      tells: true,
      raises: { lost: ['hardware-failure'], 'no-margin': ['suspect'] },
    },
    { say: 'Nothing was lost.', if: { standing: ['degraded', 'healthy'] } },
    { id: 'room', ask: 'Which room?' },
    { hand_over: {} },
  ],
});
const small = knowingOnly(script);

function talkWith(level: string, members: string, down: string) {
  const talk = rehearse(small);
  talk.say('my laptop is very slow, the disk is at 100%');
  talk.press(level);
  talk.say(members);
  const said = talk.say(down).map(message => ('text' in message ? message.text : ''));
  return { talk, said };
}

describe('a working in a flow', () => {
  test('is found to be well written', () => expect(problems).toEqual([]));

  test('takes the answers, tells its result, and the flow goes by its verdict', () => {
    const { talk, said } = talkWith('six', '8', 'number 3');
    expect(said.join('\n')).toContain('RAID 6, 8 members. Degraded, with margin left.');
    expect(said).toContain('Nothing was lost.');
    expect(talk.question()?.step).toBe('room');
  });

  test('raises what its verdict calls for, and stands on the ticket', () => {
    const { talk } = talkWith('five', '4', '1 and 2');
    expect(talk.ticket()?.ticket.signs).toContain('hardware-failure');
    talk.say('2.14');
    const { ticket, life } = talk.ticket()!;
    expect(ticket.worked).toMatchObject([{ working: 'array', verdict: 'lost', step: 'standing' }]);
    expect(ticketText(ticket, life)).toMatch(/WORKED OUT\narray\s+lost\n {2}RAID 5, 4 members\. Lost/);
  });

  test('is unclear where an answer is missing, and says nothing wrong', () => {
    const { talk, said } = talkWith('not-sure', '4', 'no idea');
    expect(said.join('\n')).not.toMatch(/RAID|NaN|undefined/);
    expect(fold(script, talk.conversation().entries).state.findings.standing).toBe('unclear');
  });

  test.each([
    ['3', 'no-margin'],
    ['members 1 and 3.', 'lost'],
    ['none', 'healthy'],
    ['#2, #4', 'lost'],
  ])('reads a list of members: %s', (down, verdict) => {
    const { talk } = talkWith('five', '6', down);
    expect(fold(script, talk.conversation().entries).state.findings.standing).toBe(verdict);
  });

  test.each(['two of them', 'all of the lower row', 'three', 'slot 3, serial ZX0815', '1-3', '0', '3 9'])(
    'takes no list for healthy, or for members, that it cannot read: %s',
    down => {
      const { talk } = talkWith('five', '6', down);
      expect(fold(script, talk.conversation().entries).state.findings.standing).toBe('unclear');
    },
  );

  test('is worked out anew after an answer is taken back', () => {
    const { talk } = talkWith('six', '8', '3');
    talk.say('back');
    expect(talk.question()?.step).toBe('down');
    expect(fold(script, talk.conversation().entries).state.worked).toEqual([]);
    talk.say('1, 2 and 3');
    expect(fold(script, talk.conversation().entries).state.findings.standing).toBe('lost');
  });

  test('stays what it was when the same entries are folded again', () => {
    const { talk } = talkWith('five', '4', '1');
    const entries = talk.conversation().entries;
    const edited = entries.map(entry => (entry.kind === 'worked' ? { ...entry, verdict: 'lost' } : entry));
    expect(fold(script, edited).state.findings.standing).toBe('lost');
  });
});
