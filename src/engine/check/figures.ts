/** What a flow asks of people, in figures, over every way of answering it. */
import { URGENT } from '#engine/state.ts';
import type { Explored } from './explore.ts';
import type { Edge, Exit, Graph, Node } from './graph.ts';

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

const DECIDING = [...URGENT, 'mechanical'];

export function figuresOf({ main, calls }: Explored): Figures {
  const nodes = inOrder(main);
  const ahead = lookAhead(nodes);
  const within = new Map(calls.map(graph => [graph, insideOf(graph)]));
  const behind = lookBehind(main, nodes);
  const lengths = behind.lengths;
  const all = sum(lengths);
  const median = lengths.findIndex((_, length) => sum(lengths.slice(0, length + 1)) >= all / 2);
  const longest = Math.max(0, ...main.roots.map(root => ahead.get(root)!.longest));
  const decided = nodes.filter(
    node =>
      behind.reached.has(node) &&
      (DECIDING.some(sign => node.vars[sign] === 'yes') ||
        (behind.tried.has(node) && !ahead.get(node)!.tries)),
  );
  return {
    paths: behind.paths,
    shortest: Math.max(
      0,
      lengths.findIndex(count => count > 0),
    ),
    longest,
    median: Math.max(0, median),
    firstUseful: behind.firstUseful,
    afterDecision: Math.max(0, ...decided.map(node => ahead.get(node)!.longest)),
    longestInterrupted: interrupted(main, nodes, ahead, within),
    trail: trailOf(main, ahead),
  };
}

const sum = (numbers: number[]): number => numbers.reduce((total, each) => total + each, 0);

/** Answers lead to later steps only, so the order of the steps is an order of the states. */
const inOrder = (graph: Graph): Node[] => [...graph.nodes.values()].sort((a, b) => a.at - b.at);

const answersOf = (node: Node): Edge[] => node.edges.filter(({ link }) => link.move.kind === 'answer');

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
      if (here.next === null || 1 + (rest?.longest ?? 0) > here.longest) here.next = edge;
      here.longest = Math.max(here.longest, 1 + (rest?.longest ?? 0));
    }
    ahead.set(node, here);
  }
  return ahead;
}

function trailOf(main: Graph, ahead: Map<Node, Ahead>): Edge[] {
  const trail: Edge[] = [];
  const roots = main.roots.toSorted((a, b) => ahead.get(b)!.longest - ahead.get(a)!.longest);
  for (let node = roots[0] ?? null; node !== null; node = trail.at(-1)!.to) {
    const edge = ahead.get(node)!.next;
    if (edge === null) break;
    trail.push(edge);
  }
  return trail;
}

/** From the opening on: how many ways lead to each state, and how long they are. */
function lookBehind(main: Graph, nodes: Node[]) {
  const ways = new Map<Node, bigint>();
  const counts = new Map<Node, number[]>();
  /** Most questions before the state on a way without a self-help step. */
  const idle = new Map<Node, number>();
  const tried = new Set<Node>();
  for (const root of main.roots) {
    ways.set(root, (ways.get(root) ?? 0n) + 1n);
    counts.set(root, [(counts.get(root)?.[0] ?? 0) + 1]);
    idle.set(root, 0);
  }
  let paths = 0n;
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
        paths += here;
        add(lengths, count, 1);
        if (!useful && waited !== undefined) firstUseful = Math.max(firstUseful, waited + 1);
        continue;
      }
      ways.set(to, (ways.get(to) ?? 0n) + here);
      const there = counts.get(to) ?? [];
      add(there, count, 1);
      counts.set(to, there);
      if (!useful && waited !== undefined) idle.set(to, Math.max(idle.get(to) ?? 0, waited + 1));
      if (useful || tried.has(node)) tried.add(to);
    }
  }
  return {
    paths,
    lengths: Array.from(lengths, count => count ?? 0),
    firstUseful,
    tried,
    reached: new Set(ways.keys()),
  };
}

function add(into: number[], from: number[], later: number): void {
  from.forEach((count, length) => {
    into[length + later] = (into[length + later] ?? 0) + count;
  });
}

/** Longest ways through an interrupt's questions: to each way back, and to an ending inside. */
function insideOf(graph: Graph): { back: Map<Exit, number>; ended: number } {
  const most = new Map<Node, number>(graph.roots.map(root => [root, 0]));
  const back = new Map<Exit, number>();
  let ended = 0;
  for (const node of inOrder(graph)) {
    const here = most.get(node);
    if (here === undefined) continue;
    for (const { to, exit, outcome } of answersOf(node)) {
      if (to !== null) most.set(to, Math.max(most.get(to) ?? 0, here + 1));
      if (exit !== null) back.set(exit, Math.max(back.get(exit) ?? 0, here + 1));
      if (outcome !== null) ended = Math.max(ended, here + 1);
    }
  }
  return { back, ended };
}

function interrupted(
  main: Graph,
  nodes: Node[],
  ahead: Map<Node, Ahead>,
  within: Map<Graph, ReturnType<typeof insideOf>>,
): number {
  const most = new Map<Node, number>();
  for (const node of nodes.toReversed()) {
    let here = ahead.get(node)!.longest;
    for (const { link, to } of node.edges) {
      const rest = to === null ? 0 : link.move.kind === 'answer' ? most.get(to)! : ahead.get(to)!.longest;
      if (link.move.kind === 'answer') here = Math.max(here, 1 + rest);
      if (link.through !== null) {
        const inside = within.get(link.through.graph)!.back.get(link.through) ?? 0;
        here = Math.max(here, inside + rest);
      }
    }
    for (const call of node.calls) here = Math.max(here, within.get(call)!.ended);
    most.set(node, here);
  }
  return Math.max(0, ...main.roots.map(root => most.get(root)!));
}
