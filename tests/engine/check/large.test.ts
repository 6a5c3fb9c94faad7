import { expect, test } from 'vitest';
import { check } from '#engine/check/check.ts';
import { large } from './large.ts';

test('a flow with 60 steps and twelve findings that still matter at its end is explored to its last path', () => {
  const { compiled, catalogue } = large();
  expect(compiled.problems).toEqual([]);
  expect(compiled.script.main).toHaveLength(60);
  const { paths, longest, broken } = check([compiled], catalogue, { rules: [] });
  // Twelve times: two answers that lead on, and one after which three more can be given.
  expect(paths).toBe((2n + 3n) ** 12n);
  expect(longest).toBe(24);
  expect(broken).toEqual([]);
});

test('one with more than that is refused, and the findings that are kept too long are named', () => {
  const { compiled, catalogue } = large();
  const { broken } = check([compiled], catalogue, { rules: [], mostStates: 1000 });
  expect(broken).toHaveLength(1);
  expect(broken[0]?.message).toMatch(
    /more than 1000 states.*"live-\d+" \(2 values, read last at more-live-\d+\)/,
  );
});
