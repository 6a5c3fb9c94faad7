/** The same flow as an xstate machine: one state per step, the same conditions as guards, findings in its context. */
import { assign, createMachine } from 'xstate';
import { holds } from '#engine/condition.ts';
import type { Consequence, Script, Step } from '#engine/script.ts';

type Findings = Record<string, string>;

export function twinOf(script: Script) {
  const places = new Map(script.main.map((step, index) => [step.id, `s${index}`]));
  const to = (id: string) => places.get(id) ?? 'handed-over';
  const states: Record<string, object> = {
    fixed: { type: 'final' },
    'handed-over': { type: 'final' },
    ended: { type: 'final' },
  };
  script.main.forEach((step, index) => {
    const next = index + 1 < script.main.length ? `s${index + 1}` : 'handed-over';
    states[`s${index}`] = stateOf(step, next, to);
  });
  return createMachine({
    id: script.symptom,
    initial: 's0',
    context: { ...script.start } as Findings,
    states,
  } as never);
}

const unless =
  (step: Step) =>
  ({ context }: { context: Findings }) =>
    !holds(step.if, context);

function stateOf(step: Step, next: string, to: (id: string) => string): object {
  const skip = { guard: unless(step), target: next };
  switch (step.kind) {
    case 'gate':
      return { always: [{ guard: unless(step), target: to(step.else) }, { target: next }] };
    case 'hand-over':
      return { always: [skip, { target: 'handed-over' }] };
    case 'end':
      return { always: [skip, { target: 'ended' }] };
    case 'ask':
    case 'try': {
      const known = {
        guard: ({ context }: { context: Findings }) => step.kind === 'ask' && step.finding in context,
        target: next,
      };
      const on = Object.fromEntries(
        Object.entries(step.after).map(([answer, after]) => [
          `${step.id}/${answer}`,
          {
            target: after.goes ? to(after.goes) : step.kind === 'try' && answer === 'fixed' ? 'fixed' : next,
            actions: assign(({ context }) => settled(context as Findings, step.finding, answer, after)),
          },
        ]),
      );
      return { always: [skip, known], on };
    }
    default:
      return { always: [{ target: next }] };
  }
}

function settled(context: Findings, finding: string, answer: string, after: Consequence): Findings {
  const lowered = Object.fromEntries(after.clears.map(sign => [sign, 'no']));
  const raised = Object.fromEntries(after.raises.map(sign => [sign, 'yes']));
  return { ...context, [finding]: answer, ...after.sets, ...lowered, ...raised };
}
