/**
 * Every state that a conversation can reach: all answers, all policies, interrupts, leaving and stopping, through the
 * engine's own moves. Back and start again come to states reached already. Depth first: once everything behind a state is
 * known, so is everything that can still matter there, and conversations that agree on that share the state from then on.
 * Other flows share the interrupts' states; see shared.ts.
 */
import { valueAfter } from '#engine/findings.ts';
import type { Question, Script } from '#engine/script.ts';
import { URGENT } from '#engine/state.ts';
import { both, type Coverage, cover } from './coverage.ts';
import { gather } from './gather.ts';
import type { Edge, Exit, Found, Move, Node } from './graph.ts';
import { Memo } from './memo.ts';
import type { Fork, Place } from './places.ts';
import type { Settled } from './settled.ts';
import { ownOf, type Shared } from './shared.ts';
import { isPolicy, type Space, said } from './space.ts';
import { type Act, type Doors, doors, type Ending, pass, type Transition } from './transition.ts';
import {
  coarse,
  type Kept,
  keptOf,
  type Reads,
  readAlso,
  sets,
  type Vector,
  type Write,
  written,
} from './vectors.ts';
import { ObservedView, type View } from './view.ts';

export const MOST_STATES = 200_000;

/** Signs that settle it: this one is handed over. */
const DECIDING = [...URGENT, 'mechanical'] as const;

/** The rules, looking on. What they look at of a state goes through the view and so is part of what matters there. */
export interface Eyes {
  opened(view: View, segment: string, step: Question, interrupts: readonly string[]): Found[];
  ended(view: View, segment: string, ending: Ending, answer: string | null): Found[];
  unset(view: View, segment: string, unset: Transition['unset'][number]): Found[];
}

export interface Explored {
  space: Space;
  /** Moves into the flow's first question, one for each value of policies read before it. */
  starts: Edge[];
  /** States by segment, the flow's own under `main`. */
  nodes: Map<string, Node[]>;
  coverage: Coverage;
  /** That were not known before, from another flow. */
  states: number;
  /** False when there were more than `most` states; then nothing is proven. */
  complete: boolean;
}

export function explore(script: Script, shared: Shared, eyes: Eyes, most = MOST_STATES): Explored {
  const explorer = new Explorer(script, shared, eyes, most);
  try {
    explorer.run();
    return explorer.result(true);
  } catch (error) {
    if (error instanceof TooMany) return explorer.result(false);
    throw error;
  }
}

class TooMany extends Error {}

/** States at one step that interrupts lead round between, explored together. */
interface Cluster {
  place: Place;
  nodes: Map<string, Node>;
  todo: Node[];
}

/** Where a move comes to, with the policies taken for it. */
interface Arrival {
  given: Record<string, string>;
  reads: Reads;
  writes: Write[];
  vector: Vector;
  node: Node | null;
  passed: Transition;
}

class Explorer {
  readonly #script: Script;
  readonly #eyes: Eyes;
  readonly #most: number;
  readonly #shared: Shared;
  readonly #space: Space;
  readonly #places: readonly Place[];
  readonly #settled: Settled;
  readonly #coverage: Coverage;
  readonly #nodes: Node[];
  #starts: Edge[] = [];
  #count = 0;
  #kept = 0;

  constructor(script: Script, shared: Shared, eyes: Eyes, most: number) {
    this.#script = script;
    this.#shared = shared;
    this.#eyes = eyes;
    this.#most = most;
    const own = ownOf(script, shared);
    this.#space = own.space;
    this.#settled = own.settled;
    this.#places = own.places;
    this.#nodes = own.nodes;
    this.#coverage = own.coverage;
  }

  run(): void {
    const { start } = this.#script;
    const known = Object.fromEntries(Object.entries(start).filter(([finding]) => !isPolicy(finding)));
    const from = this.#places[0]!;
    const arrivals = this.#move(from, { kind: 'go-on' }, this.#space.vector(known), null);
    this.#starts = arrivals.map(arrival => this.#edge('main', { kind: 'start' }, arrival, null));
  }

  result(complete: boolean): Explored {
    const nodes = new Map([['main', this.#nodes], ...this.#shared.nodes]);
    const coverage = both(this.#coverage, this.#shared.coverage);
    const states = this.#kept;
    return { space: this.#space, starts: this.#starts, nodes, coverage, states, complete };
  }

  /** Makes a move, once for each value of every policy that is looked at on the way. */
  #move(from: Place, act: Act, vector: Vector, cluster: Cluster | null): Arrival[] {
    const arrivals: Arrival[] = [];
    const choices = [{ given: {}, before: null as Reads | null, writes: [] as Write[], vector }];
    for (let choice = choices.pop(); choice !== undefined; choice = choices.pop()) {
      const { given, before, writes } = choice;
      const passed = this.#pass(from, act, choice.vector);
      const reads = before === null ? passed.reads : withReads(before, passed.reads, writes);
      let { undecided } = passed;
      let read = reads;
      if (undecided === null) {
        const landing = act.kind === 'enter' ? act.interrupt : from.segment;
        const after = written(choice.vector, passed.writes);
        const all = writes.length === 0 ? passed.writes : [...writes, ...passed.writes];
        const place = passed.at === null ? null : this.#placesIn(landing)[passed.at]!;
        const found = place === null ? null : this.#arrive(place, after, cluster);
        if (found === null || !('policy' in found)) {
          arrivals.push({ given, reads, writes: all, vector: after, node: found, passed });
          continue;
        }
        read = withReads(reads, found.reads, all);
        undecided = found.policy;
      }
      const name = this.#space.names[undecided]!;
      for (const code of this.#space.values(undecided)) {
        const taken: Write = [undecided, code];
        choices.push({
          given: { ...given, [name]: this.#space.value(undecided, code)! },
          before: read,
          writes: [...writes, taken],
          vector: written(choice.vector, [taken]),
        });
      }
    }
    return arrivals;
  }

  #placesIn(segment: string): readonly Place[] {
    return segment === 'main' ? this.#places : this.#shared.places.get(segment)!;
  }

  /** What is kept of a conversation there: of the flow's own findings nothing, while an interrupt's questions are asked. */
  #spaceIn(segment: string): Space {
    return segment === 'main' ? this.#space : this.#shared.space;
  }

  #pass(from: Place, act: Act, vector: Vector): Transition {
    const what = 'answer' in act ? act.answer : `${act.kind} ${'interrupt' in act ? act.interrupt : ''}`;
    const memo = from.passes.get(what) ?? new Memo<Transition>();
    from.passes.set(what, memo);
    const known = memo.find(vector);
    if (known !== undefined) return known;
    const passed = pass(this.#script, this.#spaceIn(from.segment), vector, from.segment, from.at, act);
    memo.add(vector, passed.reads, passed);
    if (passed.undecided === null) {
      const coverage = from.segment === 'main' ? this.#coverage : this.#shared.coverage;
      for (const { step, taken } of passed.seen) cover(coverage, step, taken);
    }
    return passed;
  }

  /** The state at this question, explored with everything behind it unless that is going on already. */
  #arrive(place: Place, full: Vector, cluster: Cluster | null): Node | Fork {
    const vector = coarse(full, place.kept);
    const known = place.states.find(vector);
    if (known !== undefined) return known;
    if (place.segment === 'main' && this.#settled.standIn(place.at, vector)) {
      const same = place.states.find(vector);
      if (same !== undefined) return same;
    }
    const here = cluster?.place === place ? cluster : null;
    const key = String.fromCharCode(...vector);
    const going = here?.nodes.get(key);
    if (going !== undefined) return going;
    const node = this.#look(place, vector);
    if ('policy' in node) {
      place.states.add(vector, node.reads, node);
      return node;
    }
    const own: Cluster = here ?? { place, nodes: new Map(), todo: [] };
    own.nodes.set(key, node);
    own.todo.push(node);
    if (here === null) this.#solve(own);
    return node.same ?? node;
  }

  /** What the rules say to the open question. */
  #look(place: Place, vector: Vector): Node | Fork {
    const { segment, at } = place;
    const step = place.step as Question;
    const { reads, interrupts, endings } = this.#doorsAt(place, vector);
    const view = new ObservedView(this.#spaceIn(segment), vector, reads.slice());
    const found = this.#eyes.opened(view, segment, step, interrupts);
    if (view.undecided !== null) return { policy: view.undecided, reads: view.reads };
    const leaving = endings.flatMap((ending): Edge[] => {
      const minded = this.#eyes.ended(view, segment, ending, null);
      if (minded.length === 0) return [];
      const move: Move = { kind: 'end', by: ending.by as Extract<Move, { kind: 'end' }>['by'] };
      const edge = { move, given: {}, reads: [], writes: [], through: null, to: null };
      return [{ ...edge, outcome: ending.outcome, found: minded }];
    });
    this.#count += 1;
    if (this.#count > this.#most) throw new TooMany();
    const decided = DECIDING.some(sign => view.sign(sign));
    const near = { cost: Number.POSITIVE_INFINITY, node: null, edge: null };
    return {
      ...{ segment, at, step, vector, reads: view.reads, decided, found, leaving, near },
      ...{ edges: [], calls: [], exits: new Map(), same: null },
    };
  }

  #doorsAt(place: Place, vector: Vector): Doors {
    const known = place.doors.find(vector);
    if (known !== undefined) return known;
    const space = this.#spaceIn(place.segment);
    const found = doors(this.#script, space, vector, place.segment, place.at, place.step as Question);
    place.doors.add(vector, found.reads, found);
    return found;
  }

  #solve(cluster: Cluster): void {
    const { place, todo } = cluster;
    for (let node = todo.pop(); node !== undefined; node = todo.pop()) this.#expand(node, cluster);
    const nodes = [...cluster.nodes.values()];
    const outer = this.#outer(place.segment);
    let news = true;
    while (news) {
      const each = nodes.map(node => gather(node, outer));
      // A state alone learns nothing from itself.
      news = nodes.length > 1 && each.includes(true);
    }
    const kept = place.segment === 'main' ? this.#nodes : this.#shared.nodes.get(place.segment)!;
    for (const node of nodes) {
      const other = place.states.find(node.vector);
      if (other !== undefined && !('policy' in other)) {
        node.same = other;
      } else {
        place.states.add(node.vector, node.reads, node);
        kept.push(node);
        this.#kept += 1;
      }
    }
    for (const node of nodes) for (const edge of node.edges) edge.to = edge.to?.same ?? edge.to;
  }

  #expand(node: Node, cluster: Cluster): void {
    const { step, vector, segment } = node;
    const { place } = cluster;
    for (const [first, ...alike] of this.#answersAt(place, step)) {
      for (const arrival of this.#move(place, { kind: 'answer', step, answer: first! }, vector, cluster)) {
        const edge = this.#edge(segment, { kind: 'answer', answer: first! }, arrival, null);
        node.edges.push(edge);
        for (const answer of alike) {
          const move: Move = { kind: 'answer', answer };
          // At an ending rules look at which answer it was.
          node.edges.push(
            edge.outcome === null ? { ...edge, move } : this.#edge(segment, move, arrival, null),
          );
        }
      }
    }
    for (const interrupt of this.#doorsAt(place, vector).interrupts)
      this.#interrupt(node, interrupt, cluster);
  }

  /** Answers, together where they lead to the same: most questions of where and who do not tell them apart. */
  #answersAt(place: Place, step: Question): string[][] {
    place.answers ??= alikeAnswers(step, this.#spaceIn(place.segment));
    return place.answers;
  }

  #interrupt(node: Node, interrupt: string, cluster: Cluster): void {
    const { segment, vector } = node;
    const { place } = cluster;
    const { caution } = this.#script.interrupts[interrupt]!.about;
    if (this.#space.place(said(caution)) !== undefined) {
      for (const arrival of this.#move(place, { kind: 'warn', interrupt, caution }, vector, cluster)) {
        node.edges.push(this.#edge(segment, { kind: 'doubt', interrupt }, arrival, null));
      }
    }
    const move: Move = { kind: 'interrupt', interrupt };
    for (const arrival of this.#move(place, { kind: 'enter', interrupt }, vector, cluster)) {
      const into = this.#edge(interrupt, move, arrival, null);
      if (into.outcome !== null) {
        node.edges.push(into);
        continue;
      }
      node.calls.push({ edge: into, entry: into.to });
      const exits = into.to === null ? [backAtOnce(into)] : [...into.to.exits.values()];
      const outer = this.#outer(segment);
      for (const exit of thatMatter(exits, into, node, place.kept, outer)) {
        this.#comeBack(node, into, exit, cluster);
      }
    }
  }

  /** Out of the interrupt's questions, to the question that they broke into or past it. */
  #comeBack(node: Node, into: Edge, exit: Exit, cluster: Cluster): void {
    const before = [...into.writes, ...exit.writes];
    for (const arrival of this.#move(
      cluster.place,
      { kind: 'go-on' },
      written(node.vector, before),
      cluster,
    )) {
      const edge = this.#edge(node.segment, into.move, arrival, exit);
      const reads = withReads(into.reads, edge.reads, before);
      const given = { ...into.given, ...edge.given };
      node.edges.push({ ...edge, given, reads, writes: [...before, ...edge.writes] });
    }
  }

  /** Nothing is read after the flow's own questions. */
  #outer(segment: string): readonly number[] {
    return segment === 'main' ? NOTHING : this.#shared.outer.get(segment)!;
  }

  #edge(segment: string, move: Move, arrival: Arrival, through: Exit | null): Edge {
    const { given, reads, writes, node, passed, vector } = arrival;
    const { unset, ending } = passed;
    const outcome = ending?.outcome ?? null;
    const edge: Edge = { move, given, reads, writes, through, to: node, outcome, found: [] };
    if (unset.length === 0 && ending === null) return edge;
    const view = new ObservedView(this.#spaceIn(segment), vector);
    for (const each of unset) edge.found.push(...this.#eyes.unset(view, segment, each));
    const answer = move.kind === 'answer' ? move.answer : null;
    if (ending !== null) edge.found.push(...this.#eyes.ended(view, segment, ending, answer));
    edge.reads = withReads(reads, view.reads, writes);
    return edge;
  }
}

/** Of what somebody tried, each result stays alone: one may have started the drive. */
function alikeAnswers(step: Question, space: Space): string[][] {
  const finding = space.place(step.finding);
  const groups = new Map<string, string[]>();
  for (const [answer, then] of Object.entries(step.after)) {
    if (answer === 'skipped' && step.kind === 'ask' && !step.optional) continue;
    const code = finding === undefined ? 0 : space.code(finding, valueAfter(step, answer));
    const alone = step.kind === 'try' ? answer : '';
    const key = JSON.stringify([code, alone, then.goes, then.raises, then.clears, then.sets]);
    groups.set(key, [...(groups.get(key) ?? []), answer]);
  }
  return [...groups.values()];
}

const NOTHING: readonly number[] = [];

/** An interrupt without a question of its own. */
const backAtOnce = (edge: Edge): Exit => ({ writes: [], cost: 0, most: 0, edge, next: null });

/**
 * Of the ways back to the question, those that change something there or (within another interrupt) further out: one for
 * each change, the shortest. A way that changes nothing comes back to the same state.
 */
function thatMatter(
  exits: readonly Exit[],
  into: Edge,
  { vector }: Node,
  kept: Kept,
  outer: readonly number[],
): Exit[] {
  const best = new Map<string, Exit>();
  const add = (key: string, [place, code]: Write) => {
    if (outer[place] === 1) return `${key}${place}:${code} `;
    const stands = keptOf(kept[place] ?? NOTHING, code);
    return vector[place] === stands ? key : `${key}${place}:${stands} `;
  };
  for (const exit of exits) {
    const before = into.writes.filter(([place]) => !sets(exit.writes, place));
    const key = [before, exit.writes].flat().reduce(add, '');
    if (key === '') continue;
    const other = best.get(key);
    if (other === undefined) best.set(key, exit);
    else best.set(key, { ...(exit.cost < other.cost ? exit : other), most: Math.max(exit.most, other.most) });
  }
  return [...best.values()];
}

function withReads(reads: Reads, more: Reads, writes: readonly Write[]): Reads {
  const all = reads.slice();
  readAlso(all, more, writes);
  return all;
}
