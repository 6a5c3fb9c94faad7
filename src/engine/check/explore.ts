/**
 * Every state that a conversation can reach: all answers, all policies, interrupts, leaving and stopping, through the
 * engine's own moves. Back and start again come to states reached already. Depth first: once everything behind a state is
 * known, so is everything that can still matter there, and conversations that agree on that share the state from then on.
 * Other flows share the interrupts' states; see shared.ts.
 */
import type { Compiled } from '#engine/compile.ts';
import type { Question, Script, Step } from '#engine/script.ts';
import { both, type Coverage, cover } from './coverage.ts';
import {
  type Arrival,
  type Choice,
  type Cluster,
  type Explored,
  type Eyes,
  type Given,
  Nodes,
} from './exploring.ts';
import { gather } from './gather.ts';
import {
  begin,
  type Edge,
  type Exit,
  type Found,
  lastOf,
  type Move,
  NO_EXITS,
  type Node,
  unexplored,
} from './graph.ts';
import { hear } from './heard.ts';
import { type Asking, doorsAt, lookAt } from './looking.ts';
import type { Fork, Place } from './places.ts';
import { ownOf, type Shared } from './shared.ts';
import { isPolicy, type Space } from './space.ts';
import { pass, type Transition } from './transition.ts';
import {
  agree,
  andThen,
  changed,
  coarse,
  type Mask,
  NO_CHANGE,
  readAlso,
  type Vector,
  withReads,
} from './vectors.ts';
import { ObservedView } from './view.ts';
import { type Way, type Ways, waysAt } from './ways.ts';
import { type Back, isIdle, touches, waysBack } from './ways-back.ts';

export const MOST_STATES = 200_000;

export function explore(compiled: Compiled, shared: Shared, eyes: Eyes, most = MOST_STATES): Explored {
  const explorer = new Explorer(compiled, shared, eyes, most);
  try {
    explorer.run();
    const explored = explorer.result(true);
    hear(compiled, explored.coverage.taken, shared.heard);
    return explored;
  } catch (error) {
    if (error instanceof TooMany) return explorer.result(false);
    throw error;
  }
}

class TooMany extends Error {}

class Explorer {
  readonly #script: Script;
  readonly #eyes: Eyes;
  readonly #most: number;
  readonly #shared: Shared;
  readonly #space: Space;
  readonly #places: readonly Place[];
  readonly #coverage: Coverage;
  readonly #heard: ReadonlySet<string>;
  readonly #ownAsking: Asking;
  readonly #alarmsAsking: Asking;
  readonly #nodes: Node[];
  #starts: Edge[] = [];
  #count = 0;
  #kept = 0;

  constructor(compiled: Compiled, shared: Shared, eyes: Eyes, most: number) {
    this.#script = compiled.script;
    this.#shared = shared;
    this.#eyes = eyes;
    this.#most = most;
    const own = ownOf(compiled, shared);
    this.#heard = own.heard;
    this.#space = own.space;
    this.#places = own.places;
    this.#nodes = own.nodes;
    this.#coverage = own.coverage;
    const { script } = compiled;
    this.#ownAsking = { script, space: own.space, eyes };
    this.#alarmsAsking = { script, space: shared.space, eyes };
  }

  run(): void {
    const { start } = this.#script;
    const known = Object.fromEntries(Object.entries(start).filter(([finding]) => !isPolicy(finding)));
    const from = this.#places[0]!;
    const arrivals = this.#move(from, this.#waysAt(from).goOn, this.#space.vector(known), null);
    this.#starts = arrivals.map(arrival => this.#edge('main', { kind: 'start' }, arrival, null));
  }

  result(complete: boolean): Explored {
    const nodes = new Map([['main', this.#nodes], ...this.#shared.nodes]);
    const coverage = both(this.#coverage, this.#shared.coverage);
    return { space: this.#space, starts: this.#starts, nodes, coverage, states: this.#kept, complete };
  }

  /** Makes a move, once for each value of every policy that is looked at on the way. */
  #move(from: Place, way: Way, vector: Vector, cluster: Cluster | null): Arrival[] {
    const arrivals: Arrival[] = [];
    const choices: Choice[] = [{ given: NOTHING_GIVEN, before: null, writes: NO_CHANGE, vector }];
    for (let choice = choices.pop(); choice !== undefined; choice = choices.pop()) {
      const { given, before, writes } = choice;
      const passed = this.#pass(from, way, choice.vector);
      const reads = before === null ? passed.reads : withReads(before, passed.reads, writes);
      let { undecided } = passed;
      let read = reads;
      if (undecided === null) {
        const landing = way.act.kind === 'enter' ? way.act.interrupt : from.segment;
        const after = changed(choice.vector, passed.writes);
        const all = andThen(writes, passed.writes);
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
        const taken = this.#spaceIn(from.segment).change(new Map([[undecided, code]]));
        choices.push({
          given: { ...given, [name]: this.#space.value(undecided, code)! },
          before: read,
          writes: andThen(writes, taken),
          vector: changed(choice.vector, taken),
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

  #asking({ segment }: Place): Asking {
    return segment === 'main' ? this.#ownAsking : this.#alarmsAsking;
  }

  #waysAt(place: Place): Ways {
    place.ways ??= waysAt(place.step, this.#script, this.#spaceIn(place.segment));
    return place.ways;
  }

  #pass(from: Place, { act, passes }: Way, vector: Vector): Transition {
    const known = passes.find(vector);
    if (known !== undefined) return known;
    const coverage = from.segment === 'main' ? this.#coverage : this.#shared.coverage;
    const heard = ({ id }: Step) => coverage.taken.has(id) || this.#heard.has(id);
    const { segment, at } = from;
    const passed = pass(this.#script, this.#spaceIn(segment), vector, segment, at, act, heard);
    passes.add(vector, passed.reads, passed);
    if (passed.undecided === null) {
      for (const { step, taken } of passed.seen) cover(coverage, step, taken);
      // Thousands are remembered, and nobody asks for this again.
      passed.seen = [];
    }
    return passed;
  }

  /** The state at this question, explored with everything behind it unless that is going on already. */
  #arrive(place: Place, full: Vector, cluster: Cluster | null): Node | Fork {
    const vector = coarse(full, place.kept);
    const here = cluster?.place === place ? cluster : null;
    const known = here?.nodes.find(vector) ?? place.states.find(vector);
    if (known !== undefined) return known;
    const node = this.#open(place, vector);
    if ('policy' in node) {
      place.states.add(vector, node.reads, node);
      return node;
    }
    if (here === null) {
      this.#solve({ place, nodes: new Nodes(node), ahead: [node], begun: [], taken: [], idle: [] });
      return node.same ?? node;
    }
    here.nodes.add(node, place.kept.mask);
    here.ahead.push(node);
    return node;
  }

  #open(place: Place, vector: Vector): Node | Fork {
    const look = lookAt(place, vector, this.#asking(place));
    if ('policy' in look) return look;
    const { segment, at } = place;
    return unexplored({ ...look, segment, at, step: place.step as Question, vector });
  }

  #solve(cluster: Cluster): void {
    const { place, ahead, begun } = cluster;
    for (let news = true; news; news = this.#apart(cluster)) {
      for (let node = ahead.pop(); node !== undefined; node = ahead.pop()) {
        const { vector } = node;
        node.same = begun.find(other => agree(vector, other.vector, other.reads)) ?? null;
        if (node.same === null) this.#expand(node, cluster);
        else cluster.taken.push(node);
      }
      this.#gather(cluster);
    }
    const kept = place.segment === 'main' ? this.#nodes : this.#shared.nodes.get(place.segment)!;
    for (const node of begun) {
      const other = place.states.find(node.vector);
      if (other !== undefined && !('policy' in other)) {
        node.same = other;
      } else {
        place.states.add(node.vector, node.reads, node);
        node.number = kept.push(node) - 1;
        this.#kept += 1;
      }
    }
    for (const node of cluster.taken) node.same = node.same!.same ?? node.same;
    for (const { edges } of begun) {
      for (const edge of edges) {
        edge.to = edge.to?.same ?? edge.to;
        // All that it told of the states before it is gathered.
        edge.reads = NOTHING;
        edge.writes = NO_CHANGE;
      }
    }
  }

  /** More is known of the states by now: what was taken for one of them and is not goes on by itself. Tells whether any does. */
  #apart(cluster: Cluster): boolean {
    const { ahead, begun, taken, idle } = cluster;
    cluster.taken = taken.filter(({ vector, same }) => agree(vector, same!.vector, same!.reads));
    if (cluster.taken.length < taken.length) {
      for (const node of taken) if (!cluster.taken.includes(node)) ahead.push(node);
      // A way out through a state that was taken for another may not be one.
      for (const node of begun) if (node.exits !== NO_EXITS) node.exits = [];
    }
    cluster.idle = idle.filter(({ node, back }) => isIdle(back, node));
    if (cluster.idle.length < idle.length) {
      const still = new Set(cluster.idle);
      for (const each of idle) if (!still.has(each)) this.#comeBack(each.node, each.into, each.back, cluster);
    }
    return cluster.taken.length < taken.length || cluster.idle.length < idle.length;
  }

  #gather({ place, begun }: Cluster): void {
    const outer = this.#outer(place.segment);
    let news = true;
    while (news) {
      const each = begun.map(node => gather(node, outer));
      // A state alone learns nothing from itself.
      news = begun.length > 1 && each.includes(true);
    }
  }

  #expand(node: Node, cluster: Cluster): void {
    this.#count += 1;
    if (this.#count > this.#most) throw new TooMany();
    begin(node);
    const { vector, segment } = node;
    const { place } = cluster;
    const { answers, alarms } = this.#waysAt(place);
    for (const { way, moves } of answers) {
      for (const arrival of this.#move(place, way, vector, cluster)) {
        const edge = this.#edge(segment, moves[0]!, arrival, null);
        node.edges.push(edge);
        if (edge.outcome === null) edge.times = moves.length;
        // At an ending rules look at which answer it was.
        else for (const move of moves.slice(1)) node.edges.push(this.#edge(segment, move, arrival, null));
      }
    }
    node.answers = node.edges.length;
    gather(node, this.#outer(segment));
    cluster.begun.push(node);
    const stay = this.#staying(place, vector);
    for (const interrupt of doorsAt(place, vector, this.#asking(place)).interrupts) {
      const { enter, doubt } = alarms.get(interrupt)!;
      if (doubt !== null) {
        for (const arrival of this.#move(place, doubt, vector, cluster)) {
          node.edges.push(this.#edge(segment, { kind: 'doubt', interrupt }, arrival, null));
        }
      }
      this.#interrupt(node, enter, interrupt, stay, cluster);
    }
  }

  #interrupt(node: Node, enter: Way, interrupt: string, stay: Mask | null, cluster: Cluster): void {
    const { segment, vector } = node;
    const { place } = cluster;
    const move: Move = { kind: 'interrupt', interrupt };
    for (const arrival of this.#move(place, enter, vector, cluster)) {
      const into = this.#edge(interrupt, move, arrival, null);
      if (into.outcome !== null) {
        node.edges.push(into);
        continue;
      }
      node.calls.push({ edge: into, entry: into.to });
      for (const back of waysBack(place, into, this.#outer(segment))) {
        if (!this.#passesBy(node, into, back, stay, cluster)) this.#comeBack(node, into, back, cluster);
      }
    }
  }

  /** What is read by whoever goes on with the open question and is still there. */
  #staying(place: Place, vector: Vector): Mask | null {
    const { at, undecided, unset, reads } = this.#pass(place, this.#waysAt(place).goOn, vector);
    return at === place.at && undecided === null && unset.length === 0 ? reads : null;
  }

  /** Is it as if nothing had been? Then there is nowhere to come back to. */
  #passesBy(node: Node, into: Edge, back: Back, stay: Mask | null, cluster: Cluster): boolean {
    if (!isIdle(back, node)) return false;
    if (stay === null || touches(back, stay)) return false;
    readAlso(node.reads, stay, NO_CHANGE);
    node.aside = Math.max(node.aside, back.exit.most);
    cluster.idle.push({ node, into, back });
    return true;
  }

  /** Out of the interrupt's questions, to the question that they broke into or past it. */
  #comeBack(node: Node, into: Edge, { exit, change, kept }: Back, cluster: Cluster): void {
    const { place } = cluster;
    const after = changed(node.vector, kept);
    for (const arrival of this.#move(place, this.#waysAt(place).goOn, after, cluster)) {
      const edge = this.#edge(node.segment, into.move, arrival, exit);
      edge.reads = withReads(into.reads, edge.reads, change);
      if (edge.given !== NOTHING_GIVEN || into.given !== NOTHING_GIVEN)
        edge.given = { ...into.given, ...edge.given };
      edge.writes = andThen(change, edge.writes);
      node.edges.push(edge);
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
    if (unset.length === 0 && ending === null)
      return { move, times: 1, given, reads, writes, through, to: node, outcome, found: NONE_FOUND };
    const view = new ObservedView(this.#spaceIn(segment), vector);
    const found = unset.flatMap(each => this.#eyes.unset(view, segment, each));
    const answer = move.kind === 'answer' ? move.answer : through === null ? null : lastOf(through);
    if (ending !== null) found.push(...this.#eyes.ended(view, segment, ending, answer));
    const read = withReads(reads, view.reads, writes);
    return { move, times: 1, given, reads: read, writes, through, to: node, outcome, found };
  }
}

const NOTHING: readonly number[] = [];
const NOTHING_GIVEN: Given = {};
const NONE_FOUND: readonly Found[] = [];
