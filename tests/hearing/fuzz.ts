/**
 * A million strange texts through everything that hears, typed and as read off a picture: `npm run hearing:fuzz [-- HOW_MANY [FIRST]]`, in batches of a hundred thousand.
 * Fails when one throws, is heard otherwise the second time, or takes over 50 ms of the processor five times running: once may be other work.
 */
import { isDeepStrictEqual } from 'node:util';
import { hearAll, seeAll } from './ears.ts';
import { strange } from './strange.ts';

const SLOW = 50;
const BATCH = 100_000;
const AGAIN = 1000;
const TIMES = 5;
const many = Number(process.argv[2] ?? 1_000_000);
const first = Number(process.argv[3] ?? 0);

/** Milliseconds of the processor, so that a busy machine is not held against a text. */
const timed = (text: string): number => Math.max(took(hearAll, text), took(seeAll, text));
function took(does: (text: string) => unknown, text: string): number {
  const from = process.cpuUsage();
  does(text);
  const { user, system } = process.cpuUsage(from);
  return (user + system) / 1000;
}

let worst = 0;
let failed = 0;
const from = performance.now();
for (let warm = 0; warm < 500; warm++) hearAll(strange(-1 - warm));
for (let number = first; number < first + many; number++) {
  const text = strange(number);
  try {
    let least = timed(text);
    for (let again = 1; again < TIMES && least > SLOW; again++) least = Math.min(least, timed(text));
    worst = Math.max(worst, least);
    if (least > SLOW) throw new Error(`takes ${least.toFixed(0)} ms, with ${text.length} characters`);
    if (number % AGAIN === 0 && !isDeepStrictEqual(hearAll(text), hearAll(text)))
      throw new Error('is heard otherwise the second time');
  } catch (error) {
    failed++;
    console.log(`text ${number}: ${error instanceof Error ? error.message : error}`);
  }
  if ((number + 1 - first) % BATCH === 0)
    console.log(
      `${number + 1 - first} texts, ${((performance.now() - from) / 1000).toFixed(0)} s, longest ${worst.toFixed(1)} ms`,
    );
}
console.log(`${many} texts from ${first}: ${failed} failed, longest ${worst.toFixed(1)} ms`);
process.exitCode = failed > 0 ? 1 : 0;
