import { expect, test } from 'vitest';
import { limit } from '#server/limit.ts';

test('a burst goes through, then one after another, and each name apart', () => {
  const calls = limit(3, 2);
  expect([1, 2, 3].map(() => calls.ask('a', 0))).toEqual([0, 0, 0]);
  expect(calls.ask('a', 0)).toBe(500);
  expect(calls.ask('b', 0)).toBe(0);
  expect(calls.ask('a', 499)).toBeGreaterThan(0);
  expect(calls.ask('a', 500)).toBe(0);
  expect(calls.ask('a', 500)).toBe(500);
});

test('being told to wait does not lengthen the wait', () => {
  const calls = limit(1, 1);
  calls.ask('a', 0);
  for (let at = 0; at < 1000; at += 10) expect(calls.ask('a', at)).toBeGreaterThan(0);
  expect(calls.ask('a', 1000)).toBe(0);
});

test('a clock that goes back frees nobody and holds nobody', () => {
  const calls = limit(1, 1);
  calls.ask('a', 10_000);
  expect(calls.ask('a', 5000)).toBe(1000);
});

test('more names than one can remember: the quiet ones are forgotten, the busy ones are not', () => {
  const calls = limit(1, 0.001);
  calls.ask('busy', 2_000_000);
  for (let name = 0; name < 60_000; name++) calls.ask(`n${name}`, name < 49_000 ? 0 : 2_000_000);
  expect(calls.ask('busy', 2_000_000)).toBeGreaterThan(0);
});
