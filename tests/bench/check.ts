/** How long the proof of the flows takes, how it grows with their number, and whether a flow at the edge still answers. */
import { check } from '#engine/check/check.ts';
import type { Compiled } from '#engine/compile.ts';
import { loadLibrary } from '#library/load.ts';
import { large } from '../engine/check/large.ts';
import { say } from './figures.ts';

const { library } = loadLibrary('flows');
if (library === null) throw new Error('the flows do not load');
const { catalogue } = library;
const shipped = Object.values(library.flows).map(({ compiled }) => compiled);

/** The same flows so many times over, as if each were another's. */
const times = (count: number): Compiled[] => Array.from({ length: count }, () => shipped).flat();

function milliseconds(flows: Compiled[]): number {
  const started = performance.now();
  check(flows, catalogue);
  return performance.now() - started;
}

say(
  `proof of all ${shipped.length} flows, first time in the process`,
  `${Math.round(milliseconds(shipped))} ms`,
);
const once = milliseconds(shipped);
say('the same, once the engine is warm', `${Math.round(once)} ms`);
for (const count of [10, 100]) {
  const took = milliseconds(times(count));
  say(`${count} times as many flows`, `${(took / once).toFixed(1)} times as long`);
}
const { compiled, catalogue: other } = large();
const started = performance.now();
const { states, broken } = check([compiled], other);
say(
  'a flow with 60 steps and 12 findings live at once',
  `${states} states, ${broken.length} broken, ${Math.round(performance.now() - started)} ms`,
);
