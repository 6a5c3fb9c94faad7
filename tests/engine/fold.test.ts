import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { openStep } from '#engine/advance.ts';
import type { Entry } from '#engine/entries.ts';
import { apply, fold, standing } from '#engine/fold.ts';
import { remaining } from '#engine/remaining.ts';
import type { Script } from '#engine/script.ts';
import { fresh } from '#engine/state.ts';
import { compiled } from '../support/flows.ts';
import { entryFor, opened, play, randomMoves, randomScript } from '../support/random-flow.ts';

const copy = <T>(value: T): T => JSON.parse(JSON.stringify(value));
const waiting = fc.subarray(['s0', 's1', 's2', 's3']);

describe('every conversation over every flow', () => {
  test('storing and reloading between any two entries changes nothing', () => {
    fc.assert(
      fc.property(randomScript, randomMoves, waiting, (script, moves, first) => {
        const entries = play(script, moves, first);
        const straight = fold(script, entries, 0);
        for (let cut = 0; cut <= entries.length; cut++) {
          const stored = copy({ script, entries: entries.slice(0, cut) });
          const again = fold(stored.script, [...stored.entries, ...copy(entries.slice(cut))], 0);
          expect(again).toEqual(straight);
        }
      }),
    );
  });

  test('an entry applied to a reloaded state comes to the same as folding the whole history', () => {
    fc.assert(
      fc.property(randomScript, randomMoves, (script, moves) => {
        const entries = play(
          script,
          moves.filter(({ what }) => what !== 'back' && what !== 'again'),
        );
        let state = fresh(script.start);
        entries.forEach((entry, index) => {
          state = copy(state);
          apply(script, state, entry, index);
        });
        expect(state).toEqual(fold(script, entries).state);
      }),
    );
  });

  test('the same input gives the same output, and the input is left alone', () => {
    fc.assert(
      fc.property(randomScript, randomMoves, waiting, (script, moves, first) => {
        const entries = play(script, moves, first);
        const before = copy({ script, entries });
        const once = fold(script, entries, 0);
        expect(fold(script, entries, 0)).toEqual(once);
        expect({ script, entries }).toEqual(before);
      }),
    );
  });

  test('going back equals never having said it, except in the history', () => {
    fc.assert(
      fc.property(randomScript, randomMoves, (script, moves) => {
        const entries = play(
          script,
          moves.filter(({ what }) => what !== 'again'),
        );
        const back = entryFor(script, entries, { what: 'back', pick: 0 }, 99);
        if (back === null || back.kind !== 'back') return;
        const after = fold(script, [...entries, back]).state;
        const never = entries.filter(
          entry =>
            !(
              (entry.kind === 'answer' || entry.kind === 'interrupt' || entry.kind === 'missed') &&
              entry.question >= back.to
            ),
        );
        const without = fold(script, renumber(never, entries)).state;
        expect({ ...after, number: 0, floor: 0, answers: plainAnswers(after) }).toEqual({
          ...without,
          number: 0,
          floor: 0,
          answers: plainAnswers(without),
        });
        expect([...entries, back].length).toBe(entries.length + 1);
      }),
    );
  });

  test('comes to an outcome or an open question, and never past an outcome', () => {
    fc.assert(
      fc.property(randomScript, randomMoves, (script, moves) => {
        const { state } = fold(script, play(script, moves));
        if (state.outcome === null) {
          expect(
            openStep(script, state) !== null || state.standing.length > 0 || state.frames.length === 0,
          ).toBe(true);
        } else {
          expect(openStep(script, state)).toBeNull();
        }
      }),
    );
  });

  test('a sign of failing hardware never ends as fixed or left', () => {
    fc.assert(
      fc.property(randomScript, randomMoves, (script, moves) => {
        const { state } = fold(script, play(script, moves));
        if (state.signs.includes('hardware-failure') && state.outcome !== null) {
          expect(state.outcome.how).toBe('escalated');
        }
      }),
    );
  });

  test('the bounds of what is left hold whatever is answered', () => {
    fc.assert(
      fc.property(randomScript, fc.array(fc.nat(1000), { minLength: 30, maxLength: 30 }), (script, picks) => {
        const entries: Entry[] = [opened(1)];
        const bounds = remaining(script, fold(script, entries).state);
        let asked = 0;
        for (const pick of picks) {
          const entry = entryFor(script, entries, { what: 'answer', pick }, 2);
          if (entry === null) break;
          entries.push(entry);
          asked += 1;
        }
        if (bounds === null) return;
        expect(asked).toBeGreaterThanOrEqual(bounds.shortest);
        expect(asked).toBeLessThanOrEqual(bounds.longest);
      }),
    );
  });
});

/** Without entries the rest keeps its own places, so questions keep the numbers they were asked under. */
function renumber(kept: Entry[], all: Entry[]): Entry[] {
  return kept.map(entry => {
    if (entry.kind !== 'answer' && entry.kind !== 'interrupt' && entry.kind !== 'missed') return entry;
    const cause = all.slice(0, entry.question);
    const shift = cause.filter(other => !kept.includes(other)).length;
    return { ...entry, question: entry.question - shift };
  });
}

const plainAnswers = (state: ReturnType<typeof fold>['state']) =>
  state.answers.map(({ question: _question, ...rest }) => rest);

describe('a conversation about a noise', () => {
  const script: Script = compiled({
    symptom: 'drive-noise',
    title: 'A noise',
    steps: [
      {
        id: 'noise',
        ask: 'Which noise?',
        answers: { clicking: 'Clicking', hum: 'A hum' },
        raises: { clicking: ['mechanical', 'hardware-failure'] },
        opening: { clicking: ['clicks'] },
      },
      { id: 'fan', if: { noise: 'hum' }, try: 'Move it.', effect: 'none', minutes: 1, fixed: 'usb-left-in' },
      { id: 'where', ask: 'Where is it?' },
      { hand_over: { keep: 'off' } },
    ],
  }).script;
  const answer = (question: number, step: string, id: string): Entry => ({
    kind: 'answer',
    at: 0,
    question,
    step,
    value: { id },
    words: id,
  });

  test('says the caution in the same message as the answer that raises its sign, and calls for a ticket at once', () => {
    const { state, said } = fold(script, [opened(1), answer(1, 'noise', 'clicking')], 1);
    expect(said).toEqual([{ kind: 'caution', id: 'leave-off', text: 'Leave it off.' }]);
    expect(state.ticketDue).toBe(true);
    expect(state.outcome).toBeNull();
  });

  test.each([
    ['off', 'off'],
    ['as-usual', null],
  ])('of what is to be kept %s it tells %s', (keep, told) => {
    const over = compiled({ symptom: 'disk-full', title: 'Full', steps: [{ hand_over: { keep } }] }).script;
    expect(fold(over, [opened(1)], 1).state.outcome?.keep).toBe(told);
  });

  test('an answer that the opening gave is said back, not asked, and back asks it after all', () => {
    const first = fold(
      script,
      [{ ...opened(1), waiting: { noise: { answer: 'hum', words: 'hums' } } } as Entry],
      0,
    );
    expect(first.said).toEqual([
      { kind: 'say', text: 'From what you wrote: **A hum**. If that is wrong, say *back*.' },
    ]);
    expect(openStep(script, first.state)?.id).toBe('fan');
    const back: Entry = { kind: 'back', at: 2, to: 1, why: 'asked', forget: ['noise'] };
    const after = fold(script, [
      { ...opened(1), waiting: { noise: { answer: 'hum', words: 'hums' } } } as Entry,
      back,
    ]);
    expect(openStep(script, after.state)?.id).toBe('noise');
  });

  test('a danger breaks into any question, and a false alarm returns to it', () => {
    const smoke: Entry = {
      kind: 'interrupt',
      at: 2,
      question: 1,
      interrupt: 'danger',
      sure: true,
      words: 'smoke',
    };
    const during = fold(script, [opened(1), smoke], 1);
    expect(during.said.map(({ kind }) => kind)).toEqual(['caution']);
    expect(openStep(script, during.state)?.id).toBe('danger!now');
    const after = fold(script, [opened(1), smoke, answer(2, 'danger!now', 'no')]);
    expect(openStep(script, after.state)?.id).toBe('noise');
  });

  test('a danger that came true ends the questions and cannot be taken back', () => {
    const smoke: Entry = {
      kind: 'interrupt',
      at: 2,
      question: 1,
      interrupt: 'danger',
      sure: true,
      words: 'smoke',
    };
    const { state } = fold(script, [opened(1), smoke, answer(2, 'danger!now', 'yes')]);
    expect(state.signs).toContain('danger');
    expect(state.floor).toBe(state.number);
  });

  test('an answer for another question than the open one changes nothing', () => {
    const before = fold(script, [opened(1)]).state;
    const after = fold(script, [opened(1), answer(1, 'where', 'here')]).state;
    expect(after).toEqual(before);
  });

  test('starting again withdraws what was said and keeps it in the history', () => {
    const entries: Entry[] = [
      opened(1),
      answer(1, 'noise', 'hum'),
      { kind: 'always', what: 'again', words: 'again', at: 3 },
    ];
    expect(fold(script, entries).state.frames).toEqual([]);
    expect(standing(entries)).toEqual([]);
    expect(entries).toHaveLength(3);
  });
});
