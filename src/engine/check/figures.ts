/** What a flow asks of people, in figures, over every way of answering it. */
import type { Explored } from './explore.ts';
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
    node => ways.has(node) && (node.decided || (tried.has(node) && !ahead.get(node)!.tries)),
  );
  return {
    paths: pathsIn(nodes, ways),
    shortest: Math.max(
      0,
      lengths.findIndex(count => count > 0),
    ),
    longest: Math.max(0, ...roots.map(root => ahead.get(root)!.longest)),
    median: Math.max(
      0,
      lengths.findIndex((_, length) => sum(lengths.slice(0, length + 1)) >= middle),
    ),
    firstUseful,
    afterDecision: Math.max(0, ...decided.map(node => ahead.get(node)!.longest)),
    longestInterrupted: interrupted(roots, nodes, ahead, endsInside(all)),
    trail: trailOf(starts, ahead),
  };
}

/** Answers lead to later steps only, so the order of the steps is an order of the states. */
const inOrder = (nodes: readonly Node[]): Node[] => nodes.toSorted((a, b) => a.at - b.at);

/** They stand first. */
function answersOf({ edges }: Node): Edge[] {
  const others = edges.findIndex(({ move }) => move.kind !== 'answer');
  return others === -1 ? edges : edges.slice(0, others);
}

const sum = (numbers: readonly number[]): number => numbers.reduce((total, each) => total + each, 0);

interface Ahead {
  longest: number;
  /** Does a self-help step lie ahead? */
  tries: boolean;
  next: Edge | null;
}

function lookAhead(nodes: Node[]): Map<Node, Ahead> {
  const ahead = new Map<Node, Ahead>();
  for (const node of nodes.toReversed()) {
    const here: Ahead = { longest: 1, tries: node.step.kind === 'try', next: null };
    for (const edge of answersOf(node)) {
      const rest = edge.to === null ? undefined : ahead.get(edge.to);
      if (rest?.tries) here.tries = true;
      const long = 1 + (rest?.longest ?? 0);
      if (here.next === null || long > here.longest) here.next = edge;
      here.longest = Math.max(here.longest, long);
    }
    ahead.set(node, here);
  }
  return ahead;
}

/** One of the longest conversations, from its start on. */
function trailOf(starts: readonly Edge[], ahead: Map<Node, Ahead>): Edge[] {
  const length = (edge: Edge) => (edge.to === null ? 0 : ahead.get(edge.to)!.longest);
  const trail: Edge[] = [];
  let edge = starts.toSorted((a, b) => length(b) - length(a))[0] ?? null;
  while (edge !== null) {
    trail.push(edge);
    edge = edge.to === null ? null : ahead.get(edge.to)!.next;
  }
  return trail;
}

/** From the opening on: how many ways lead to each state, and how long they are. */
function lookBehind(roots: readonly Node[], nodes: readonly Node[]) {
  const ways = new Map<Node, bigint>();
  const counts = new Map<Node, number[]>();
  /** Most questions before the state on a way without a self-help step. */
  const idle = new Map<Node, number>();
  const tried = new Set<Node>();
  for (const root of roots) {
    ways.set(root, (ways.get(root) ?? 0n) + 1n);
    counts.set(root, [(counts.get(root)?.[0] ?? 0) + 1]);
    idle.set(root, 0);
  }
  let firstUseful = 0;
  const lengths: number[] = [];
  for (const node of nodes) {
    const here = ways.get(node);
    if (here === undefined) continue;
    const count = counts.get(node)!;
    const waited = idle.get(node);
    const useful = node.step.kind === 'try';
    if (useful && waited !== undefined) firstUseful = Math.max(firstUseful, waited + 1);
    for (const { to } of answersOf(node)) {
      if (to === null) {
        add(lengths, count);
        if (!useful && waited !== undefined) firstUseful = Math.max(firstUseful, waited + 1);
        continue;
      }
      ways.set(to, (ways.get(to) ?? 0n) + here);
      const there = counts.get(to) ?? [];
      add(there, count);
      counts.set(to, there);
      if (!useful && waited !== undefined) idle.set(to, Math.max(idle.get(to) ?? 0, waited + 1));
      if (useful || tried.has(node)) tried.add(to);
    }
  }
  return { ways, lengths: Array.from(lengths, count => count ?? 0), firstUseful, tried };
}

const pathsIn = (nodes: readonly Node[], ways: Map<Node, bigint>): bigint =>
  nodes.reduce(
    (paths, node) =>
      paths + (ways.get(node) ?? 0n) * BigInt(answersOf(node).filter(({ to }) => to === null).length),
    0n,
  );

/** The same lengths, one question longer. */
function add(into: number[], from: readonly number[]): void {
  from.forEach((count, length) => {
    into[length + 1] = (into[length + 1] ?? 0) + count;
  });
}

/** In the interrupts' questions: the most questions from each state to an ending there; 0 where there is none. */
function endsInside(all: Explored['nodes']): Map<Node, number> {
  const most = new Map<Node, number>();
  for (const [segment, nodes] of all) {
    if (segment === 'main') continue;
    for (const node of inOrder(nodes).toReversed()) {
      const lengths = answersOf(node).map(({ to, outcome }) => {
        const rest = to === null ? 0 : (most.get(to) ?? 0);
        return rest > 0 || outcome !== null ? 1 + rest : 0;
      });
      most.set(node, Math.max(0, ...lengths));
    }
  }
  return most;
}

/** The longest conversation with at most one interrupt. */
function interrupted(
  roots: readonly Node[],
  nodes: readonly Node[],
  ahead: Map<Node, Ahead>,
  inside: Map<Node, number>,
): number {
  const most = new Map<Node, number>();
  for (const node of nodes.toReversed()) {
    let here = ahead.get(node)!.longest;
    for (const { move, through, to } of node.edges) {
      if (move.kind === 'answer') here = Math.max(here, 1 + (to === null ? 0 : most.get(to)!));
      if (through !== null) here = Math.max(here, through.most + (to === null ? 0 : ahead.get(to)!.longest));
    }
    for (const { entry } of node.calls) here = Math.max(here, entry === null ? 0 : inside.get(entry)!);
    most.set(node, here);
  }
  return Math.max(0, ...roots.map(root => most.get(root)!));
}
