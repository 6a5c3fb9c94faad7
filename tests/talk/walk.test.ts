/** What a walk can hold a conversation to, beside its questions: each expectation that does not come true is told. */
import { describe, expect, it } from 'vitest';
import { playWalk, walks } from '#talk/walk.ts';
import { compiled } from '../support/flows.ts';
import { knowingOnly } from '../support/knowledge.ts';

const script = compiled({
  symptom: 'disk-full',
  title: 'A drive is full',
  steps: [
    { id: 'what', ask: 'What is full?', answers: { stick: 'A stick', mail: 'My mailbox' } },
    { if: { what: 'mail' }, end: 'not-storage', say: 'Mailboxes have room of their own.' },
    { caution: 'leave-off' },
    { hand_over: { because: 'The desk has a bigger one.', keep: 'off' } },
  ],
}).script;
const knowledge = knowingOnly(script);

function played(press: string, ends: string, more: object): string | null {
  const says = [{ at: 'what', press }];
  const [walk] = walks.parse([{ walk: 'one', opening: 'my drive is full', says, ends, ...more }]);
  return playWalk(knowledge, walk!)?.message ?? null;
}

describe('a walk', () => {
  it.each([
    ['stick', 'escalated', { cautions: ['leave-off'], reads: 'a bigger one', ticket: { keep: 'off' } }],
    ['mail', 'not-storage', { unsaid: ['leave-off'] }],
  ])('%s comes out as written', (press, ends, more) => {
    expect(played(press, ends, more)).toBeNull();
  });

  it.each([
    ['mail', 'not-storage', { cautions: ['leave-off'] }, 'the caution "leave-off" was not given'],
    ['stick', 'escalated', { unsaid: ['leave-off'] }, 'the caution "leave-off" was given'],
    ['stick', 'escalated', { reads: 'a smaller one' }, 'the reason is "The desk has a bigger one."'],
    ['stick', 'escalated', { signs: ['suspect'] }, 'the sign "suspect" does not stand'],
    ['stick', 'escalated', { ticket: { keep: 'on' } }, 'power is to be kept: off'],
    ['stick', 'fixed', {}, 'it ended escalated'],
  ])('%s that ends %s with %j is told: %s', (press, ends, more, told) => {
    expect(played(press, ends, more)).toBe(told);
  });
});
