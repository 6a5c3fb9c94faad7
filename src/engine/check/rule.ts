/** What a rule is: a pure look at the states that a conversation can reach, at how it can end, or at the flow as written. */
import type { Catalogue } from '#engine/catalogue.ts';
import type { Compiled } from '#engine/compile.ts';
import type { Outcome } from '#engine/entries.ts';
import type { Question, Script, Step } from '#engine/script.ts';
import type { Coverage } from './coverage.ts';
import type { Figures } from './figures.ts';
import type { Edge } from './graph.ts';
import type { EndedBy } from './transition.ts';
import type { View } from './view.ts';

/** What is wrong, and what to do about it. */
export interface Trouble {
  message: string;
  remedy: string;
  /** The step to look at, when it is not the one at hand. */
  step?: string;
  /** Place inside the step, such as `['goes', 'no']`. */
  path?: (string | number)[];
  /** The conversation that shows it, for a trouble of the flow as a whole. */
  trail?: Edge[];
}

/** Where in the conversation. */
export interface Moment {
  /** While an interrupt's questions are asked, that of any flow with the same interrupts. */
  script: Script;
  /** What holds there. */
  view: View;
  /** A flow for technicians. */
  desk: boolean;
  /** `main`, or the interrupt whose questions are being asked. */
  segment: string;
}

/** A question is open. */
export interface Opened extends Moment {
  step: Question;
  /** Interrupts that the engine would let in here. */
  interrupts: readonly string[];
}

/** The conversation ends. `step` is the one that ends it, or the question at which the person did. */
export interface Ended extends Moment {
  step: Step;
  /** What the person did there; null when the flow ended by itself. */
  answer: string | null;
  by: EndedBy;
  outcome: Outcome;
}

/** A condition read a finding that nothing had set. */
export interface Unset extends Moment {
  step: Step;
  finding: string;
}

/** A flow as written, with what exploring it showed. */
export interface Subject {
  compiled: Compiled;
  script: Script;
  desk: boolean;
  /** All steps, the interrupts' too, by id. */
  steps: ReadonlyMap<string, Step>;
  coverage: Coverage;
  figures: Figures;
}

export interface Rule {
  /** As its folder. */
  name: string;
  /** What holds once it passes, in one sentence. */
  proves: string;
  opened?(at: Opened): Trouble | null;
  ended?(at: Ended): Trouble | null;
  unset?(at: Unset): Trouble | null;
  /** Judges a step or a whole flow as written. A trouble names its step, or stands for the whole flow. */
  flow?(subject: Subject): Trouble[];
  /** Judges the catalogue, and what only all flows together show: a block's step may be reached in one of them. */
  together?(subjects: readonly Subject[], catalogue: Catalogue): PlacedTrouble[];
}

/** A trouble that is no single step's. */
export interface PlacedTrouble {
  message: string;
  remedy: string;
  flow: string;
  unit: string;
  path: (string | number)[];
}
