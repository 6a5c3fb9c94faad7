import { expect, test } from 'vitest';
import { fuzz } from './fuzz.ts';

// A few thousand here; `npm run fuzz` does a million.
test.each(Object.entries(fuzz(4000, 1)))(
  'whatever %s is given, it works it out or says what is expected',
  (_, { worked, refused, wrong }) => {
    expect(wrong).toEqual([]);
    expect(worked).toBeGreaterThan(20);
    expect(refused).toBeGreaterThan(0);
  },
);
