/** Which steps a conversation can come to, and which it can really have; by step id. */
import type { Step } from '#engine/script.ts';

export interface Coverage {
  /** Steps that some conversation comes to, whether or not their condition holds. */
  arrived: Set<string>;
  /** Steps that some conversation has: asked, said, done. */
  taken: Set<string>;
}

export const nothingYet = (): Coverage => ({ arrived: new Set(), taken: new Set() });

export const both = (one: Coverage, other: Coverage): Coverage => ({
  arrived: new Set([...one.arrived, ...other.arrived]),
  taken: new Set([...one.taken, ...other.taken]),
});

export function cover(coverage: Coverage, step: Step, taken: boolean): void {
  coverage.arrived.add(step.id);
  if (taken) coverage.taken.add(step.id);
}
