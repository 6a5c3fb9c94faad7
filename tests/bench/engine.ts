/** Pure steps per second: the engine against xstate making the same transitions, in one run. */
import { initialTransition, transition } from 'xstate';
import { openStep } from '#engine/advance.ts';
import type { Entry } from '#engine/entries.ts';
import { apply } from '#engine/fold.ts';
import type { Script } from '#engine/script.ts';
import { fresh } from '#engine/state.ts';
import { loadLibrary } from '#library/load.ts';
import { median, say } from './figures.ts';
import { twinOf } from './xstate-twin.ts';

const opened: Entry = {
  kind: 'opened',
  at: 0,
  words: '',
  symptom: 'any',
  script: 'h',
  candidates: [],
  waiting: {},
  screen: null,
};

/** Answers by position, so that both take the same way. */
function walk(script: Script, picks: number[]): { path: string[]; entries: Entry[] } {
  const state = fresh(script.start);
  const entries: Entry[] = [opened];
  apply(script, state, opened, 0);
  const path: string[] = [];
  for (const pick of picks) {
    const step = openStep(script, state);
    if (step === null) break;
    const keys = Object.keys(step.after);
    const answer = keys[pick % keys.length]!;
    path.push(`${step.id}/${answer}`);
    const value =
      step.answers.length > 0
        ? { id: answer }
        : answer === 'given'
          ? { text: 'words' }
          : { skipped: true as const };
    const entry: Entry = {
      kind: 'answer',
      at: 0,
      question: state.number,
      step: step.id,
      value,
      words: answer,
    };
    entries.push(entry);
    apply(script, state, entry, entries.length - 1);
  }
  return { path, entries };
}

export function engine(): void {
  const { library } = loadLibrary('flows');
  const script = library!.flows['boot-no-device']!.script;
  const machine = twinOf(script);
  let seed = 7;
  const walks = Array.from({ length: 400 }, () =>
    walk(
      script,
      Array.from({ length: 25 }, () => {
        seed = (Math.imul(seed, 1103515245) + 12345) >>> 0;
        return seed >>> 16;
      }),
    ),
  ).filter(({ path }) => !path.some(step => /\/(skipped)$/.test(step) && !optional(script, step)));
  const steps = walks.reduce((sum, { path }) => sum + path.length, 0);
  const ours: number[] = [];
  const theirs: number[] = [];
  for (let round = 0; round < 7; round++) {
    ours.push(timed(() => walks.forEach(each => void runOurs(script, each.entries))));
    theirs.push(timed(() => walks.forEach(each => void runTwin(machine, each.path))));
  }
  for (const { entries, path } of walks.slice(0, 50)) {
    const at = openStep(script, runOurs(script, entries))?.id ?? null;
    const twin = runTwin(machine, path) as { value: string; status: string };
    const there = twin.status === 'done' ? null : script.main[Number(String(twin.value).slice(1))]?.id;
    if (at !== there) throw new Error(`the two differ after ${path.join(' ')}: ${at} and ${there}`);
  }
  const [mine, other] = [steps / median(ours), steps / median(theirs)];
  say(
    'pure steps a second',
    `${Math.round(mine * 1000)} against ${Math.round(other * 1000)} by xstate: ${(mine / other).toFixed(1)} times`,
  );
}

const optional = (script: Script, step: string) => {
  const found = script.main.find(({ id }) => step.startsWith(`${id}/`));
  return found?.kind === 'ask' && found.optional;
};

function runOurs(script: Script, entries: Entry[]) {
  const state = fresh(script.start);
  entries.forEach((entry, index) => void apply(script, state, entry, index));
  return state;
}

function runTwin(machine: ReturnType<typeof twinOf>, path: string[]) {
  let [snapshot] = initialTransition(machine);
  for (const type of path) [snapshot] = transition(machine, snapshot, { type } as never);
  return snapshot;
}

function timed(work: () => void): number {
  const started = performance.now();
  work();
  return performance.now() - started;
}
