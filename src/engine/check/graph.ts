/** The states that a conversation can reach, and the moves between them. */
import type { Outcome } from '#engine/entries.ts';
import type { Question, Step } from '#engine/script.ts';
import type { Rule, Trouble } from './rule.ts';
import { type Change, type Mask, NO_CHANGE, type Vector } from './vectors.ts';

/** What happens at a question. */
export type Move =
  | { kind: 'start' }
  | { kind: 'answer'; answer: string }
  /** A word for danger, attack or the like, after which its questions come. */
  | { kind: 'interrupt'; interrupt: string }
  /** The same, in doubt, and no after all. */
  | { kind: 'doubt'; interrupt: string }
  | { kind: 'end'; by: 'person' | 'stop' | 'left' | 'outage' };

/** A rule that does not hold here. */
export interface Found {
  rule: Rule;
  step: Step;
  trouble: Trouble;
}

/** A move, with the policies that were taken for it and all that it reads and sets. */
export interface Edge {
  move: Move;
  /** Answers that lead to the same, of which `move` is one. */
  times: number;
  given: Readonly<Record<string, string>>;
  reads: readonly number[];
  writes: Change;
  /** The interrupt's questions that lay between. */
  through: Exit | null;
  /** The next question; null at an ending, and on the way back out of an interrupt's questions. */
  to: Node | null;
  outcome: Outcome | null;
  found: readonly Found[];
}

/** An interrupt's questions, from the question that they break into; `entry` is null when it asks none. */
export interface Call {
  edge: Edge;
  entry: Node | null;
}

/** A way from a state back out of an interrupt's questions. */
export interface Exit {
  /** All that is set on it. */
  writes: Change;
  /** Fewest things that the person says, and most questions, on it. */
  cost: number;
  most: number;
  edge: Edge;
  next: Exit | null;
}

/** An open question, for all conversations that agree on everything that can still matter. */
export interface Node {
  segment: string;
  /** Among the states of its segment. */
  number: number;
  at: number;
  step: Question;
  /** One of those conversations. */
  vector: Vector;
  /** What can still matter: other vectors that agree on it are the same state. */
  reads: Mask;
  /** A sign calls for a hand-over here. */
  decided: boolean;
  found: readonly Found[];
  edges: Edge[];
  /** How many of them are answers, which stand first. */
  answers: number;
  calls: Call[];
  /** How the conversation ends if the person ends it here, where a rule minds. */
  leaving: readonly Edge[];
  exits: Exit[];
  /** Most questions of an interrupt that comes back here as if nothing had been. */
  aside: number;
  /** The state that this one turned out to be. */
  same: Node | null;
  /** Null until somebody asks, and where no conversation comes: in the interrupts' questions some ways are other flows'. */
  near: Near | null;
}

/** Of a state that nobody has gone on from yet. Nothing is added to them. */
const NO_EDGES: Edge[] = [];
const NO_CALLS: Call[] = [];
/** Nor to these: there is no way out of a flow's own questions. */
export const NO_EXITS: Exit[] = [];

export function unexplored(
  open: Pick<Node, 'segment' | 'at' | 'step' | 'vector' | 'reads' | 'decided' | 'found' | 'leaving'>,
): Node {
  const { segment, at, step, vector, reads, decided, found, leaving } = open;
  return {
    segment,
    number: 0,
    at,
    step,
    vector,
    reads,
    decided,
    found,
    edges: NO_EDGES,
    answers: 0,
    calls: NO_CALLS,
    leaving,
    exits: NO_EXITS,
    aside: 0,
    same: null,
    near: null,
  };
}

/** From now on more is added to it. */
export function begin(node: Node): void {
  node.reads = node.reads.slice();
  node.edges = [];
  node.calls = [];
  if (node.segment !== 'main') node.exits = [];
}

/** The person ends it, where a rule minds. */
export const leaving = (move: Move, outcome: Outcome, found: readonly Found[]): Edge => ({
  ...{ move, times: 1, given: {}, reads: [], writes: NO_CHANGE, through: null },
  ...{ to: null, outcome, found },
});

/** The shortest way to a state. */
export interface Near {
  /** Things that the person says from the opening on. */
  cost: number;
  /** The state before; null at the opening. */
  node: Node | null;
  edge: Edge | null;
}

/** An answer is one thing said; an interrupt is one, and so are the answers to its questions. */
export const costOf = ({ move, through }: Edge): number =>
  move.kind === 'start' ? 0 : 1 + (through?.cost ?? 0);

/** What was answered last on the way out; null where nothing was. */
export function lastOf(exit: Exit): string | null {
  let last = exit;
  while (last.next !== null) last = last.next;
  const { move } = last.edge;
  return move.kind === 'answer' ? move.answer : null;
}
/** Where a way out leads to an end, rules look at whether its last word was that they are not sure. */
export const isUnsure = (exit: Exit): boolean => lastOf(exit) === 'not-sure';
