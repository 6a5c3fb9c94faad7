/** The arrows against the engine itself: conversations take the arrows, and each arrow is taken by some conversation. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { type Arrow, passageOf } from '#drawing/arrows.ts';
import { beginning } from '#drawing/known.ts';
import type { Written } from '#drawing/written.ts';
import { advance, follow, openStep } from '#engine/advance.ts';
import type { Flow } from '#engine/schema.ts';
import type { Script } from '#engine/script.ts';
import { fresh, type State } from '#engine/state.ts';
import { blocks, catalogue, compiled } from '../support/flows.ts';
import { randomFlow } from '../support/random-flow.ts';
import { scripts, subjects, written } from './shipped.ts';

const small: Written = {
  flows: {},
  blocks,
  sites: [],
  faults: {},
  cautions: {},
  policies: Object.fromEntries(Object.entries(catalogue.policies).map(([id, { values }]) => [id, values])),
};

const arrowsOf = ({ steps }: Flow, of: Written) => passageOf(steps, [beginning(steps, of, false)], of).arrows;

/** A step of the file that a conversation came to, and whether it was had. */
interface Passed {
  index: number;
  taken: boolean;
}

/** One conversation as it passes the steps of the file; `pick` chooses an answer among so many. */
function conversation(
  script: Script,
  policies: Record<string, string>,
  pick: (count: number) => number,
): { passed: Passed[]; answers: Map<number, string>; state: State } {
  const places = placesOf(script);
  const state = fresh({ ...script.start, ...policies });
  state.frames = [{ segment: 'main', at: 0 }];
  const passed: Passed[] = [];
  const answers = new Map<number, string>();
  const watch = {
    passed: ({ id }: { id: string }, taken: boolean) => {
      const index = places.get(id);
      if (index !== undefined && passed.at(-1)?.index !== index) passed.push({ index, taken });
      // A question is met again once it is answered: it counts as had when it was asked.
      else if (index !== undefined && taken) passed.at(-1)!.taken = true;
    },
    unset: () => undefined,
  };
  for (let turn = 0; turn < 80; turn++) {
    advance(script, state, watch);
    const step = openStep(script, state);
    if (step === null) break;
    const open = step.kind === 'ask' && step.answers.length === 0;
    const ids = open
      ? step.optional
        ? ['given', 'skipped']
        : ['given']
      : step.answers.map(answer => answer.id);
    const id = ids[pick(ids.length)]!;
    const index = places.get(step.id);
    if (index !== undefined) answers.set(index, id);
    follow(script, state, step, id);
  }
  return { passed, answers, state };
}

/** Places of the steps that stand in the flow's own file; those of visited blocks have a dot in their id. */
const placesOf = (script: Script): Map<string, number> =>
  new Map(
    script.main
      .filter(({ id, kind }) => !id.includes('.') && kind !== 'mark')
      .map(({ id }, index) => [id, index]),
  );

/** The arrows that the conversation took, or where it went without one. */
function taken(
  script: Script,
  arrows: Arrow[],
  { passed, answers, state }: ReturnType<typeof conversation>,
): { used: Arrow[]; missing: string[] } {
  const used: Arrow[] = [];
  const missing: string[] = [];
  let at = passed.findIndex(each => each.taken);
  while (at !== -1) {
    const { index } = passed[at]!;
    const answer = answers.get(index);
    const next = passed.findIndex((each, place) => place > at && each.taken);
    const arrow = arrows.find(
      ({ from, exit }) =>
        from === index &&
        (answer === undefined ? exit === 'on' : typeof exit === 'object' && exit.answer === answer),
    );
    if (next === -1 && (arrow?.to === 'fixed' || arrow?.to === 'hand-over')) {
      used.push(arrow);
      break;
    }
    // It ended here, by a hand-over or an end, or inside a block.
    if (next === -1 && state.frames[0]!.at < script.main.length) break;
    const goal = next === -1 ? 'out' : passed[next]!.index;
    let to = arrow;
    while (to !== undefined && to.to !== goal) {
      used.push(to);
      const gate = to.to;
      to = arrows.find(({ from, exit }) => from === gate && exit === 'past');
    }
    if (to === undefined) missing.push(`from ${index + 1} by ${answer ?? 'on'} to ${goal}`);
    else used.push(to);
    at = next;
  }
  return { used, missing };
}

describe('arrows', () => {
  const flows = subjects.filter(({ kind }) => kind === 'flow');
  test.each(flows)('every conversation about $id takes them', ({ id }) => {
    const arrows = arrowsOf(written.flows[id]!, written);
    const policies = fc.record(
      Object.fromEntries(
        Object.entries(written.policies).map(([name, values]) => [
          `policy.${name}`,
          fc.constantFrom(...values),
        ]),
      ),
    );
    fc.assert(
      fc.property(policies, fc.array(fc.nat(1000), { minLength: 80, maxLength: 80 }), (given, picks) => {
        const rest = [...picks];
        const talk = conversation(scripts[id]!, given, count => rest.shift()! % count);
        expect(taken(scripts[id]!, arrows, talk).missing).toEqual([]);
      }),
      { numRuns: 300 },
    );
  });

  test('of small flows are those that conversations take, no more and no fewer', () => {
    fc.assert(
      fc.property(randomFlow, given => {
        const arrows = arrowsOf(given, small);
        const script = compiled(given).script;
        const used = new Set<Arrow>();
        for (const talk of allConversations(script)) {
          const found = taken(script, arrows, talk);
          expect(found.missing).toEqual([]);
          for (const arrow of found.used) used.add(arrow);
        }
        const unreached = passageOf(given.steps, [beginning(given.steps, small, false)], small).unreached;
        expect(arrows.filter(arrow => !used.has(arrow) && !unreached.has(arrow.from))).toEqual([]);
      }),
      { numRuns: 200 },
    );
  });
});

/** Every conversation there is, by counting through the choices. */
function* allConversations(script: Script): Generator<ReturnType<typeof conversation>> {
  const choices: { at: number; count: number }[] = [];
  for (let total = 0; total < 20_000; total++) {
    let depth = 0;
    yield conversation(script, {}, count => {
      const choice = choices[depth] ?? { at: 0, count };
      choices[depth] = choice;
      depth += 1;
      return choice.at;
    });
    choices.length = depth;
    while (choices.length > 0 && choices.at(-1)!.at + 1 === choices.at(-1)!.count) choices.pop();
    const last = choices.at(-1);
    if (last === undefined) return;
    last.at += 1;
  }
}
