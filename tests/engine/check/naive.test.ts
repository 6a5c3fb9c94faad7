import { describe, expect, it } from 'vitest';
import { agreeOnPaths, agreeOnRules, agreeOnWords } from './agree.ts';

// A few hundred here; `npm run bench:checker` does thousands.
const FLOWS = 150;

describe('the checker and the slow way to the same answer agree on random flows', () => {
  it('on what is wrong with them, by the shortest conversation', () => {
    const { flows, found } = agreeOnRules(FLOWS);
    expect(flows).toBeGreaterThan(FLOWS / 2);
    expect(found).toBeGreaterThan(flows);
  });

  it('on which words nobody ever hears', () => {
    expect(agreeOnWords(2 * FLOWS)).toBeGreaterThan(FLOWS / 2);
  });

  it('on how many ways there are to answer, and how long they are', () => {
    expect(agreeOnPaths(FLOWS)).toBeGreaterThan(FLOWS / 4);
  });
});
