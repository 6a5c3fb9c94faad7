/** Steps by the place where they are written: one step of a block stands in every script that visits it. */
import type { Origin } from '#engine/compile.ts';
import type { Script, Step } from '#engine/script.ts';
import type { PlacedTrouble, Subject } from './rule.ts';

export interface Instance {
  subject: Subject;
  step: Step;
}

export interface Written {
  origin: Origin;
  instances: Instance[];
}

export const interruptSteps = (script: Script): Step[] =>
  Object.values(script.interrupts).flatMap(({ steps }) => steps);

export const segmentSteps = (script: Script): Step[] => [...script.main, ...interruptSteps(script)];

/** Names the place in the files. */
export const writtenAt = ({ unit, path }: Origin): string => `${unit} ${path.join(' ')}`;

/** Every place with a step, in reading order. Ends of blocks are written nowhere. */
export function writtenSteps(subjects: readonly Subject[]): Written[] {
  const places = new Map<string, Written>();
  for (const subject of subjects) {
    for (const step of subject.steps.values()) {
      const origin = subject.compiled.origins[step.id];
      if (origin === undefined) continue;
      const key = writtenAt(origin);
      const written = places.get(key) ?? { origin, instances: [] };
      places.set(key, written);
      written.instances.push({ subject, step });
    }
  }
  return [...places.values()];
}

export const troubleAt = (
  { origin, instances }: Written,
  message: string,
  remedy: string,
  path: (string | number)[] = [],
): PlacedTrouble => ({
  flow: instances[0]!.subject.script.symptom,
  unit: origin.unit,
  path: [...origin.path, ...path],
  message,
  remedy,
});
