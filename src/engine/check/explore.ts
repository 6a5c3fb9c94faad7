/**
 * Every state that a conversation can reach: all answers, all policies, interrupts, leaving and stopping, through the
 * engine's own moves. Back and start again come to states reached already. Depth first: once everything behind a state is
 * known, so is everything that can still matter there, and conversations that agree on that share the state from then on.
 */
import type { Question, Script } from '#engine/script.ts';
import { URGENT } from '#engine/state.ts';
import { type Coverage, cover, nothingYet } from './coverage.ts';
import { costOf, type Edge, type Exit, type Found, type Move, type Node } from './graph.ts';
import { type Live, liveIn } from './live.ts';
import { Memo } from './memo.ts';
import { isPolicy, Space, said, type Vector, type Write } from './space.ts';
import { type Act, type Doors, doors, type Ending, pass, type Transition } from './transition.ts';
import { View } from './view.ts';

/** Signs that settle it: this one is handed over. */
const DECIDING = [...URGENT, 'mechanical'] as const;

export const MOST_STATES = 200_000;

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
  states: number;
  /** False when there were more than `most` states; then nothing is proven. */
  complete: boolean;
}

export function explore(script: Script, eyes: Eyes, most = MOST_STATES): Explored {
  const explorer = new Explorer(script, eyes, most);
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
  segment: string;
  at: number;
  nodes: Map<string, Node>;
  todo: Node[];
}

/** A question at which a rule looks at a policy that has no value yet. */
interface Fork {
  policy: number;
  reads: Uint8Array;
}

/** Where a move comes to, with the policies taken for it. */
interface Arrival {
  given: Record<string, string>;
  reads: Uint8Array;
  writes: Write[];
  node: Node | null;
  passed: Transition;
  vector: Vector;
}

class Explorer {
  readonly #script: Script;
  readonly #eyes: Eyes;
  readonly #most: number;
  readonly #space: Space;
  /** By segment and step: 1 for a variable that can still be read. */
  readonly #live = new Map<string, Uint8Array[]>();
  /** By interrupt: 1 for a variable that can be read after its questions. */
  readonly #outer = new Map<string, Uint8Array>();
  readonly #coverage = nothingYet();
  readonly #passes = new Map<string, Memo<Transition>>();
  readonly #doors = new Map<string, Memo<Doors>>();
  readonly #states = new Map<string, Memo<Node | Fork>>();
  readonly #nodes = new Map<string, Node[]>();
  #starts: Edge[] = [];
  #count = 0;

  constructor(script: Script, eyes: Eyes, most: number) {
    this.#script = script;
    this.#eyes = eyes;
    this.#most = most;
    this.#space = new Space(script);
    const mask = (live: Live) =>
      Uint8Array.from(this.#space.names, name =>
        name in script.findings && !this.#space.isWatched(name) && !live.has(name) ? 0 : 1,
      );
    for (const [segment, live] of liveIn(script)) {
      this.#nodes.set(segment, []);
      this.#live.set(segment, live.map(mask));
    }
    const rank = (segment: string) => script.interrupts[segment]?.about.rank ?? 0;
    for (const segment of this.#live.keys()) {
      const outer = [...this.#live]
        .filter(([other]) => rank(other) < rank(segment))
        .flatMap(([, masks]) => masks);
      this.#outer.set(
        segment,
        Uint8Array.from(this.#space.names, (_, place) => Math.max(0, ...outer.map(m => m[place]!))),
      );
    }
  }

  run(): void {
    const { start } = this.#script;
    const known = Object.fromEntries(Object.entries(start).filter(([finding]) => !isPolicy(finding)));
    const arrivals = this.#move('main', 0, { kind: 'go-on' }, this.#space.vector(known), null);
    this.#starts = arrivals.map(arrival => this.#edge('main', { kind: 'start' }, arrival, null));
  }

  result(complete: boolean): Explored {
    return {
      space: this.#space,
      starts: this.#starts,
      nodes: this.#nodes,
      coverage: this.#coverage,
      states: [...this.#nodes.values()].reduce((sum, { length }) => sum + length, 0),
      complete,
    };
  }

  /** Makes a move, once for each value of every policy that is looked at on the way. */
  #move(segment: string, at: number, act: Act, from: Vector, cluster: Cluster | null): Arrival[] {
    const arrivals: Arrival[] = [];
    const choices: Omit<Arrival, 'node' | 'passed'>[] = [
      { given: {}, reads: new Uint8Array(this.#space.size), writes: [], vector: from },
    ];
    for (let choice = choices.pop(); choice !== undefined; choice = choices.pop()) {
      const passed = this.#pass(segment, at, act, choice.vector);
      readAlso(choice.reads, passed.reads, choice.writes);
      let undecided = passed.undecided;
      const { given, reads } = choice;
      if (undecided === null) {
        const landing = act.kind === 'enter' ? act.interrupt : segment;
        const vector = written(choice.vector, passed.writes);
        const writes = [...choice.writes, ...passed.writes];
        const found = passed.at === null ? null : this.#arrive(landing, passed.at, vector, cluster);
        if (found === null || !('policy' in found)) {
          arrivals.push({ given, reads, writes, vector, node: found, passed });
          continue;
        }
        readAlso(reads, found.reads, writes);
        undecided = found.policy;
      }
      const name = this.#space.names[undecided]!;
      for (const code of this.#space.values(undecided)) {
        choices.push({
          given: { ...given, [name]: this.#space.value(undecided, code)! },
          reads: reads.slice(),
          writes: [...choice.writes, [undecided, code]],
          vector: written(choice.vector, [[undecided, code]]),
        });
      }
    }
    return arrivals;
  }

  #pass(segment: string, at: number, act: Act, vector: Vector): Transition {
    const what =
      act.kind === 'go-on'
        ? ''
        : act.kind === 'answer'
          ? act.answer
          : act.kind === 'enter'
            ? act.interrupt
            : act.caution;
    const memo = memoAt(this.#passes, `${segment} ${at} ${act.kind} ${what}`);
    const known = memo.find(vector);
    if (known !== undefined) return known;
    const passed = pass(this.#script, this.#space, vector, segment, at, act);
    memo.add(vector, passed.reads, passed);
    if (passed.undecided === null) {
      for (const { step, taken } of passed.seen) cover(this.#coverage, step, taken);
    }
    return passed;
  }

  /** The state at this question, explored with everything behind it unless that is going on already. */
  #arrive(segment: string, at: number, full: Vector, cluster: Cluster | null): Node | Fork {
    const memo = memoAt(this.#states, `${segment} ${at}`);
    const vector = masked(full, this.#live.get(segment)![at]!);
    const known = memo.find(vector);
    if (known !== undefined) return known;
    const here = cluster !== null && cluster.segment === segment && cluster.at === at ? cluster : null;
    const key = String.fromCharCode(...vector);
    const going = here?.nodes.get(key);
    if (going !== undefined) return going;
    const node = this.#look(segment, at, vector);
    if ('policy' in node) {
      memo.add(vector, node.reads, node);
      return node;
    }
    const own: Cluster = here ?? { segment, at, nodes: new Map(), todo: [] };
    own.nodes.set(key, node);
    own.todo.push(node);
    if (here === null) this.#solve(own);
    return node.same ?? node;
  }

  /** What the rules say to the open question. */
  #look(segment: string, at: number, vector: Vector): Node | Fork {
    const step = this.#steps(segment)[at] as Question;
    const { reads, interrupts, endings } = this.#doorsAt(segment, at, vector, step);
    const view = new View(this.#space, vector, reads.slice());
    const found = this.#eyes.opened(view, segment, step, interrupts);
    if (view.undecided !== null) return { policy: view.undecided, reads: view.reads };
    const leaving = endings.flatMap((ending): Edge[] => {
      const minded = this.#eyes.ended(view, segment, ending, null);
      const move: Move = { kind: 'end', by: ending.by as Extract<Move, { kind: 'end' }>['by'] };
      return minded.length === 0
        ? []
        : [{ ...plain(move, this.#space), outcome: ending.outcome, found: minded }];
    });
    this.#count += 1;
    if (this.#count > this.#most) throw new TooMany();
    const near = { cost: Number.POSITIVE_INFINITY, node: null, edge: null };
    const decided = DECIDING.some(sign => view.sign(sign));
    const node: Node = {
      ...{ decided, segment, at, step, vector, reads: view.reads, found, leaving, near },
      ...{ edges: [], calls: [], exits: new Map(), same: null },
    };
    return node;
  }

  #doorsAt(segment: string, at: number, vector: Vector, step: Question): Doors {
    const memo = memoAt(this.#doors, `${segment} ${at}`);
    const known = memo.find(vector);
    if (known !== undefined) return known;
    const found = doors(this.#script, this.#space, vector, segment, at, step);
    memo.add(vector, found.reads, found);
    return found;
  }

  #solve(cluster: Cluster): void {
    for (let node = cluster.todo.pop(); node !== undefined; node = cluster.todo.pop())
      this.#expand(node, cluster);
    const nodes = [...cluster.nodes.values()];
    const outer = this.#outer.get(cluster.segment)!;
    for (let news = true; news; ) news = nodes.map(node => gather(node, outer)).includes(true);
    const memo = memoAt(this.#states, `${cluster.segment} ${cluster.at}`);
    const kept = this.#nodes.get(cluster.segment)!;
    for (const node of nodes) {
      const other = memo.find(node.vector);
      if (other !== undefined && !('policy' in other)) {
        node.same = other;
      } else {
        memo.add(node.vector, node.reads, node);
        kept.push(node);
      }
    }
    for (const node of nodes) for (const edge of node.edges) edge.to = edge.to?.same ?? edge.to;
  }

  #expand(node: Node, cluster: Cluster): void {
    const { segment, at, step, vector } = node;
    for (const answer of Object.keys(step.after)) {
      if (answer === 'skipped' && step.kind === 'ask' && !step.optional) continue;
      for (const arrival of this.#move(segment, at, { kind: 'answer', step, answer }, vector, cluster)) {
        node.edges.push(this.#edge(segment, { kind: 'answer', answer }, arrival, null));
      }
    }
    for (const interrupt of this.#doorsAt(segment, at, vector, step).interrupts) {
      this.#interrupt(node, interrupt, cluster);
    }
  }

  #interrupt(node: Node, interrupt: string, cluster: Cluster): void {
    const { segment, at, vector } = node;
    const { caution } = this.#script.interrupts[interrupt]!.about;
    if (this.#space.place(said(caution)) !== undefined) {
      for (const arrival of this.#move(segment, at, { kind: 'warn', caution }, vector, cluster)) {
        node.edges.push(this.#edge(segment, { kind: 'doubt', interrupt }, arrival, null));
      }
    }
    const move: Move = { kind: 'interrupt', interrupt };
    for (const arrival of this.#move(segment, at, { kind: 'enter', interrupt }, vector, cluster)) {
      const into = this.#edge(interrupt, move, arrival, null);
      if (into.outcome !== null) {
        node.edges.push(into);
        continue;
      }
      if (into.to !== null) node.calls.push({ edge: into, entry: into.to });
      const exits = into.to === null ? [backAtOnce(into)] : [...into.to.exits.values()];
      for (const exit of exits) this.#comeBack(node, into, exit, cluster);
    }
  }

  /** Out of the interrupt's questions, to the question that they broke into or past it. */
  #comeBack(node: Node, into: Edge, exit: Exit, cluster: Cluster): void {
    const { segment, at, vector } = node;
    const before = [...into.writes, ...exit.writes];
    for (const arrival of this.#move(segment, at, { kind: 'go-on' }, written(vector, before), cluster)) {
      const edge = this.#edge(segment, into.move, arrival, exit);
      const reads = into.reads.slice();
      readAlso(reads, edge.reads, before);
      node.edges.push({
        ...edge,
        given: { ...into.given, ...edge.given },
        reads,
        writes: [...before, ...edge.writes],
      });
    }
  }

  #edge(
    segment: string,
    move: Move,
    { given, reads, writes, node, passed, vector }: Arrival,
    through: Exit | null,
  ): Edge {
    const view = new View(this.#space, vector);
    const answer = move.kind === 'answer' ? move.answer : null;
    const found = [
      ...passed.unset.flatMap(unset => this.#eyes.unset(view, segment, unset)),
      ...(passed.ending === null ? [] : this.#eyes.ended(view, segment, passed.ending, answer)),
    ];
    readAlso(reads, view.reads, writes);
    const outcome = passed.ending?.outcome ?? null;
    return { move, given, reads, writes, through, to: node, outcome, found };
  }

  #steps(segment: string) {
    return segment === 'main' ? this.#script.main : this.#script.interrupts[segment]!.steps;
  }
}

const plain = (move: Move, space: Space): Edge => ({
  ...{ move, given: {}, reads: new Uint8Array(space.size), writes: [] },
  ...{ through: null, to: null, outcome: null, found: [] },
});

/** An interrupt without a question of its own. */
const backAtOnce = (edge: Edge): Exit => ({ writes: [], cost: 0, most: 0, edge, next: null });

/** Takes over what matters behind the moves, and the ways out. Tells whether that was news. */
function gather(node: Node, outer: Uint8Array): boolean {
  let news = false;
  const read = (edge: Edge, behind: Node | null) => {
    if (readAlso(node.reads, edge.reads, [])) news = true;
    if (behind !== null && readAlso(node.reads, behind.reads, edge.writes)) news = true;
  };
  for (const { edge, entry } of node.calls) read(edge, entry);
  for (const edge of node.edges) {
    read(edge, edge.to);
    const asked = edge.move.kind === 'answer' ? 1 : 0;
    const cost = costOf(edge);
    if (edge.to === null && edge.outcome === null) {
      const writes = edge.writes.filter(([place]) => outer[place] === 1);
      if (leave(node, { writes, cost, most: asked, edge, next: null })) news = true;
    }
    for (const next of edge.to?.exits.values() ?? []) {
      const writes = [...new Map([...edge.writes, ...next.writes])].filter(([place]) => outer[place] === 1);
      // Words for danger may come again and again; the longest way counts the flow's own questions.
      const most = edge.through === null ? next.most + asked : 0;
      if (leave(node, { writes, cost: cost + next.cost, most, edge, next })) news = true;
    }
  }
  return news;
}

function leave(node: Node, exit: Exit): boolean {
  const key = exit.writes
    .map(write => write.join(':'))
    .sort()
    .join(' ');
  const known = node.exits.get(key);
  if (known === undefined) {
    node.exits.set(key, exit);
    return true;
  }
  const nearer = exit.cost < known.cost;
  const longer = exit.most > known.most;
  if (nearer) Object.assign(known, { ...exit, most: known.most });
  if (longer) known.most = exit.most;
  return nearer || longer;
}

/** Notes that `more` is read too, but for what `writes` has set before. Tells whether that was news. */
function readAlso(reads: Uint8Array, more: Uint8Array, writes: readonly Write[]): boolean {
  let news = false;
  let hidden: Set<number> | null = null;
  for (let place = 0; place < more.length; place++) {
    if (more[place]! <= reads[place]!) continue;
    if (writes.length > 0) {
      hidden ??= new Set(writes.map(([written]) => written));
      if (hidden.has(place)) continue;
    }
    reads[place] = more[place]!;
    news = true;
  }
  return news;
}

function written(vector: Vector, writes: readonly Write[]): Vector {
  const after = vector.slice();
  for (const [place, code] of writes) after[place] = code;
  return after;
}

function masked(vector: Vector, live: Uint8Array): Vector {
  const left = vector.slice();
  for (let place = 0; place < left.length; place++) if (live[place] === 0) left[place] = 0;
  return left;
}

function memoAt<T>(memos: Map<string, Memo<T>>, key: string): Memo<T> {
  const memo = memos.get(key) ?? new Memo<T>();
  memos.set(key, memo);
  return memo;
}
