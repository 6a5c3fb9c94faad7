/** How long the proof of the flows takes, how it grows with their number, and whether a flow at the edge still answers. */
import { check } from '#engine/check/check.ts';
import type { Compiled } from '#engine/compile.ts';
import { isDeskTopic } from '#engine/schema.ts';
import { loadLibrary } from '#library/load.ts';
import { large } from '../engine/check/large.ts';
import { say } from './figures.ts';

const { library } = loadLibrary('flows');
if (library === null) throw new Error('the flows do not load');
const { catalogue } = library;
const shipped = Object.values(library.flows).map(({ compiled }) => compiled);

/** Those of the desk, which are quick to prove, so many times over, each worded anew: flows that are alike are proven once. */
const desk = shipped.filter(({ script }) => isDeskTopic(script.symptom));
const times = (count: number): Compiled[] =>
  Array.from({ length: count }, (_, copy) => desk.map(flow => worded(flow, ` (${copy})`))).flat();

function worded({ script, ...rest }: Compiled, more: string): Compiled {
  const main = script.main.map(step => (step.kind === 'ask' ? { ...step, text: step.text + more } : step));
  return { ...rest, script: { ...script, main } };
}

/** Of processor time: what else the machine does counts less. All threads, also those that compile and clear up meanwhile. */
function milliseconds(flows: Compiled[], on = catalogue): number {
  const started = process.cpuUsage();
  check(flows, on);
  const { user, system } = process.cpuUsage(started);
  return (user + system) / 1000;
}

/** By the clock, as whoever waits for it has it. */
function waited(): string {
  const started = performance.now();
  const worked = milliseconds(shipped);
  return `${Math.round(performance.now() - started)} ms by the clock, ${Math.round(worked)} ms of processor time`;
}

say(`proof of all ${shipped.length} flows`, waited());
say('  once more, compiled by then', waited());
say(`states explored for it`, String(check(shipped, catalogue).states));
const once = milliseconds(desk);
for (const count of [10, 100]) {
  const took = milliseconds(times(count));
  say(`${count} times as many flows`, `${(took / once).toFixed(1)} times as long as ${desk.length}`);
}
const { compiled, catalogue: other } = large();
const { states, broken } = check([compiled], other);
say(
  'a flow with 60 steps and 12 findings live at once',
  `${states} states, ${broken.length} broken, ${Math.round(milliseconds([compiled], other))} ms`,
);
