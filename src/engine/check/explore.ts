/**
 * Every state that a conversation can reach: all answers, all policies, interrupts, leaving and stopping, through
 * the engine's own transitions. Back and start again come to states reached already.
 */
import { advance, follow, type Watch } from '#engine/advance.ts';
import { BLANK, end, enter, mayInterrupt } from '#engine/fold.ts';
import { SIGNS } from '#engine/schema.ts';
import type { Question, Script, Step } from '#engine/script.ts';
import { fresh, type State, URGENT } from '#engine/state.ts';
import { type Coverage, cover, nothingYet } from './coverage.ts';
import { costAfter, costBefore, type Exit, type Graph, type Link, type Move, type Node } from './graph.ts';
import { entering, keyOf, type Needs, project, returning, type Segment, segmentsOf } from './live.ts';
import { isPolicy, note, said, type Vars } from './vars.ts';

export const MOST_STATES = 200_000;

/** Told of everything on the way, in the order of how much a person must say to come there. */
export interface Eyes {
  opened(node: Node, interrupts: readonly string[]): void;
  ended(graph: Graph, link: Link, step: Step, by: EndedBy, state: State): void;
  unset(graph: Graph, link: Link, step: Step, finding: string, vars: Readonly<Vars>): void;
}

/** An answer ended it, a step of the flow, nothing (the steps were all passed), or the person at a question. */
export type EndedBy = 'answer' | 'flow' | 'nothing' | 'person' | 'stop' | 'left' | 'outage';

export interface Explored {
  main: Graph;
  /** By interrupt, every set of things known at which its questions were entered. */
  calls: Graph[];
  coverage: Coverage;
  states: number;
  /** False when there were more than `most` states; then nothing is proven. */
  complete: boolean;
}

/** How a person ends a conversation at any question. */
const LEAVING = [
  ['person', 'escalated', 'asked-for-a-person'],
  ['stop', 'left', 'stopped'],
  ['left', 'left', 'left'],
  ['outage', 'known-outage', null],
] as const;

class TooMany extends Error {}

export function explore(script: Script, needs: Needs, eyes: Eyes, most = MOST_STATES): Explored {
  const explorer = new Explorer(script, needs, eyes, most);
  try {
    explorer.run();
    return explorer.result(true);
  } catch (error) {
    if (error instanceof TooMany) return explorer.result(false);
    throw error;
  }
}

/** What one transition came to: the state, and what was seen on the way. */
interface Passed {
  state: State;
  /** The answer itself ended it, before any further step. */
  atOnce: boolean;
  seen: { step: Step; taken: boolean }[];
  unset: { step: Step; finding: string }[];
}

class Explorer {
  readonly #script: Script;
  readonly #needs: Needs;
  readonly #eyes: Eyes;
  readonly #most: number;
  readonly #segments: Map<string, Segment>;
  readonly #interrupts: string[];
  readonly #coverage = nothingYet();
  readonly #calls = new Map<string, Graph>();
  readonly #main: Graph;
  #states = 0;

  constructor(script: Script, needs: Needs, eyes: Eyes, most: number) {
    this.#script = script;
    this.#needs = needs;
    this.#eyes = eyes;
    this.#most = most;
    this.#segments = segmentsOf(script, needs);
    this.#interrupts = Object.keys(script.interrupts);
    this.#main = emptyGraph(this.#segments.get('main')!, null);
  }

  run(): void {
    const { start } = this.#script;
    const known = Object.fromEntries(Object.entries(start).filter(([finding]) => !isPolicy(finding)));
    this.#move(this.#main, null, { kind: 'start' }, known, state => {
      state.frames = [{ segment: 'main', at: 0 }];
    });
    this.#walk(this.#main);
  }

  result(complete: boolean): Explored {
    this.#nearestCallers();
    return {
      main: this.#main,
      calls: [...this.#calls.values()],
      coverage: this.#coverage,
      states: this.#states,
      complete,
    };
  }

  /** Interrupts only break into what ranks lower, so one pass from the flow upwards finds the shortest ways in. */
  #nearestCallers(): void {
    const rank = ({ segment }: Graph) => this.#script.interrupts[segment.id]?.about.rank ?? 0;
    for (const graph of [this.#main, ...this.#calls.values()].sort((a, b) => rank(a) - rank(b))) {
      for (const node of graph.nodes.values()) {
        for (const call of node.calls) {
          if (costBefore(graph) + node.cost + 1 >= costBefore(call)) continue;
          call.caller = { node, move: call.caller!.move, through: null, given: {} };
        }
      }
    }
  }

  /** Nearest states first, so that what is found first is found the shortest way. */
  #walk({ todo }: Graph): void {
    for (let cost = 0; cost < todo.length; cost++) {
      for (const node of todo[cost]!) if (node.cost === cost) this.#expand(node);
    }
  }

  #expand(node: Node): void {
    const { graph, at, step, vars } = node;
    const { id: segment } = graph.segment;
    const probe = this.#state(vars);
    probe.frames = [{ segment, at }];
    const open = this.#interrupts.filter(id => mayInterrupt(this.#script, probe, id));
    this.#eyes.opened(node, open);
    for (const answer of Object.keys(step.after)) {
      if (answer === 'skipped' && step.kind === 'ask' && !step.optional) continue;
      this.#move(graph, node, { kind: 'answer', answer }, vars, state => {
        state.frames = [{ segment, at }];
        follow(this.#script, state, step, answer);
        note(state.findings, step, answer);
      });
    }
    for (const interrupt of open) this.#interrupt(node, interrupt);
    const due = probe.ticketDue;
    for (const [by, how, because] of LEAVING) {
      // With a ticket due, an outage is not offered as the answer; see the fold.
      if (by === 'outage' && due) continue;
      probe.outcome = null;
      end(probe, { ...BLANK, how, because }, 0);
      this.#eyes.ended(graph, { node, move: { kind: 'end', by }, through: null, given: {} }, step, by, probe);
    }
  }

  #interrupt(node: Node, interrupt: string): void {
    const { graph, vars } = node;
    const into = this.#segments.get(interrupt)!;
    const caution = said(this.#script.interrupts[interrupt]!.about.caution);
    const warned = graph.segment.keep[node.at]!.some(([variable]) => variable === caution);
    if (warned && vars[caution] === undefined) {
      this.#arrive(graph, { node, move: { kind: 'doubt', interrupt }, through: null, given: {} }, node.at, {
        ...vars,
        [caution]: 'yes',
      });
    }
    const move: Move = { kind: 'interrupt', interrupt };
    const known = entering(vars, into);
    const key = `${interrupt} ${keyOf(known, into.keep[0]!)}`;
    let called = this.#calls.get(key);
    if (called === undefined) {
      const caller: Link = { node, move, through: null, given: {} };
      called = emptyGraph(into, caller);
      this.#calls.set(key, called);
      this.#move(called, null, move, known, () => {});
      this.#walk(called);
    }
    node.calls.push(called);
    for (const exit of called.exits.values()) {
      this.#move(
        graph,
        node,
        move,
        returning(vars, into, exit.vars),
        state => {
          state.frames = [{ segment: graph.segment.id, at: node.at }];
        },
        exit,
      );
    }
  }

  /** One move, once for each value of every policy that is read on the way. */
  #move(
    graph: Graph,
    node: Node | null,
    move: Move,
    vars: Readonly<Vars>,
    make: (state: State) => void,
    through: Exit | null = null,
  ): void {
    const choices: Vars[] = [{}];
    for (let given = choices.pop(); given !== undefined; given = choices.pop()) {
      const passed = this.#pass(graph, { ...vars, ...given }, move, make);
      const undecided = this.#undecided(graph, passed);
      if (undecided !== undefined) {
        for (const value of this.#script.findings[undecided] ?? [])
          choices.push({ ...given, [undecided]: value });
        continue;
      }
      this.#land(graph, { node, move, through, given }, passed);
    }
  }

  #pass(graph: Graph, vars: Vars, move: Move, make: (state: State) => void): Passed {
    const seen: Passed['seen'] = [];
    const unset: Passed['unset'] = [];
    const watch: Watch = {
      passed: (step, taken) => seen.push({ step, taken }),
      unset: (step, finding) => unset.push({ step, finding }),
    };
    const state = this.#state(vars);
    make(state);
    const atOnce = state.outcome !== null;
    if (move.kind === 'interrupt' && state.frames.length === 0) {
      enter(this.#script, state, graph.segment.id, watch);
    } else if (state.outcome === null) {
      advance(this.#script, state, watch);
    }
    for (const id of state.cautions) state.findings[said(id)] = 'yes';
    return { state, atOnce, seen, unset };
  }

  /** A policy that the flow or a rule reads here and that no value was taken for yet. */
  #undecided(graph: Graph, { state, unset }: Passed): string | undefined {
    const read = unset.find(({ finding }) => isPolicy(finding));
    if (read !== undefined) return read.finding;
    const step = openIn(graph, state);
    if (step === null) return undefined;
    return this.#needs(step).find(([variable]) => isPolicy(variable) && this.#missing(variable, state))?.[0];
  }

  #missing(variable: string, state: State): boolean {
    return state.findings[variable] === undefined && variable in this.#script.findings;
  }

  #land(graph: Graph, link: Link, { state, atOnce, seen, unset }: Passed): void {
    for (const { step, taken } of seen) cover(this.#coverage, step, taken);
    for (const { step, finding } of unset) this.#eyes.unset(graph, link, step, finding, state.findings);
    if (state.outcome !== null) {
      const last = seen.at(-1);
      const step = atOnce ? link.node!.step : (last?.step ?? link.node?.step);
      const ends = last?.taken && (last.step.kind === 'hand-over' || last.step.kind === 'end');
      const by = atOnce ? 'answer' : ends ? 'flow' : 'nothing';
      if (step !== undefined) this.#eyes.ended(graph, link, step, by, state);
      link.node?.edges.push({ link, to: null, outcome: state.outcome, exit: null });
      return;
    }
    const frame = state.frames.at(-1);
    if (frame === undefined) this.#leave(graph, link, state.findings);
    else this.#arrive(graph, link, frame.at, state.findings);
  }

  #arrive(graph: Graph, link: Link, at: number, vars: Readonly<Vars>): void {
    const keep = graph.segment.keep[at]!;
    const kept = project(vars, keep);
    const key = `${at}|${keyOf(kept, keep)}`;
    const cost = costAfter(link);
    let node = graph.nodes.get(key);
    if (node === undefined) {
      this.#states += 1;
      if (this.#states > this.#most) throw new TooMany();
      const step = graph.segment.steps[at] as Question;
      node = { graph, at, step, vars: kept, cost, from: link, edges: [], calls: [] };
      graph.nodes.set(key, node);
      this.#later(node);
    } else if (cost < node.cost) {
      node.cost = cost;
      node.from = link;
      this.#later(node);
    }
    if (link.node === null) graph.roots.push(node);
    else link.node.edges.push({ link, to: node, outcome: null, exit: null });
  }

  #later(node: Node): void {
    const { todo } = node.graph;
    for (let cost = todo.length; cost <= node.cost; cost++) todo.push([]);
    todo[node.cost]!.push(node);
  }

  #leave(graph: Graph, link: Link, vars: Readonly<Vars>): void {
    const keep = graph.segment.keep[graph.segment.steps.length]!;
    const left = project(vars, keep);
    const key = keyOf(left, keep);
    const cost = costAfter(link);
    let exit = graph.exits.get(key);
    if (exit === undefined) {
      exit = { graph, vars: left, cost, from: link };
      graph.exits.set(key, exit);
    } else if (cost < exit.cost) {
      exit.cost = cost;
      exit.from = link;
    }
    link.node?.edges.push({ link, to: null, outcome: null, exit });
  }

  #state(vars: Readonly<Vars>): State {
    const state = fresh(vars);
    state.signs = SIGNS.filter(sign => vars[sign] === 'yes');
    state.ticketDue = URGENT.some(sign => vars[sign] === 'yes');
    return state;
  }
}

const emptyGraph = (segment: Segment, caller: Link | null): Graph => ({
  segment,
  caller,
  roots: [],
  nodes: new Map(),
  exits: new Map(),
  todo: [],
});

/** The question that a transition came to, in this graph's segment. */
function openIn(graph: Graph, state: State): Question | null {
  const frame = state.frames.at(-1);
  if (frame === undefined || state.outcome !== null) return null;
  const step = graph.segment.steps[frame.at];
  return step?.kind === 'ask' || step?.kind === 'try' ? step : null;
}
