/** The states that a conversation can reach, and the moves between them. */
import type { Outcome } from '#engine/entries.ts';
import type { Question } from '#engine/script.ts';
import type { Segment } from './live.ts';
import type { Vars } from './vars.ts';

/** What happens at a question. */
export type Move =
  | { kind: 'start' }
  | { kind: 'answer'; answer: string }
  /** A word for danger, attack or the like, after which its questions come. */
  | { kind: 'interrupt'; interrupt: string }
  /** The same, in doubt, and no after all. */
  | { kind: 'doubt'; interrupt: string }
  | { kind: 'end'; by: 'person' | 'stop' | 'left' | 'outage' };

/** How a state was come to. `through`: the interrupt's questions that lay between. `given`: policies taken for it. */
export interface Link {
  node: Node | null;
  move: Move;
  through: Exit | null;
  given: Readonly<Vars>;
}

/** An open question with what matters there. */
export interface Node {
  graph: Graph;
  at: number;
  step: Question;
  vars: Vars;
  /** Fewest things that a person says to come here, from the first question of this graph. */
  cost: number;
  from: Link;
  edges: Edge[];
  /** The questions of the interrupts that may break in here. */
  calls: Graph[];
}

/** `to` null: the conversation ended there, or (in an interrupt's questions) came back out through `exit`. */
export interface Edge {
  link: Link;
  to: Node | null;
  outcome: Outcome | null;
  exit: Exit | null;
}

/** A way out of an interrupt's questions, back to the question they broke into. */
export interface Exit {
  graph: Graph;
  vars: Vars;
  cost: number;
  from: Link;
}

/** All states of the flow, or of one interrupt's questions as entered with the same things known. */
export interface Graph {
  segment: Segment;
  /** From where it was first entered; null for the flow itself. */
  caller: Link | null;
  roots: Node[];
  nodes: Map<string, Node>;
  exits: Map<string, Exit>;
  /** States still to be looked at, by cost. */
  todo: Node[][];
}

/** An answer is one thing said; an interrupt is one, and so are the answers to its questions. */
export const costAfter = ({ node, through }: Link): number => (node?.cost ?? -1) + 1 + (through?.cost ?? 0);

/** Things said from the opening to the first question of this graph, by its caller. */
export const costBefore = ({ caller }: Graph): number =>
  caller?.node ? costBefore(caller.node.graph) + caller.node.cost + 1 : 0;
