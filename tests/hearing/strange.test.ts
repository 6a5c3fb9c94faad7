import { expect, test } from 'vitest';
import { hearAll } from './ears.ts';
import { strange } from './strange.ts';

test('two thousand strange texts are heard without a crash, and the same way twice', () => {
  for (let number = 0; number < 2000; number++) {
    const text = strange(number);
    const heard = hearAll(text);
    if (number % 50 === 0) expect(hearAll(text)).toEqual(heard);
  }
});
