/** Steps that work something out: their working, its fields and its verdicts are looked up. */
import { z } from 'zod';
import { WORKINGS, workingNamed } from '#workings/all.ts';
import { type Context, consequences, needKeys } from './consequences.ts';
import { choiceOf } from './near.ts';
import type { Condition, WorkFlowStep, WorkGiven } from './schema.ts';
import { type Step, UNCLEAR, type WorkSource } from './script.ts';

export function workOf(
  step: WorkFlowStep,
  base: { id: string; if: Condition | null },
  index: number,
  on: Context,
): Step {
  const working = workingNamed(step.work_out);
  if (working === undefined) {
    const known = WORKINGS.map(({ id }) => id);
    on.problem(['work_out'], `there is no working "${step.work_out}"`, choiceOf(step.work_out, known));
  }
  const fields = Object.keys(
    (working && (z.toJSONSchema(working.input, { io: 'input' }).properties as object)) ?? {},
  );
  for (const [part, given] of Object.entries({ from: step.from, with: step.with })) {
    for (const field of Object.keys(given ?? {})) {
      const [first = ''] = field.split('.');
      if (working !== undefined && !fields.includes(first))
        on.problem([part, field], `"${first}" is no field of ${step.work_out}`, choiceOf(first, fields));
    }
  }
  const verdicts = verdictsOf(step.work_out);
  needKeys(step, verdicts, on);
  return {
    ...base,
    kind: 'work',
    working: step.work_out,
    from: Object.fromEntries(
      Object.entries(step.from ?? {}).map(([field, source]) => [field, sourceOf(source)]),
    ),
    with: step.with ?? {},
    tells: step.tells ?? false,
    ...(step.perhaps ? { perhaps: true as const } : {}),
    finding: step.id,
    verdicts: consequences(step, verdicts, index, on),
  };
}

/** What the working can come out at; `unclear` where there is not enough to work with. */
export const verdictsOf = (working: string): string[] => [
  ...(workingNamed(working)?.verdicts ?? []),
  UNCLEAR,
];

const sourceOf = (source: WorkGiven): WorkSource =>
  typeof source === 'string'
    ? { finding: source, as: null, list: false }
    : { finding: source.answer, as: source.as ?? null, list: source.list ?? false };
