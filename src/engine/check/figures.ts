/** What a flow asks of people, in figures, over every way of answering it. */
import type { Explored } from './exploring.ts';
import type { Edge, Node } from './graph.ts';

export interface Figures {
  /** Ways of answering, from the opening to the outcome, with every policy read on the way. */
  paths: bigint;
  /** Fewest and most questions on a path. */
  shortest: number;
  longest: number;
  /** Questions on the middle one of all paths. */
  median: number;
  /** The question, counted from 1, by which the first self-help step or the end has come on every path. */
  firstUseful: number;
  /** Most questions still asked once the hand-over is decided: a sign calls for it, or the last self-help step is behind. */
  afterDecision: number;
  /** As `longest`, with one word for danger or the like at the worst moment. */
  longestInterrupted: number;
  /** One of the longest conversations. */
  trail: Edge[];
}

export function figuresOf({ starts, nodes: all }: Explored): Figures {
  const nodes = inOrder(all.get('main')!);
  const roots = starts.flatMap(({ to }) => (to === null ? [] : [to]));
  const ahead = lookAhead(nodes);
  const { ways, lengths, firstUseful, tried } = lookBehind(roots, nodes);
  const middle = sum(lengths) / 2;
  const decided = nodes.filter(
    ({ number, decided }) =>
      ways[number] !== undefined && (decided || (tried[number] && !ahead[number]!.tries)),
  );
  return {
    paths: pathsIn(nodes, ways),
    shortest: Math.max(
      0,
      lengths.findIndex(count => count > 0),
    ),
    longest: Math.max(0, ...roots.map(root => ahead[root.number]!.longest)),
    median: Math.max(
      0,
      lengths.findIndex((_, length) => sum(lengths.slice(0, length + 1)) >= middle),
    ),
    firstUseful,
    afterDecision: Math.max(0, ...decided.map(({ number }) => ahead[number]!.longest)),
    longestInterrupted: interrupted(roots, nodes, ahead, endsInside(all)),
    trail: trailOf(starts, ahead),
  };
}

/** Answers lead to later steps only, so the order of the steps is an order of the states. */
const inOrder = (nodes: readonly Node[]): Node[] => nodes.toSorted((a, b) => a.at - b.at);

const answersOf = ({ edges, answers }: Node): Edge[] => edges.slice(0, answers);

const sum = (numbers: readonly number[]): number => numbers.reduce((total, each) => total + each, 0);

interface Ahead {
  longest: number;
  /** Does a self-help step lie ahead? */
  tries: boolean;
  next: Edge | null;
}

/** By the number of the state, as everything here. */
function lookAhead(nodes: readonly Node[]): Ahead[] {
  const ahead: Ahead[] = [];
  for (const node of nodes.toReversed()) {
    const here: Ahead = { longest: 1, tries: node.step.kind === 'try', next: null };
    for (const edge of answersOf(node)) {
      const rest = edge.to === null ? undefined : ahead[edge.to.number];
      if (rest?.tries) here.tries = true;
      const long = 1 + (rest?.longest ?? 0);
      if (here.next === null || long > here.longest) here.next = edge;
      here.longest = Math.max(here.longest, long);
    }
    ahead[node.number] = here;
  }
  return ahead;
}

/** One of the longest conversations, from its start on. */
function trailOf(starts: readonly Edge[], ahead: readonly Ahead[]): Edge[] {
  const length = (edge: Edge) => (edge.to === null ? 0 : ahead[edge.to.number]!.longest);
  const trail: Edge[] = [];
  let edge = starts.toSorted((a, b) => length(b) - length(a))[0] ?? null;
  while (edge !== null) {
    trail.push(edge);
    edge = edge.to === null ? null : ahead[edge.to.number]!.next;
  }
  return trail;
}

/** From the opening on: how many ways lead to each state, and how long they are. */
function lookBehind(roots: readonly Node[], nodes: readonly Node[]) {
  const ways: bigint[] = [];
  const counts: number[][] = [];
  /** Most questions before the state on a way without a self-help step. */
  const idle: number[] = [];
  const tried: boolean[] = [];
  for (const { number } of roots) {
    ways[number] = (ways[number] ?? 0n) + 1n;
    counts[number] = [(counts[number]?.[0] ?? 0) + 1];
    idle[number] = 0;
  }
  let firstUseful = 0;
  const lengths: number[] = [];
  for (const node of nodes) {
    const here = ways[node.number];
    if (here === undefined) continue;
    const count = counts[node.number]!;
    const waited = idle[node.number];
    const useful = node.step.kind === 'try';
    if (useful && waited !== undefined) firstUseful = Math.max(firstUseful, waited + 1);
    for (const { to, times } of answersOf(node)) {
      if (to === null) {
        add(lengths, count, times);
        if (!useful && waited !== undefined) firstUseful = Math.max(firstUseful, waited + 1);
        continue;
      }
      const { number } = to;
      ways[number] = (ways[number] ?? 0n) + here * BigInt(times);
      const there = counts[number] ?? [];
      add(there, count, times);
      counts[number] = there;
      if (!useful && waited !== undefined) idle[number] = Math.max(idle[number] ?? 0, waited + 1);
      if (useful || tried[node.number]) tried[number] = true;
    }
  }
  return { ways, lengths: Array.from(lengths, count => count ?? 0), firstUseful, tried };
}

const pathsIn = (nodes: readonly Node[], ways: readonly bigint[]): bigint =>
  nodes.reduce((paths, node) => {
    let ends = 0;
    for (const { to, times } of answersOf(node)) if (to === null) ends += times;
    return ends === 0 ? paths : paths + (ways[node.number] ?? 0n) * BigInt(ends);
  }, 0n);

/** The same lengths, one question longer, for each of `times` answers. */
function add(into: number[], from: readonly number[], times: number): void {
  from.forEach((count, length) => {
    into[length + 1] = (into[length + 1] ?? 0) + count * times;
  });
}

/** In the interrupts' questions: the most questions from each state to an ending there; 0 where there is none. */
function endsInside(all: Explored['nodes']): Map<string, number[]> {
  const inside = new Map<string, number[]>();
  for (const [segment, nodes] of all) if (segment !== 'main') inside.set(segment, endsIn(nodes));
  return inside;
}

/** Flows share them, and each adds few, to which none of those before leads. */
const known = new WeakMap<readonly Node[], number[]>();

function endsIn(nodes: readonly Node[]): number[] {
  const most = known.get(nodes) ?? [];
  known.set(nodes, most);
  for (const node of inOrder(nodes.slice(most.length)).toReversed()) {
    let here = 0;
    for (const { to, outcome } of answersOf(node)) {
      const rest = to === null ? 0 : (most[to.number] ?? 0);
      if (rest > 0 || outcome !== null) here = Math.max(here, 1 + rest);
    }
    most[node.number] = here;
  }
  return most;
}

/** The longest conversation with at most one interrupt. */
function interrupted(
  roots: readonly Node[],
  nodes: readonly Node[],
  ahead: readonly Ahead[],
  inside: Map<string, number[]>,
): number {
  const most: number[] = [];
  for (const node of nodes.toReversed()) {
    let here = node.aside + ahead[node.number]!.longest;
    for (const { move, through, to } of node.edges) {
      if (move.kind === 'answer') here = Math.max(here, 1 + (to === null ? 0 : most[to.number]!));
      if (through !== null)
        here = Math.max(here, through.most + (to === null ? 0 : ahead[to.number]!.longest));
    }
    for (const { entry } of node.calls)
      if (entry !== null) here = Math.max(here, inside.get(entry.segment)![entry.number]!);
    most[node.number] = here;
  }
  return Math.max(0, ...roots.map(({ number }) => most[number]!));
}
