import { expect, test } from 'vitest';
import { WORKINGS } from '#workings/all.ts';
import { fuzz } from './fuzz.ts';

// Some for each here; `npm run fuzz` does a million.
test.each(Object.entries(fuzz(700 * WORKINGS.length, 1)))(
  'whatever %s is given, it works it out or says what is expected',
  (_, { worked, refused, wrong }) => {
    expect(wrong).toEqual([]);
    expect(worked).toBeGreaterThan(10);
    expect(refused).toBeGreaterThan(0);
  },
);
