/** Ways to damage a flow so that it is unsafe or broken. Each is small, and such as an author could make in good faith. */
import type { Raw, Sources } from './sources.ts';

export interface Damage {
  /** Stands for it in harmless.yaml, so it says what was done where. */
  name: string;
  /** The file it is done to: a symptom, `blocks/NAME` or `catalogue`. */
  unit: string;
  apply(sources: Sources): void;
}

/** Does something to the steps of a file; the index is the step's. */
type Cut = (steps: Raw[], index: number) => void;

/** Everything that can be done to one step, by name. */
type Maker = (step: Raw, next: Raw | undefined) => Record<string, Cut | undefined>;

const edit =
  (change: (step: Raw) => void): Cut =>
  (steps, index) =>
    change(steps[index]);

const replace =
  (other: Raw): Cut =>
  (steps, index) => {
    const { id, if: when } = steps[index];
    steps[index] = { ...(id && { id }), ...(when && { if: when }), ...other };
  };

const insert =
  (other: Raw): Cut =>
  (steps, index) => {
    steps.splice(index, 0, other);
  };

const remove: Cut = (steps, index) => {
  steps.splice(index, 1);
};

const swapWithNext: Cut = (steps, index) => {
  steps.splice(index, 2, steps[index + 1], steps[index]);
};

const does = (step: Raw): boolean =>
  step.try !== undefined || step.hand_over !== undefined || step.end !== undefined;

/** Words, the data question, hand-overs and what fills the ticket: without them something is missing. */
const leftOut: Maker = step =>
  step.visit || step.caution || step.hand_over || step.end || (step.ask && (step.fills || step.raises))
    ? { 'left out': remove }
    : {};

const conditions: Maker = step => {
  if (!step.if || !(does(step) || step.visit || step.caution || step.raises)) return {};
  const keys = Object.keys(step.if).filter(key => !['all', 'any', 'not'].includes(key));
  return {
    'condition left out': edit(each => delete each.if),
    'condition turned round': edit(each => (each.if = { not: each.if })),
    ...(keys.length > 1 && (does(step) || step.visit)
      ? Object.fromEntries(
          keys.map(key => [`condition loosened by ${key}`, edit(each => delete each.if[key])]),
        )
      : {}),
  };
};

const signs: Maker = step =>
  Object.fromEntries(
    Object.entries(step.raises ?? {}).flatMap(([answer, raised]) =>
      (raised as string[]).map((sign): [string, Cut] => [
        `${answer} does not raise ${sign}`,
        edit(each => {
          each.raises[answer] = each.raises[answer].filter((other: string) => other !== sign);
          if (each.raises[answer].length === 0) delete each.raises[answer];
        }),
      ]),
    ),
  );

/** The two answers whose consequences differ most: one that raises something and one that does not. */
const branches: Maker = step => {
  const answers = Object.keys(step.answers ?? {});
  const raising = answers.find(answer => step.raises?.[answer]);
  const quiet = answers.find(answer => !step.raises?.[answer]);
  if (raising === undefined || quiet === undefined) return {};
  return {
    [`${raising} and ${quiet} swapped`]: edit(each => {
      for (const part of ['raises', 'sets', 'goes'] as const) {
        const of = each[part];
        if (!of) continue;
        [of[raising], of[quiet]] = [of[quiet], of[raising]];
        for (const answer of [raising, quiet]) if (of[answer] === undefined) delete of[answer];
      }
    }),
  };
};

const EFFECTS = ['none', 'start', 'read', 'write'];

const tries: Maker = step => ({
  ...(step.try && step.effect !== 'none'
    ? { 'effect lowered': edit(each => (each.effect = EFFECTS[EFFECTS.indexOf(each.effect) - 1])) }
    : {}),
  ...(step.touches ? { 'touches left out': edit(each => delete each.touches) } : {}),
  ...(step.try && step.cautions ? { 'its caution left out': edit(each => delete each.cautions) } : {}),
});

const endings: Maker = step =>
  step.hand_over
    ? {
        'hand-over turned into fixed': replace({
          ...{
            id: 'damaged-fix',
            try: 'Push its lead in.',
            effect: 'none',
            minutes: 1,
            fixed: 'cable-loose',
          },
        }),
        'hand-over turned away': replace({ end: 'not-storage' }),
        'hand-over says to keep it the other way': edit(each => {
          each.hand_over.keep = each.hand_over.keep === 'off' ? 'on' : 'off';
        }),
      }
    : {};

const fields: Maker = step => ({
  ...(step.fills ? { 'fills nothing': edit(each => delete each.fills) } : {}),
  ...(step.goes ? { 'goes nowhere': edit(each => delete each.goes) } : {}),
});

const inserted: Maker = (step, next) => ({
  'a repair before it': insert({
    ...{
      id: 'damaged-repair',
      try: 'Let the system repair it.',
      effect: 'write',
      minutes: 30,
      fixed: 'drive-failing',
    },
  }),
  'a start before it': insert({ id: 'damaged-start', try: 'Restart it.', effect: 'start', minutes: 3 }),
  'formatting before it': insert({
    ...{ id: 'damaged-format', try: 'Format it.', effect: 'write', touches: ['format'], minutes: 9 },
  }),
  ...(next?.try && (step.caution || step.visit) ? { 'said after the step it is for': swapWithNext } : {}),
});

const misspelt: Maker = step => ({
  ...(step.visit ? { 'block misspelt': edit(each => (each.visit += '-x')) } : {}),
  ...(step.caution ? { 'caution misspelt': edit(each => (each.caution += '-x')) } : {}),
  ...(step.if && !step.if.all && !step.if.any && !step.if.not
    ? {
        'condition misspelt': edit(each => {
          const [[key, value]] = Object.entries(each.if) as [[string, unknown]];
          each.if = { [`${key}-x`]: value };
        }),
      }
    : {}),
  ...(step.raises
    ? { 'answer misspelt': edit(each => (each.raises = { 'no-such-answer': Object.values(each.raises)[0] })) }
    : {}),
});

const failureSetBack: Maker = step =>
  step.raises && step.answers
    ? {
        'failure set back': edit(each => {
          const answer = Object.keys(each.answers)[0]!;
          each.sets = { ...each.sets, [answer]: { ...each.sets?.[answer], 'hardware-failure': 'no' } };
        }),
      }
    : {};

const MAKERS = [
  leftOut,
  conditions,
  signs,
  branches,
  tries,
  endings,
  fields,
  inserted,
  misspelt,
  failureSetBack,
];

const kindOf = (step: Raw): string =>
  ['ask', 'try', 'visit', 'hand_over', 'caution', 'end', 'say'].find(kind => kind in step) ?? 'step';

/** A name for a step that survives changes elsewhere in its file. */
function namesOf(steps: Raw[]): string[] {
  const counts = new Map<string, number>();
  return steps.map(step => {
    const name =
      step.id ??
      (step.visit ? `visit ${step.visit}` : step.caution ? `caution ${step.caution}` : kindOf(step));
    const count = (counts.get(name) ?? 0) + 1;
    counts.set(name, count);
    return count === 1 ? name : `${name} (${count})`;
  });
}

function toSteps(unit: string, steps: Raw[], find: (sources: Sources) => Raw[]): Damage[] {
  const names = namesOf(steps);
  return steps.flatMap((step, index) =>
    MAKERS.flatMap(make =>
      Object.entries(make(step, steps[index + 1])).map(([what, cut]) => ({
        name: `${unit}: ${names[index]}: ${what}`,
        unit,
        apply: (sources: Sources) => cut?.(find(sources), index),
      })),
    ),
  );
}

function toCatalogue({ catalogue }: Sources): Damage[] {
  const on = (name: string, apply: (catalogue: Raw) => void): Damage => ({
    name: `catalogue: ${name}`,
    unit: 'catalogue',
    apply: sources => apply(sources.catalogue),
  });
  return [
    ...Object.entries(catalogue.interrupts).flatMap(([id, about]: [string, Raw]) => [
      ...(about.sign === 'mechanical'
        ? []
        : [
            on(`interrupt ${id} left out`, all => delete all.interrupts[id]),
            on(`interrupt ${id} outranked`, all => (all.interrupts.mechanical.rank = about.rank + 9)),
            on(`interrupt ${id} not everywhere`, all => (all.interrupts[id].not_for = ['drive-noise'])),
          ]),
      on(`interrupt ${id} to no block`, all => (all.interrupts[id].block = 'no-such-block')),
      on(`interrupt ${id} to another block`, all => (all.interrupts[id].block = 'where-are-you')),
      on(`interrupt ${id} without its words`, all => (all.interrupts[id].caution = 'no-such-caution')),
    ]),
    ...Object.entries(catalogue.cautions)
      .filter(([, { on_sign }]: [string, Raw]) => on_sign && on_sign !== 'only-copy')
      .map(([id]) => on(`caution ${id} not with its sign`, all => delete all.cautions[id].on_sign)),
    on(
      'the words for data without Cancel',
      all => (all.cautions['data-first'].text = 'Your files come first.'),
    ),
    on('the words for data left out', all => delete all.cautions['data-first']),
    on('the words for a case left out', all => delete all.cautions['case-safe']),
  ];
}

export function damagesTo(sources: Sources): Damage[] {
  return [
    ...Object.entries(sources.flows).flatMap(([symptom, { steps }]) =>
      toSteps(symptom, steps, ({ flows }) => flows[symptom].steps),
    ),
    ...Object.entries(sources.blocks).flatMap(([id, { steps }]) =>
      toSteps(`blocks/${id}`, steps, ({ blocks }) => blocks[id].steps),
    ),
    ...toCatalogue(sources),
  ];
}
