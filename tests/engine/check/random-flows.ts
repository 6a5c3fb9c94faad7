/** Small flows of every shape, sensible or not: what matters is that two ways of looking at them agree. */
import fc from 'fast-check';
import type { Catalogue, Policies } from '#engine/catalogue.ts';
import { type Compiled, compile } from '#engine/compile.ts';
import { block as blockShape, EFFECTS, flow as flowShape, SIGNS, TOUCHES } from '#engine/schema.ts';
import { DEFAULT, SITE } from './fixture.ts';

const FINDINGS = ['q0', 'q1', 'q2', 'q3', 'copy', 'device', 'times', 'encryption'];
const VALUES: Record<string, string[]> = {
  q0: ['a', 'b'],
  q1: ['a', 'b'],
  q2: ['a', 'b', 'not-sure'],
  q3: ['a', 'b'],
  copy: ['seen', 'nowhere'],
  device: ['laptop', 'server'],
  times: ['first', 'third'],
  encryption: ['on', 'off'],
};
const FIELDS = ['place.site', 'place.room', 'contact.way', 'data.copy', 'power.now'] as const;
const CAUTIONS = ['data-first', 'case-safe', 'danger-first'];
const CLEARED = ['suspect', 'mechanical', 'only-copy'];

const maybe = <T>(of: fc.Arbitrary<T>, freq = 3) => fc.option(of, { nil: undefined, freq });
const some = <T>(of: readonly T[], maxLength = 2) =>
  fc.uniqueArray(fc.constantFrom(...of), { minLength: 1, maxLength });

const leafCondition = fc
  .constantFrom(...FINDINGS, 'suspect', 'mechanical', 'danger', 'hardware-failure', 'policy.case')
  .chain(finding =>
    some(VALUES[finding] ?? (finding === 'policy.case' ? ['desk', 'allowed'] : ['yes', 'no'])).map(
      values => ({ [finding]: values }),
    ),
  );
const condition = fc.oneof(
  { weight: 4, arbitrary: leafCondition },
  { weight: 1, arbitrary: leafCondition.map(not => ({ not })) },
  { weight: 1, arbitrary: fc.array(leafCondition, { minLength: 2, maxLength: 2 }).map(all => ({ all })) },
  {
    weight: 2,
    arbitrary: fc.tuple(leafCondition, leafCondition).map(([one, other]) => ({ ...one, ...other })),
  },
  { weight: 1, arbitrary: fc.array(leafCondition, { minLength: 2, maxLength: 2 }).map(any => ({ any })) },
);

/** What answers bring with them. `later`: steps that they may go on to. */
const effects = (answers: readonly string[], later: readonly string[]) => {
  const per = <T>(of: fc.Arbitrary<T>) =>
    maybe(fc.constantFrom(...answers).chain(answer => of.map(value => ({ [answer]: value }))));
  return fc.record({
    raises: per(some(SIGNS)),
    clears: per(some(CLEARED, 1)),
    sets: per(
      fc
        .constantFrom(...FINDINGS)
        .chain(finding => fc.constantFrom(...VALUES[finding]!).map(value => ({ [finding]: value }))),
    ),
    goes: later.length === 0 ? fc.constant(undefined) : per(fc.constantFrom(...later)),
    cautions: maybe(some(CAUTIONS, 1)),
  });
};

type Draft = Record<string, unknown>;

function step(id: string, later: readonly string[], blocks: readonly string[]): fc.Arbitrary<Draft> {
  const ask = fc.constantFrom(...FINDINGS).chain(finding => {
    const answers = VALUES[finding]!;
    return fc.record({
      ask: fc.constant(`What about ${finding}?`),
      as: fc.constant(finding),
      answers: fc.constant(Object.fromEntries(answers.map(value => [value, `It is ${value}`]))),
      fills: maybe(some(FIELDS, 3)),
      rest: effects(answers, later),
    });
  });
  const open = fc.record({
    ask: fc.constant('Tell me more.'),
    kind: fc.constant('text'),
    optional: fc.boolean(),
    fills: maybe(some(FIELDS, 3)),
    rest: effects(['given'], later),
  });
  const attempt = fc.boolean().chain(fixing =>
    fc.record({
      try: fc.constant('Do something.'),
      effect: fc.constantFrom(...EFFECTS),
      touches: maybe(some(TOUCHES, 1), 2),
      minutes: fc.constant(1),
      fixed: fc.constant(fixing ? 'cable-loose' : undefined),
      rest: effects(fixing ? ['fixed', 'no-change', 'could-not'] : ['done', 'could-not'], later),
    }),
  );
  const quiet: fc.Arbitrary<Draft>[] = [
    fc.constant({ say: `Words of ${id}.` }),
    fc.constantFrom(...CAUTIONS).map(caution => ({ caution })),
    fc.constant({ hand_over: {} }),
    fc.constant({ work_out: 'outage', raises: { 'tell-the-desk': ['suspect'] } }),
    fc.constant({ end: 'not-storage' }),
    ...(blocks.length > 0 ? [fc.constantFrom(...blocks).map(visit => ({ visit }))] : []),
  ];
  return fc
    .tuple(
      fc.oneof(
        { weight: 5, arbitrary: ask },
        { weight: 1, arbitrary: open },
        { weight: 4, arbitrary: attempt },
        ...quiet,
      ),
      maybe(condition, 2),
    )
    .map(([{ rest = {}, ...body }, when]: [Draft, unknown]) => ({
      ...body,
      ...(rest as Draft),
      id,
      if: when,
    }));
}

function steps(
  prefix: string,
  count: number,
  blocks: readonly string[],
  inBlock: boolean,
): fc.Arbitrary<Draft[]> {
  const ids = Array.from({ length: count }, (_, index) => `${prefix}${index}`);
  return fc.tuple(
    ...ids.map((id, index) => step(id, [...ids.slice(index + 1), ...(inBlock ? ['return'] : [])], blocks)),
  );
}

const body = (prefix: string, blocks: readonly string[], most: number) =>
  fc.integer({ min: 1, max: most }).chain(count => steps(prefix, count, blocks, true));

const policies: Policies = {
  case: { about: 'case', values: ['desk', 'allowed'], default: 'desk' },
  firmware: { about: 'firmware', values: ['allowed', 'locked'], default: 'locked' },
};

/** Flows that visit the same blocks, and the catalogue they stand on. */
export interface RandomFlows {
  flows: Compiled[];
  catalogue: Catalogue;
}

const SYMPTOMS = ['drive-noise', 'drive-slow', 'boot-no-device', 'boot-no-os', 'raid-alarm', 'desk-bench'];

const main = (most: number) =>
  fc
    .integer({ min: 1, max: most })
    .chain(count => steps('s', count, ['one', 'two', 'danger', 'noise'], false));

export const randomFlows = (most: number): fc.Arbitrary<RandomFlows> =>
  fc
    .record({
      mains: fc.dictionary(fc.constantFrom(...SYMPTOMS), main(5), { minKeys: 1, maxKeys: most }),
      one: body('o', ['two'], 3),
      two: body('t', [], 2),
      danger: body('d', ['two'], 3),
      noise: body('n', [], 2),
      interrupts: fc.constantFrom([], ['noise'], ['danger'], ['danger', 'noise']),
      caution: fc.constantFrom('danger-first', 'data-first'),
    })
    .map(({ mains, interrupts, caution, ...blocks }) => {
      const inlined = Object.fromEntries(
        Object.entries(blocks).map(([id, inner]) => [
          id,
          blockShape.parse({ block: id, about: 'random', steps: clean(inner) }),
        ]),
      );
      const heard = {
        danger: { rank: 3, sign: 'danger', block: 'danger', caution, doubt: 'Danger?', sure: ['smoke'] },
        noise: { rank: 1, sign: 'mechanical', block: 'noise', caution, doubt: 'Noise?', sure: ['clicks'] },
      } as const;
      const catalogue = {
        ...DEFAULT,
        policies,
        interrupts: Object.fromEntries(interrupts.map(id => [id, heard[id as keyof typeof heard]])),
      } as unknown as Catalogue;
      const flows = Object.entries(mains).map(([symptom, each]) => {
        const flow = flowShape.parse({ symptom, title: 'Random', steps: clean(each) });
        return compile(flow, inlined, catalogue, SITE);
      });
      return { flows, catalogue };
    });

/** Without what is left out; a visit to the same block twice needs ids of its own. */
const clean = (drafts: Draft[]): unknown[] => JSON.parse(JSON.stringify(drafts));
