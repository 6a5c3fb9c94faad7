/** Every message that the flows can produce, in every language of the channel, within Slack's limits and readable as text alone. */
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { drawn, redrawn } from '#channels/slack/render.ts';
import { wordsFor } from '#channels/slack/words.ts';
import { isQuestion, type Message } from '#engine/messages.ts';
import { readYaml } from '#library/yaml.ts';
import type { Begin, FromPerson } from '#talk/inbound.ts';
import { rehearse } from '#talk/rehearse.ts';
import { type Walk, walks } from '#talk/walk.ts';
import { knowledge } from '../../support/knowledge.ts';
import { wrongMessage } from '../../support/slack/limits.ts';
import { answersIn } from '../../support/slack/person.ts';

const LANGUAGES = ['en-GB', 'de-DE', 'fr-FR', 'es-ES'];
const CONVERSATION = 'twelve-chars';
const flows = readdirSync('flows').filter(name => existsSync(`flows/${name}/walks.yaml`));

/** What is said turn by turn when the walk is walked. */
function turnsOf(walk: Walk): Message[][] {
  const rehearsal = rehearse(knowledge);
  const base = () => ({
    identity: `x${rehearsal.now()}`,
    at: rehearsal.now(),
    address: rehearsal.conversation().address,
  });
  const begin = (topic: string): FromPerson =>
    ({ ...base(), kind: 'begin', topic, work: null }) satisfies Begin & object;
  const turns = [
    walk.begins === undefined ? rehearsal.say(walk.opening!) : rehearsal.take(begin(walk.begins)),
  ];
  for (const said of walk.says) {
    if ('say' in said) turns.push(rehearsal.say(said.say));
    else if ('press' in said) turns.push(rehearsal.press(said.press));
    else
      turns.push(
        rehearsal.take({ ...base(), identity: `w${turns.length}`, kind: 'always', what: said.word }),
      );
  }
  return turns;
}

/** What is wrong with one turn as it is drawn, open and answered, in every language. */
function wrongWith(messages: Message[]): string[] {
  return LANGUAGES.flatMap(locale => {
    const words = wordsFor(locale);
    const question = messages.find(isQuestion);
    const open = drawn(messages, CONVERSATION, 'r123456', words);
    const done = redrawn(messages, question?.number ?? 0, 'x'.repeat(5000), 'u123456', words);
    const wrong = [...wrongMessage(open), ...wrongMessage(done)];
    if (question === undefined) return wrong;
    for (const { label } of question.answers)
      if (!open.text.includes(label.replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll('>', '&gt;')))
        wrong.push(`the text does not say ${label}`);
    const shown = answersIn({ blocks: open.blocks } as never);
    if (shown.length !== question.answers.length)
      wrong.push(`${shown.length} of ${question.answers.length} answers shown`);
    if (answersIn({ blocks: done.blocks } as never).length > 0)
      wrong.push('an answered question can be answered');
    return wrong;
  });
}

describe.each(flows)('%s', flow => {
  const file = `flows/${flow}/walks.yaml`;
  const all = walks.parse(readYaml(file, readFileSync(file, 'utf8')).value);

  test('what is said on its walks fits into Slack', () => {
    const wrong = all.flatMap(walk =>
      turnsOf(walk).flatMap(turn => (turn.length === 0 ? [] : wrongWith(turn))),
    );
    expect([...new Set(wrong)]).toEqual([]);
  });

  test('every question of it fits into Slack, on no walk too', () => {
    const { script } = knowledge.flows[flow]!;
    const steps = [...script.main, ...Object.values(script.interrupts).flatMap(({ steps }) => steps)];
    const wrong = steps.flatMap((step): string[] => {
      if (step.kind !== 'ask' && step.kind !== 'try') return [];
      const asked = {
        number: 1234,
        step: step.id,
        answers: step.answers.map(({ id, label }) => ({ id, label })),
        help: step.help,
        always: ['back' as const, 'again' as const, 'person' as const, 'stop' as const],
        left: { shortest: 11, longest: 25 },
      };
      const { text } = step;
      const message: Message =
        step.kind === 'try'
          ? { ...asked, kind: 'try', text, effect: step.effect, minutes: step.minutes, works: step.works }
          : {
              ...asked,
              kind: 'ask',
              text,
              form: step.form,
              optional: step.optional,
              unit: step.unit,
              minimum: step.minimum,
              maximum: step.maximum,
            };
      return wrongWith([message]);
    });
    expect([...new Set(wrong)]).toEqual([]);
  });
});

test('the greeting, and what is asked of who comes back, fit into Slack', () => {
  const rehearsal = rehearse(knowledge);
  const base = (identity: string) => ({
    identity,
    at: rehearsal.now(),
    address: rehearsal.conversation().address,
  });
  const turns = [
    rehearsal.take({ ...base('1'), kind: 'arrived' }),
    rehearsal.say('my laptop says no bootable device found'),
    rehearsal.take({ ...base('2'), kind: 'arrived', words: 'a *bold* <!channel> question' }),
  ];
  expect(turns.map(turn => turn.findLast(isQuestion)?.step)).toEqual([
    '@opening',
    expect.any(String),
    '@returned',
  ]);
  expect(turns.flatMap(wrongWith)).toEqual([]);
});

test('a text of a size that nobody foresaw is cut and split, the question last and whole', () => {
  const long = `${'word '.repeat(9000)}\n${'&<>'.repeat(3000)}`;
  const question: Message = {
    kind: 'ask',
    number: 1,
    step: '@desk',
    form: 'choice',
    text: 'Is it?',
    answers: Array.from({ length: 11 }, (_, index) => ({ id: `a${index}`, label: `Answer ${index}` })),
    help: null,
    always: ['person'],
    left: null,
    optional: false,
    unit: null,
    minimum: null,
    maximum: null,
  };
  const said: Message[] = [{ kind: 'say', text: long }, { kind: 'caution', id: 'c', text: long }, question];
  expect(wrongWith(said)).toEqual([]);
});
