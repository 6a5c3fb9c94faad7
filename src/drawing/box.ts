/** What stands in a box, as lines with their places inside it. Drawing it is paint.ts's job, placing it arrange.ts's. */
import type { Arrow } from './arrows.ts';
import type { StyleName } from './look.ts';

export type BoxKind = 'ask' | 'try' | 'say' | 'caution' | 'visit' | 'hand-over' | 'end';

/** Words on one line, from the left at `x`, standing on `y`. */
export interface Words {
  text: string;
  /** All of it, where the line is shortened; else the same. */
  full: string;
  x: number;
  y: number;
  width: number;
  style: StyleName;
}

/** A small drawing beside words; `level` of an effect is 0 to 3. */
export type Mark =
  | { kind: 'sign' | 'cleared' | 'care' | 'fixed'; x: number; y: number }
  | { kind: 'effect'; level: number; x: number; y: number };

/** A way out of the box, leaving at height `y`. Arrows of one exit have one target. */
export interface BoxExit {
  how: 'answers' | 'on' | 'past';
  to: Arrow['to'];
  y: number;
}

export interface Box {
  index: number;
  kind: BoxKind;
  /** What the mouse shows: all words of the step. */
  full: string;
  width: number;
  height: number;
  /** Height of the strip with the condition, 0 without one. */
  strip: number;
  words: Words[];
  marks: Mark[];
  /** Hairlines between groups of answers. */
  rules: number[];
  exits: BoxExit[];
  /** Effect of a self-help step, 0 none to 3 write. */
  level: number;
  unreached: boolean;
}
