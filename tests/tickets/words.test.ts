import { describe, expect, it } from 'vitest';
import { foldLife } from '#tickets/life.ts';
import type { LifeEntry, Ticket } from '#tickets/schema.ts';
import { handOverMessage, priorityInWords, statusInWords } from '#tickets/words.ts';
import { extend, script, site, talk, ticketOf, whole } from './sample.ts';

const told = (change: Partial<Ticket> = {}, entries = whole()) =>
  handOverMessage({ ...ticketOf(entries), ...change }, site, script);

describe('what the person is told when the desk takes over', () => {
  const message = told({ priority: 'high' });

  it('the number, the priority in plain words, and why it was handed over', () => {
    expect(message).toMatchObject({
      kind: 'hand-over',
      ticket: 'R-1001',
      priority: 'high: somebody from the desk answers within 1 hour',
      text: 'It needs a technician.',
    });
    expect(told({ endedWith: null }).text).toContain('handing this over to the desk');
  });

  it('what happens next, and whom to call with which number', () => {
    expect(message.next).toContain('within 1 hour (Monday to Friday, 7 to 19)');
    expect(message.next).toContain('call 555 0100 and say **R-1001**');
    expect(message.next).toContain('here in this conversation');
  });

  it('the way they asked to be reached, once they told it', () => {
    const { fields } = ticketOf(whole());
    const way = { state: 'known', value: 'x', answer: null, words: 'x' } as const;
    expect(told({ fields: { ...fields, 'contact.way': way } }).next).toContain('the way you told me');
  });

  it('nothing that sends somebody to a dangerous machine, and nothing that its state makes untrue', () => {
    expect(told({ keep: 'off', signs: ['danger'] }).do[0]).toContain(
      'only its plug or charger at the socket',
    );
    const { findings } = ticketOf(whole());
    const on = told({ keep: 'off', findings: { ...findings, power: 'on' } });
    expect(on.do[0]).toBe('Switch it off as soon as somebody can, and leave it off.');
    const off = told({ keep: 'on', findings: { ...findings, power: 'off' } });
    expect(off.do[0]).toBe('Leave it switched off.');
  });

  it('what to do and not to do until then, a device that must stay off first', () => {
    expect(message.do).toEqual(['Leave it switched off.', 'Keep the device where it is.']);
    expect(message.dont).toEqual(['Do not switch it on again, not even to test it.', 'Do not shake it.']);
  });

  it.each([
    ['on', 'Leave it switched on.', 'Do not restart it, shut it down or let it sleep.'],
    ['as-it-is', 'Leave it just as it is.', 'Do not switch, restart or unplug anything.'],
  ] as const)('a device that stays %s', (keep, first, dont) => {
    const findings = { ...ticketOf(whole()).findings, power: 'on' };
    expect(told({ keep, findings }).do[0]).toBe(first);
    expect(told({ keep, findings }).dont[0]).toBe(dont);
  });

  it('never to leave on what has to go off, though it was said before the drive began to click', () => {
    const cautions = [
      { id: 'leave-on', text: 'Leave it on.' },
      { id: 'power-off', text: 'Power it off **once**.' },
    ];
    expect(told({ cautions }).do).not.toContain('Save now.');
    expect(told({ cautions, signs: ['suspect'], keep: 'on' }).do).toContain('Save now.');
  });

  it('in danger the emergency number first, in an attack the security contact too', () => {
    const burning = ticketOf(
      talk({ kind: 'interrupt', interrupt: 'smoke', sure: true, words: 'smoke' }, ['smoke!now', 'yes']),
    );
    const { next, do: todo } = handOverMessage(burning, site, script);
    expect(next).toMatch(/^Is anybody in danger: call \*\*112\*\* first\./);
    expect(todo).toContain('Stay away from it.');
    expect(told({ signs: ['attack'] }).next).toContain('Tell the security team, 555 0199 at once as well.');
  });

  it('also when there was no flow yet', () => {
    const ticket = ticketOf(extend(whole()), { script: null });
    expect(handOverMessage(ticket, site, null)).toMatchObject({ ticket: 'R-1001', do: [], dont: [] });
  });
});

describe('plain words', () => {
  it('for a priority', () => {
    expect(priorityInWords('low', site)).toBe('low: somebody from the desk answers by the next working day');
  });
  it.each<[string, LifeEntry[]]>([
    ['waiting for somebody from the desk', []],
    ['Bo from the desk is working on it', [{ kind: 'taken', at: 1, by: 'Bo' }]],
    ['with Cleo from the desk', [{ kind: 'handed', at: 1, by: 'Bo', to: 'Cleo' }]],
    [
      'the desk is waiting for something before it goes on',
      [{ kind: 'waiting', at: 1, by: 'Bo', until: 5, reason: '' }],
    ],
    ['closed', [{ kind: 'closed', at: 1, by: 'Bo', fault: null, words: 'x' }]],
    ['handled together with another report of the same', [{ kind: 'merged', at: 1, by: 'Bo', into: 5 }]],
  ])('for a status: %s', (words, life) => expect(statusInWords(foldLife(life))).toBe(words));
});
