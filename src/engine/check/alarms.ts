/** Where a flow leads to the questions of an alarm itself: the block that an interrupt would lead to. */
import { isQuestionStep } from '#engine/advance.ts';
import type { Compiled } from '#engine/compile.ts';
import { decided } from '#engine/condition.ts';
import type { Condition } from '#engine/schema.ts';
import type { GateStep, Question, Step } from '#engine/script.ts';

export const isVisitOf = (
  block: string,
  step: Step,
  next: Step | undefined,
  { origins }: Compiled,
): step is GateStep =>
  step.kind === 'gate' && next !== undefined && origins[next.id]?.unit === `blocks/${block}`;

/** After this answer, is the block had before anything else is asked? `later`: the steps behind the question. */
export function leadsTo(
  block: string,
  question: Question,
  answer: string,
  later: readonly Step[],
  compiled: Compiled,
): boolean {
  const cases = casesOf(question.if).map(known => ({ ...known, [question.finding]: answer }));
  let at = 0;
  while (at < later.length) {
    const step = later[at]!;
    const open = cases.some(known => decided(step.if, known) !== false);
    if (open && isVisitOf(block, step, later[at + 1], compiled)) return true;
    if (open && (isQuestionStep(step) || step.kind === 'hand-over' || step.kind === 'end')) return false;
    at = open || step.kind !== 'gate' ? at + 1 : later.findIndex(({ id }) => id === step.else);
    if (at === -1) return false;
  }
  return false;
}

/** What a question's own condition tells wherever it is asked, one case for each choice of values. */
function casesOf(when: Condition | null): Record<string, string>[] {
  const parts = Object.entries(when ?? {}) as [string, string | string[] | object][];
  return parts.reduce<Record<string, string>[]>(
    (cases, [finding, wanted]) => {
      const values = [wanted].flat().filter(value => typeof value === 'string');
      if (values.length === 0) return cases;
      return cases.flatMap(known => values.map(value => ({ ...known, [finding]: value })));
    },
    [{}],
  );
}
