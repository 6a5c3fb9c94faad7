/** Everything that the flows can say, turn by turn along their walks and question by question off them. */
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import type { Ask, Message, Question } from '#engine/messages.ts';
import { readYaml } from '#library/yaml.ts';
import { rehearse } from '#talk/rehearse.ts';
import { type Walk, walks } from '#talk/walk.ts';
import { knowledge } from '../knowledge.ts';

export const FLOWS = readdirSync('flows').filter(name => existsSync(`flows/${name}/walks.yaml`));

export function saidIn(flow: string): Message[][] {
  const file = `flows/${flow}/walks.yaml`;
  const all = walks.parse(readYaml(file, readFileSync(file, 'utf8')).value);
  const { script } = knowledge.flows[flow]!;
  const steps = [...script.main, ...Object.values(script.interrupts).flatMap(interrupt => interrupt.steps)];
  const asked = steps.flatMap((step): Message[][] => {
    if (step.kind !== 'ask' && step.kind !== 'try') return [];
    const common = {
      number: 1234,
      step: step.id,
      answers: step.answers.map(({ id, label }) => ({ id, label })),
      help: step.help,
      always: ['back' as const, 'again' as const, 'person' as const, 'stop' as const],
      left: { shortest: 11, longest: 25 },
      text: step.text,
    };
    const { kind } = step;
    return [
      [
        (kind === 'try'
          ? { ...common, kind, effect: step.effect, minutes: step.minutes, works: step.works }
          : {
              ...common,
              kind,
              form: step.form,
              optional: step.optional,
              unit: step.unit,
              minimum: step.minimum,
              maximum: step.maximum,
            }) satisfies Question,
      ],
    ];
  });
  return [...all.flatMap(turnsOf), ...asked].filter(turn => turn.length > 0);
}

function turnsOf(walk: Walk): Message[][] {
  const rehearsal = rehearse(knowledge);
  let turns = 0;
  const base = () => ({
    identity: `x${turns++}`,
    at: rehearsal.now(),
    address: rehearsal.conversation().address,
  });
  const first =
    walk.begins === undefined
      ? rehearsal.say(walk.opening!)
      : rehearsal.take({ ...base(), kind: 'begin', topic: walk.begins, work: null });
  const rest = walk.says.map(said => {
    if ('say' in said) return rehearsal.say(said.say);
    if ('press' in said) return rehearsal.press(said.press);
    return rehearsal.take({ ...base(), kind: 'always', what: said.word });
  });
  return [first, ...rest];
}

/** A question of a form that the shipped flows need not have. */
export const ask = (more: Partial<Ask>): Ask => ({
  kind: 'ask',
  number: 3,
  step: 'made-up',
  form: 'text',
  text: 'Which?',
  answers: [],
  help: null,
  always: ['back', 'again', 'person', 'stop'],
  left: null,
  optional: false,
  unit: null,
  minimum: null,
  maximum: null,
  ...more,
});
