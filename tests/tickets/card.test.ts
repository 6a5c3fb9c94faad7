import { describe, expect, test } from 'vitest';
import type { TicketRow } from '#store/store.ts';
import { act } from '#tickets/act.ts';
import { cardOf, causesFor, newsOf } from '#tickets/card.ts';
import { foldLife, priorityNow } from '#tickets/life.ts';
import { type LifeEntry, PRIORITIES, STATUSES, type Ticket, type TicketStatus } from '#tickets/schema.ts';
import { catalogue, extend, START, site, ticketOf, whole } from './sample.ts';

const { faults } = catalogue;
const opened: LifeEntry = { kind: 'opened', at: START, by: 'Reseat' };

function rowOf(life: LifeEntry[], change: Partial<Ticket> = {}): TicketRow {
  const ticket = { ...ticketOf(extend(whole())), ...change };
  const { status, takenBy } = foldLife(life);
  return {
    number: 1001,
    conversation: 'c1',
    chat: 'slack:T:D',
    status,
    priority: priorityNow(foldLife(life), ticket.priority),
    symptom: ticket.symptom,
    site: 'quay',
    takenBy,
    fault: null,
    outage: null,
    ticket,
    life,
    openedAt: START,
    updatedAt: START,
  };
}
const card = (life: LifeEntry[] = [opened], change: Partial<Ticket> = {}) =>
  cardOf(rowOf(life, change), { site, faults });
const line = (label: string, of = card()) => of.lines.find(each => each.label === label)?.texts;

/** A life that has come to stand so. */
const LIVES: Record<TicketStatus, LifeEntry[]> = {
  open: [opened],
  taken: [opened, { kind: 'taken', at: START, by: 'Bo' }],
  waiting: [
    opened,
    { kind: 'taken', at: START, by: 'Bo' },
    { kind: 'waiting', at: START, by: 'Bo', until: START, reason: 'parts' },
  ],
  closed: [opened, { kind: 'closed', at: START, by: 'Bo', fault: 'fan-worn', words: 'dust' }],
  merged: [opened, { kind: 'merged', at: START, by: 'Bo', into: 7 }],
};

describe('what a desk’s message shows of a ticket', () => {
  test('priority by a shape of its own, what is suspected and why, the data, the plan, where and how to call', () => {
    expect(card()).toMatchObject({
      reference: 'R-1001',
      title: 'A drive makes a noise',
      holder: null,
      over: false,
    });
    expect(line('Suspected')![0]).toBe(
      '86% The drive is failing (hardware); for it: Which noise is it? Regular clicking',
    );
    expect(line('Data at risk')![0]).toBe('The only copy may be on this device.');
    expect(line('Power')![0]).toMatch(/^Keep it OFF/);
    expect(line('Bench plan')![0]).toMatch(/^1\. First decide with the owner.* \(\d+ min\)$/);
    expect(line('Person')).toEqual(['Ada, ada@alder.example']);
    expect(line('Where')).toEqual(['Quay House ("quay")', 'room 12; on my desk']);
    expect(line('Answer due')).toEqual([site.desk.answers[card().priority]]);
  });

  test('four priorities, four shapes', () => {
    const shapes = PRIORITIES.map(priority => card([opened], { priority }).shape);
    expect(new Set(shapes).size).toBe(PRIORITIES.length);
  });

  test('what cannot wait is an alarm', () => {
    expect(card([opened], { signs: ['danger', 'suspect'] }).alarms).toEqual(['Somebody may be in danger.']);
  });

  test.each(STATUSES)(
    '%s: everything offered can be done, and everything that can be done is offered',
    status => {
      const life = LIVES[status];
      const tried = {
        take: { do: 'take' },
        hand: { do: 'hand', to: 'Cy' },
        ask: { do: 'ask', text: 'Which?' },
        note: { do: 'note', text: 'Seen.' },
        priority: { do: 'priority', priority: 'critical', reason: 'now' },
        wait: { do: 'wait', until: START + 2, reason: '' },
        close: { do: 'close', fault: 'fan-worn', words: '' },
        reopen: { do: 'reopen', reason: 'again' },
      } as const;
      const on = {
        by: 'Bo',
        at: START + 1,
        number: 1001,
        ask: 'a',
        worked: 'high' as const,
        faults: Object.keys(faults),
      };
      const can = Object.entries(tried).filter(([, action]) => !('refused' in act(life, action, on)));
      expect(card(life).acts.toSorted()).toEqual(can.map(([name]) => name).toSorted());
    },
  );

  test.each([
    ['open', 'Nobody has it yet'],
    ['taken', 'Bo has it'],
    ['waiting', 'Bo has it, and it waits'],
    ['closed', 'Closed. It was: A fan is worn. dust'],
    ['merged', 'Handled together with another report of the same: R-7'],
  ] as const)('%s: %s', (status, said) => {
    expect(card(LIVES[status]).status).toBe(said);
    expect(card(LIVES[status]).until).toBe(status === 'waiting' ? START : null);
  });

  test('who set the priority by hand, and why', () => {
    const set: LifeEntry = {
      kind: 'priority',
      at: START,
      by: 'Bo',
      priority: 'low',
      reason: 'spare',
      worked: 'high',
    };
    expect(line('Why this priority', card([opened, set]))).toEqual(['Bo set it to low: spare']);
  });

  test('news are lines with a name', () => {
    expect(newsOf({ kind: 'answered', at: START, by: 'Ada', ask: 'a', text: 'blue' })).toBe(
      'Ada answered: blue',
    );
  });
});

describe('the causes to close with', () => {
  test('the suspected first, then what fits the symptom, then all others; each once', () => {
    const { ticket } = rowOf([opened]);
    const groups = causesFor(ticket, faults);
    expect(groups[0]).toMatchObject({ heading: 'Suspected', faults: [{ id: 'drive-failing' }, {}, {}] });
    expect(groups.at(-1)).toEqual({
      heading: 'Others',
      faults: [{ id: 'disk-full', name: 'The disk is full' }],
    });
    expect(groups.flatMap(each => each.faults.map(({ id }) => id)).toSorted()).toEqual(
      Object.keys(faults).toSorted(),
    );
  });

  test('one that the catalogue no longer has is not offered', () => {
    const { 'fan-worn': _, ...fewer } = faults;
    const offered = causesFor(rowOf([opened]).ticket, fewer).flatMap(group =>
      group.faults.map(({ id }) => id),
    );
    expect(offered).not.toContain('fan-worn');
  });
});
