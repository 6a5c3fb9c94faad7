import { expect, test } from 'vitest';
import { loadKept } from '#library/kept.ts';
import { factsHeard } from './facts.ts';

const { library } = loadKept('flows');
if (library === null) throw new Error('the flows do not load');
const { openings, said, right, heard, wrong } = factsHeard(library);

test('at most three in a hundred of the facts that are taken from an opening were not said', () => {
  expect(openings).toBeGreaterThanOrEqual(300);
  expect(right / heard, wrong.join('\n')).toBeGreaterThanOrEqual(0.97);
});

test('most of what an opening says is not asked again', () => {
  expect(right / said).toBeGreaterThanOrEqual(0.9);
});
