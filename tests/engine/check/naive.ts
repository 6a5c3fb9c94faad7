/**
 * The same question answered the slow way: every state in full, nothing forgotten and nothing shared, moved on by the
 * fold itself. No part of the checker is used but its rules.
 */
import { advance, openStep, stepsOf } from '#engine/advance.ts';
import { stands } from '#engine/check/conversation.ts';
import { isDesk } from '#engine/check/names.ts';
import type { Ended, Rule, Trouble } from '#engine/check/rule.ts';
import type { View } from '#engine/check/view.ts';
import { segmentSteps } from '#engine/check/written.ts';
import type { Compiled, Origin } from '#engine/compile.ts';
import type { Entry } from '#engine/entries.ts';
import { apply } from '#engine/fold.ts';
import { mayInterrupt } from '#engine/interrupts.ts';
import type { Message } from '#engine/messages.ts';
import type { Question, Script, Step } from '#engine/script.ts';
import { fresh, type State } from '#engine/state.ts';

const NOWHERE: Origin = { unit: '', path: [] };

export interface Naive {
  /** What is wrong (see `nameOf`), with the fewest things said that show it. */
  found: Map<string, number>;
  /** Texts that are said in some conversation. */
  said: Set<string>;
}

/** By rule, place and message. Where a path simply stops, and where a finding is read unset, the place is not compared. */
export const nameOf = (rule: string, { unit, path }: Origin, message: string): string =>
  rule === 'every-path-ends' || rule === 'conditions-set'
    ? `${rule}: ${message}`
    : `${rule} at ${unit} ${path.slice(0, 2).join(' ')}: ${message}`;

/** Null when there are more than `most` states. */
export function naive({ script, origins }: Compiled, rules: readonly Rule[], most: number): Naive | null {
  const steps = new Map(segmentSteps(script).map(step => [step.id, step]));
  const desk = isDesk(script);
  const found = new Map<string, number>();
  const said = new Set<string>();
  const seen = new Set<string>();
  const tell = (rule: Rule, at: string, trouble: Trouble | null | undefined, cost: number) => {
    if (!trouble) return;
    const name = nameOf(rule.name, origins[trouble.step ?? at] ?? NOWHERE, trouble.message);
    if (!found.has(name)) found.set(name, cost);
  };
  const walk = (from: State, open: Question | null, entries: Entry[], cost: number): State | null => {
    const state = copy(from);
    state.findings = new Proxy(state.findings, {
      get: (findings, name: string) => {
        const value = findings[name];
        if (value === undefined) {
          for (const rule of rules) {
            const moment = {
              script,
              desk,
              view: viewOf(state, steps),
              segment: 'main',
              step: script.main[0]!,
              finding: name,
            };
            tell(rule, '', rule.unset?.(moment), cost);
          }
        }
        return value;
      },
    });
    const hear = (messages: readonly Message[]) => {
      for (const message of messages) if (message.kind === 'say') said.add(message.text);
    };
    // The opening: begun just before the first step.
    if (entries.length === 0) hear(advance(script, state));
    for (const [index, entry] of entries.entries()) hear(apply(script, state, entry, state.number + index));
    state.findings = { ...state.findings };
    if (state.outcome === null) return state;
    const ended: Ended = {
      ...{ script, desk, view: viewOf(state, steps), outcome: state.outcome },
      segment: state.frames.at(-1)!.segment,
      ...endingOf(script, state, open, entries[0]),
    };
    for (const rule of rules) tell(rule, ended.step.id, rule.ended?.(ended), cost);
    return null;
  };
  let level = assignments(script).flatMap(start => {
    const state = { ...fresh(start), symptom: script.symptom, frames: [{ segment: 'main', at: 0 }] };
    return [walk(state, null, [], 0)].flatMap(each => each ?? []);
  });
  for (let cost = 0; level.length > 0; cost++) {
    const next: State[] = [];
    for (const state of level) {
      const key = keyOf(state, steps);
      if (seen.has(key)) continue;
      seen.add(key);
      if (seen.size > most) return null;
      const step = openStep(script, state);
      if (step === null) continue;
      const interrupts = Object.keys(script.interrupts).filter(id => mayInterrupt(script, state, id));
      const segment = state.frames.at(-1)!.segment;
      const at = { script, desk, view: viewOf(state, steps), segment, step, interrupts };
      for (const rule of rules) tell(rule, step.id, rule.opened?.(at), cost);
      for (const entries of moves(state, step, interrupts)) {
        next.push(...[walk(state, step, entries, cost + 1)].flatMap(each => each ?? []));
      }
    }
    level = next;
  }
  return { found, said };
}

/** Every value of every policy. */
function assignments({ start, findings }: Script): Record<string, string>[] {
  return Object.keys(findings)
    .filter(name => name.startsWith('policy.') || name.startsWith('verdict.'))
    .reduce(
      (all, name) => all.flatMap(one => findings[name]!.map(value => ({ ...one, [name]: value }))),
      [start],
    );
}

function moves(state: State, step: Question, interrupts: string[]): Entry[][] {
  const at = 0;
  const question = state.number;
  const say = (id: string): Entry => ({
    kind: 'answer',
    at,
    question,
    step: step.id,
    value: stands(step, id),
    words: '',
  });
  const answers = Object.keys(step.after).filter(
    id => id !== 'skipped' || step.kind === 'try' || step.optional,
  );
  const no: Entry = { kind: 'answer', at, question, step: '@doubt', value: { id: 'no' }, words: '' };
  const same: Entry = { kind: 'answer', at, question, step: '@outage', value: { id: 'same' }, words: '' };
  return [
    ...answers.map(id => [say(id)]),
    ...interrupts.flatMap((interrupt): Entry[][] => [
      [{ kind: 'interrupt', at, question, interrupt, sure: true, words: '' }],
      [{ kind: 'interrupt', at, question, interrupt, sure: false, words: '' }, no],
    ]),
    [{ kind: 'always', at, what: 'person', words: '' }],
    [{ kind: 'always', at, what: 'stop', words: '' }],
    [{ kind: 'timer', at, what: 'left' }],
    [{ kind: 'outage', at, outage: 'outage', text: '' }, same],
  ];
}

/** Which step ended it, and by what. */
function endingOf(
  script: Script,
  state: State,
  open: Question | null,
  entry: Entry | undefined,
): Pick<Ended, 'step' | 'by' | 'answer'> {
  const answer = entry?.kind === 'answer' && 'id' in entry.value ? entry.value.id : null;
  if (open !== null && entry !== undefined) {
    if (entry.kind === 'always')
      return { step: open, by: entry.what === 'person' ? 'person' : 'stop', answer };
    if (entry.kind === 'timer') return { step: open, by: 'left', answer };
    if (entry.kind === 'outage') return { step: open, by: 'outage', answer };
    const worked = open.kind === 'try' && answer === 'fixed' && open.after.fixed?.goes === null;
    if (worked) return { step: open, by: 'answer', answer };
  }
  const frame = state.frames.at(-1)!;
  const step = stepsOf(script, frame.segment)[frame.at];
  return step === undefined
    ? { step: script.main.at(-1)!, by: 'nothing', answer }
    : { step, by: 'flow', answer };
}

const filledIn = (state: State, steps: ReadonlyMap<string, Step>): Set<string> =>
  new Set(
    state.answers.flatMap(({ step }) => {
      const asked = steps.get(step);
      return asked?.kind === 'ask' || asked?.kind === 'try' ? asked.fills : [];
    }),
  );

const hasStarted = ({ tried }: State): boolean =>
  tried.some(({ effect, result }) => effect === 'start' && result !== 'could-not');

const viewOf = (state: State, steps: ReadonlyMap<string, Step>): View => ({
  sign: name => state.findings[name] === 'yes',
  is: (name, ...values) => values.includes(state.findings[name] ?? ''),
  isSet: name => state.findings[name] !== undefined,
  policy: name => state.findings[`policy.${name}`],
  said: caution => state.cautions.includes(caution),
  filled: field => filledIn(state, steps).has(field),
  started: () => hasStarted(state),
});

const keyOf = (state: State, steps: ReadonlyMap<string, Step>): string =>
  JSON.stringify([
    state.frames,
    Object.entries(state.findings).sort(([a], [b]) => (a < b ? -1 : 1)),
    state.cautions.toSorted(),
    [...filledIn(state, steps)].sort(),
    hasStarted(state),
  ]);

const copy = (state: State): State => ({
  ...state,
  findings: { ...state.findings },
  frames: state.frames.map(frame => ({ ...frame })),
  answers: [...state.answers],
  tried: [...state.tried],
  evidence: [],
  cautions: [...state.cautions],
  signs: [...state.signs],
  standing: [...state.standing],
  outages: [],
});

/** All ways of answering, one by one, and the fewest and most questions on one. */
export function paths({ script }: Compiled): { paths: bigint; shortest: number; longest: number } {
  let all = 0n;
  let shortest = Number.POSITIVE_INFINITY;
  let longest = 0;
  const walk = (state: State, length: number) => {
    const step = openStep(script, state);
    if (step === null) {
      all += 1n;
      shortest = Math.min(shortest, length);
      longest = Math.max(longest, length);
      return;
    }
    for (const [entry] of moves(state, step, [])) {
      if (entry?.kind !== 'answer') continue;
      const after = copy(state);
      apply(script, after, entry, state.number);
      walk(after, length + 1);
    }
  };
  const first: State = {
    ...fresh(script.start),
    symptom: script.symptom,
    frames: [{ segment: 'main', at: 0 }],
  };
  advance(script, first);
  if (first.outcome === null) walk(first, 0);
  return { paths: all, shortest: all === 0n ? 0 : shortest, longest };
}
