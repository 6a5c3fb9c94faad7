import { describe, expect, it } from 'vitest';
import type { DeskAction } from '#talk/inbound.ts';
import { type Acting, act, LONGEST } from '#tickets/act.ts';
import { foldLife, priorityNow } from '#tickets/life.ts';
import { type LifeEntry, lifeEntry } from '#tickets/schema.ts';

const opened: LifeEntry = { kind: 'opened', at: 1000, by: 'Reseat' };
const on = (change: Partial<Acting> = {}): Acting => ({
  by: 'Bo',
  at: 2000,
  number: 1001,
  ask: 'q1',
  worked: 'medium',
  faults: ['drive-failing', 'fan-worn', 'cable-loose', 'usb-left-in'],
  ...change,
});

/** The life after these actions; fails when one of them is refused. */
function lifeOf(...actions: (DeskAction & { by?: string })[]): LifeEntry[] {
  const life = [opened];
  for (const { by = 'Bo', ...action } of actions) {
    const entry = act(life, action as DeskAction, on({ by }));
    if ('refused' in entry) throw new Error(entry.refused);
    life.push(entry);
  }
  return life;
}
const refused = (life: LifeEntry[], action: DeskAction, change: Partial<Acting> = {}) => {
  const entry = act(life, action, on(change));
  return 'refused' in entry ? entry.refused : null;
};
const close: DeskAction = { do: 'close', fault: 'fan-worn', words: '' };
const take: DeskAction = { do: 'take' };

describe('where a ticket stands', () => {
  it('opens with nobody', () => {
    expect(foldLife([opened])).toMatchObject({ status: 'open', takenBy: null, handedTo: null });
  });
  it('taken is taken by whoever took it', () => {
    expect(foldLife(lifeOf(take))).toMatchObject({ status: 'taken', takenBy: 'Bo' });
  });
  it('handed is open until the other takes it', () => {
    const handed = lifeOf(take, { do: 'hand', to: ' Cleo ' });
    expect(foldLife(handed)).toMatchObject({ status: 'open', takenBy: null, handedTo: 'Cleo' });
    expect(foldLife(lifeOf(take, { do: 'hand', to: 'Cleo' }, { ...take, by: 'Cleo' }))).toMatchObject({
      status: 'taken',
      takenBy: 'Cleo',
      handedTo: null,
    });
  });
  it('waiting ends when the person answers, and the holder still has it', () => {
    const life = lifeOf(
      take,
      { do: 'ask', text: 'Which colour? ' },
      { do: 'wait', until: 9000, reason: 'answer' },
    );
    expect(foldLife(life)).toMatchObject({ status: 'waiting', waitingUntil: 9000, takenBy: 'Bo' });
    const answered: LifeEntry = { kind: 'answered', at: 3000, by: 'Ada', ask: 'q1', text: 'blue' };
    expect(foldLife([...life, answered])).toMatchObject({
      status: 'taken',
      waitingUntil: null,
      questions: [{ ask: 'q1', text: 'Which colour?', by: 'Bo', at: 2000 }],
      answers: [{ ask: 'q1', text: 'blue', by: 'Ada', at: 3000 }],
    });
  });
  it('closed with the confirmed fault, or in words when it is none', () => {
    expect(foldLife(lifeOf(close))).toMatchObject({ status: 'closed', confirmedFault: 'fan-worn' });
    expect(foldLife(lifeOf({ do: 'close', fault: null, words: 'the cat' }))).toMatchObject({
      status: 'closed',
      confirmedFault: null,
      closedWith: 'the cat',
    });
  });
  it('opened again, it belongs to nobody and nothing is confirmed', () => {
    expect(foldLife(lifeOf(take, close, { do: 'reopen', reason: 'it is back' }))).toMatchObject({
      status: 'open',
      takenBy: null,
      confirmedFault: null,
      closedWith: null,
    });
  });
  it('merged points to the other', () => {
    expect(foldLife(lifeOf({ do: 'merge', into: 1003 }))).toMatchObject({
      status: 'merged',
      mergedInto: 1003,
    });
  });
  it('notes and changes move nothing', () => {
    const life = lifeOf(take, { do: 'note', text: 'seen' });
    expect(foldLife([...life, { kind: 'changed', at: 1, by: 'Ada' }])).toEqual(foldLife(life));
  });
  it('every entry fits the published shape', () => {
    const life = lifeOf(
      take,
      { do: 'hand', to: 'Cleo' },
      { do: 'ask', text: 'Why?' },
      { do: 'note', text: 'n' },
      { do: 'priority', priority: 'low', reason: 'spare there' },
      { do: 'wait', until: 9000, reason: '' },
      { do: 'merge', into: 7 },
      { do: 'reopen', reason: 'no' },
      close,
    );
    expect(life.map(entry => lifeEntry.parse(entry))).toEqual(life);
    expect(life.map(({ kind }) => kind)).toEqual([
      'opened',
      'taken',
      'handed',
      'asked',
      'note',
      'priority',
      'waiting',
      'merged',
      'reopened',
      'closed',
    ]);
  });
});

describe('what makes no sense is refused with one line that says what to do', () => {
  const merged = lifeOf({ do: 'merge', into: 1003 });
  it.each<[string, LifeEntry[], DeskAction, string]>([
    ['closing a closed one', lifeOf(close), close, 'R-1001 is closed. Reopen it first.'],
    ['taking a closed one', lifeOf(close), take, 'R-1001 is closed. Reopen it first.'],
    [
      'asking on a merged one',
      merged,
      { do: 'ask', text: 'x' },
      'R-1001 was merged into R-1003. Use that one.',
    ],
    ['reopening an open one', [opened], { do: 'reopen', reason: 'x' }, 'R-1001 is open already.'],
    [
      'reopening without a reason',
      lifeOf(close),
      { do: 'reopen', reason: ' ' },
      'Say why R-1001 is to be opened again.',
    ],
    ['merging into itself', [opened], { do: 'merge', into: 1001 }, 'R-1001 cannot be merged into itself.'],
    [
      'merging into nothing',
      [opened],
      { do: 'merge', into: Number.NaN },
      'Say which ticket to merge it into, such as R-1001.',
    ],
    ['taking twice', lifeOf(take), take, 'You have R-1001 already.'],
    ['handing to nobody', [opened], { do: 'hand', to: ' ' }, 'Say whom to hand it to.'],
    ['handing to its holder', lifeOf(take), { do: 'hand', to: 'Bo' }, 'Bo has R-1001 already.'],
    [
      'an empty question',
      [opened],
      { do: 'ask', text: '\n ' },
      'Write the question that the person should be asked.',
    ],
    ['an empty note', [opened], { do: 'note', text: '' }, 'Write what the note should say.'],
    [
      'a question as long as a book',
      [opened],
      { do: 'ask', text: 'x'.repeat(LONGEST + 1) },
      'That is too long: at most 1500 characters.',
    ],
    [
      'lowering without a reason',
      [opened],
      { do: 'priority', priority: 'low', reason: ' ' },
      'Lowering a priority needs a reason: say why R-1001 can wait.',
    ],
    [
      'the priority it has',
      [opened],
      { do: 'priority', priority: 'medium', reason: 'x' },
      'R-1001 is medium already.',
    ],
    [
      'a priority that there is not',
      [opened],
      { do: 'priority', priority: 'huge' as 'low', reason: 'x' },
      'Choose a priority: critical, high, medium, low.',
    ],
    [
      'waiting until a time gone by',
      [opened],
      { do: 'wait', until: 2000, reason: '' },
      'Say until when it waits: a time that is still to come.',
    ],
    [
      'waiting until no time at all',
      [opened],
      { do: 'wait', until: Number.NaN, reason: '' },
      'Say until when it waits: a time that is still to come.',
    ],
    [
      'waiting for ever',
      [opened],
      { do: 'wait', until: 9e15, reason: '' },
      'Say until when it waits: a time that is still to come.',
    ],
    [
      'closing without a word',
      [opened],
      { do: 'close', fault: null, words: '' },
      'Say what it was: a fault of the catalogue, or in words when it is none.',
    ],
    [
      'an unknown fault',
      [opened],
      { do: 'close', fault: 'fan-wron', words: '' },
      'There is no fault "fan-wron" in the catalogue. Near it: fan-worn, ',
    ],
  ])('%s', (_, life, action, line) => expect(refused(life, action)).toContain(line));

  it('taking what somebody else has: two hands on one ticket at the same moment', () => {
    expect(refused(lifeOf(take), take, { by: 'Cleo' })).toBe(
      'Bo has R-1001 already. Ask them to hand it to you.',
    );
  });
});

describe('what does make sense', () => {
  it('a note on a closed ticket, and taking up again what waits', () => {
    expect(refused(lifeOf(close), { do: 'note', text: 'thanks' })).toBeNull();
    expect(refused(lifeOf(take, { do: 'wait', until: 9000, reason: '' }), take)).toBeNull();
  });
  it('raising needs no reason', () => {
    expect(refused([opened], { do: 'priority', priority: 'high', reason: '' })).toBeNull();
  });
});

describe('the priority that counts', () => {
  const set = (priority: 'critical' | 'high' | 'medium' | 'low', worked: typeof priority) =>
    foldLife([opened, { kind: 'priority', at: 1, by: 'Bo', priority, reason: 'so', worked }]);
  it('is what the facts call for, until somebody sets another', () => {
    expect(priorityNow(foldLife([opened]), 'high')).toBe('high');
    expect(priorityNow(set('low', 'high'), 'high')).toBe('low');
    expect(priorityNow(set('critical', 'low'), 'low')).toBe('critical');
  });
  it('a ticket that was lowered rises again when the facts grow worse', () => {
    expect(priorityNow(set('low', 'medium'), 'critical')).toBe('critical');
  });
  it('one that was raised higher than the new facts stays there', () => {
    expect(priorityNow(set('critical', 'low'), 'high')).toBe('critical');
  });
  it('facts that grow better leave it where it was set', () => {
    expect(priorityNow(set('medium', 'high'), 'low')).toBe('medium');
  });
  it('a second change is judged by the first', () => {
    const life = lifeOf({ do: 'priority', priority: 'critical', reason: '' });
    expect(refused(life, { do: 'priority', priority: 'high', reason: '' })).toContain('Lowering');
    expect(refused(life, { do: 'priority', priority: 'critical', reason: '' })).toContain('critical already');
  });
});
