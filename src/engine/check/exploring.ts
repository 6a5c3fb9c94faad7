/** What exploring is made of: who looks on, what comes out, and what is under way. */
import type { Question } from '#engine/script.ts';
import type { Coverage } from './coverage.ts';
import type { Edge, Found, Node } from './graph.ts';
import { Memo } from './memo.ts';
import type { Place } from './places.ts';
import type { Space } from './space.ts';
import type { Ending, Transition } from './transition.ts';
import { type Change, type Mask, same, type Vector } from './vectors.ts';
import type { View } from './view.ts';
import type { Back } from './ways-back.ts';

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

/** States at one step that interrupts lead round between, explored together. */
export interface Cluster {
  place: Place;
  /** By all that is kept there. */
  nodes: Nodes;
  ahead: Node[];
  /** With everything behind their answers known, and perhaps more. */
  begun: Node[];
  /** Taken for one of those, by what was known of it then. */
  taken: Node[];
  idle: Idle[];
}

/** Most clusters stay with the state that they begin with, which needs no table. */
export class Nodes {
  readonly #first: Node;
  #more: Memo<Node> | null = null;

  constructor(first: Node) {
    this.#first = first;
  }

  find(vector: Vector): Node | undefined {
    return same(vector, this.#first.vector) ? this.#first : this.#more?.find(vector);
  }

  add(node: Node, mask: readonly number[]): void {
    this.#more ??= new Memo();
    this.#more.add(node.vector, mask, node);
  }
}

/** A way through an interrupt's questions back to the state that it left, by what was known of that one then. */
export interface Idle {
  node: Node;
  into: Edge;
  back: Back;
}

/** Where a move comes to, with the policies taken for it. */
export interface Arrival {
  given: Given;
  reads: Mask;
  writes: Change;
  vector: Vector;
  node: Node | null;
  passed: Transition;
}

export type Given = Readonly<Record<string, string>>;

/** A move under way: the policies taken for it so far. */
export interface Choice {
  given: Given;
  before: Mask | null;
  writes: Change;
  vector: Vector;
}
