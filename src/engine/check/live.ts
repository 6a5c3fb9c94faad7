/**
 * Which variables still matter at each step. States that agree on these are one state, so that the number of states
 * follows what a flow really decides on and not the number of ways to answer.
 */
import { readsOf } from '#engine/condition.ts';
import { asksAnew } from '#engine/fold.ts';
import type { Question, Script, Step } from '#engine/script.ts';
import { URGENT } from '#engine/state.ts';
import {
  isPolicy,
  type Mode,
  type Need,
  OUTSIDE,
  SET,
  SOME,
  STARTS,
  said,
  setBy,
  starts,
  VALUE,
  type Vars,
  writtenBy,
} from './vars.ts';

export type Live = Map<string, Mode>;

/** What the rules read when a step is open or ends the conversation. */
export type Needs = (step: Step) => readonly Need[];

export interface Segment {
  id: string;
  steps: readonly Step[];
  /** For each step, and for the place after the last, what matters there: pairs in a fixed order. */
  keep: Need[][];
  /** Variables that its steps may set. */
  writes: Set<string>;
  /** What matters at its first step for its own sake. */
  reads: Live;
  /** Findings that are forgotten when it is entered; see `enter` of the fold. */
  forgets: Set<string>;
  /** Of `writes`, what matters after it returns. */
  out: Live;
}

/** Works out what matters, for the flow and for each interrupt. Interrupts come highest rank first, the flow last. */
export function segmentsOf(script: Script, needs: Needs): Map<string, Segment> {
  const interrupts = Object.values(script.interrupts).sort((a, b) => b.about.rank - a.about.rank);
  const always: Live = new Map(
    [...URGENT, ...interrupts.map(({ about }) => about.sign)].map(s => [s, VALUE]),
  );
  const drafts: { segment: Segment; live: Live[]; rank: number }[] = [];
  for (const { id, steps, rank } of [
    ...interrupts.map(({ about, steps }) => ({ id: about.id, steps, rank: about.rank })),
    { id: 'main', steps: script.main, rank: 0 },
  ]) {
    const higher = drafts.filter(draft => draft.rank > rank);
    const base: Live = new Map(always);
    for (const { segment, live } of higher) {
      for (const [variable, mode] of live[0] ?? []) {
        if (!segment.forgets.has(variable)) raise(base, variable, mode);
      }
    }
    const live = liveAt(steps, base, needs);
    const writes = writtenBy(script, steps);
    for (const each of live) for (const variable of each.keys()) if (isPolicy(variable)) writes.add(variable);
    for (const { segment } of higher) for (const variable of segment.writes) writes.add(variable);
    if (id !== 'main') writes.add(said(script.interrupts[id]!.about.caution));
    const forgets = new Set(id === 'main' ? [] : asksAnew(script, id));
    drafts.push({
      segment: { id, steps, keep: [], writes, reads: live[0]!, forgets, out: new Map() },
      live,
      rank,
    });
  }
  for (const { segment, live, rank } of drafts.toReversed()) {
    for (const outer of drafts.filter(other => other.rank < rank)) {
      for (const each of [...outer.live, outer.segment.out]) {
        for (const [variable, mode] of each) {
          if (segment.writes.has(variable)) raise(segment.out, variable, mode);
        }
      }
    }
    segment.keep = live.map(each => {
      const joined: Live = new Map(each);
      for (const [variable, mode] of segment.out) raise(joined, variable, mode);
      return [...joined].sort(([a], [b]) => (a < b ? -1 : 1));
    });
  }
  return new Map(drafts.map(({ segment }) => [segment.id, segment]));
}

function raise(live: Live, variable: string, mode: Mode): void {
  if ((live.get(variable) ?? 0) < mode) live.set(variable, mode);
}

function join(into: Live, from: Live, without?: ReadonlySet<string>): void {
  for (const [variable, mode] of from) if (!without?.has(variable)) raise(into, variable, mode);
}

/** Backwards over the steps: they name later ones only, so one pass is enough. */
function liveAt(steps: readonly Step[], base: Live, needs: Needs): Live[] {
  const places = new Map(steps.map((step, index) => [step.id, index]));
  const live: Live[] = [];
  live[steps.length] = new Map(base);
  for (let at = steps.length - 1; at >= 0; at--) {
    const step = steps[at]!;
    const next = live[at + 1]!;
    const to = (id: string) => live[places.get(id) ?? steps.length]!;
    const here: Live = new Map(base);
    if (step.if !== null) {
      for (const { finding } of readsOf(step.if)) raise(here, finding, VALUE);
      join(here, step.kind === 'gate' ? to(step.else) : next);
    }
    taken(here, step, next, to, needs);
    live[at] = here;
  }
  return live;
}

function taken(here: Live, step: Step, next: Live, to: (id: string) => Live, needs: Needs): void {
  switch (step.kind) {
    case 'hand-over':
    case 'end':
      for (const [variable, mode] of needs(step)) raise(here, variable, mode);
      return;
    case 'caution':
      join(here, next, new Set([said(step.caution)]));
      return;
    case 'ask':
    case 'try':
      question(here, step, next, to, needs);
      return;
    default:
      join(here, next);
  }
}

function question(here: Live, step: Question, next: Live, to: (id: string) => Live, needs: Needs): void {
  const asked: Live = new Map();
  for (const [variable, mode] of needs(step)) raise(asked, variable, mode);
  for (const [answer, then] of Object.entries(step.after)) {
    const after = then.goes ? to(then.goes) : next;
    join(asked, after, new Set(setBy(step, then)));
    if (starts(step, answer) && after.has(STARTS)) raise(asked, STARTS, VALUE);
  }
  join(here, asked, new Set(step.cautions.map(said)));
  if (step.kind === 'ask') {
    raise(here, step.finding, SET);
    join(here, next);
  }
}

/** Forgets what does not matter. */
export function project(vars: Readonly<Vars>, keep: readonly Need[]): Vars {
  const out: Vars = {};
  for (const [variable, mode] of keep) {
    const value = vars[variable];
    if (value !== undefined) out[variable] = mode === SET && value !== OUTSIDE ? SOME : value;
  }
  return out;
}

/** What an interrupt's questions need to know of the conversation they break into; the rest stays as it was outside. */
export function entering(vars: Readonly<Vars>, into: Segment): Vars {
  const out: Vars = {};
  for (const variable of into.out.keys()) if (!into.reads.has(variable)) out[variable] = OUTSIDE;
  for (const [variable, mode] of into.reads) {
    const value = vars[variable];
    if (value !== undefined) out[variable] = mode === SET ? OUTSIDE : value;
  }
  return out;
}

/** The conversation after an interrupt's questions came back to it. */
export function returning(vars: Readonly<Vars>, from: Segment, left: Readonly<Vars>): Vars {
  const out: Vars = { ...vars };
  for (const variable of from.writes) {
    const value = left[variable];
    if (value === OUTSIDE) continue;
    if (value === undefined) delete out[variable];
    else out[variable] = value;
  }
  return out;
}

export function keyOf(vars: Readonly<Vars>, keep: readonly Need[]): string {
  let key = '';
  for (const [variable] of keep) key += `${vars[variable] ?? ''}|`;
  return key;
}
