/**
 * What can be done to one step so that its flow is unsafe or broken: small, and such as an author could do in good faith.
 *
 * Left out, because by construction they do no harm:
 * - taking `suspect` from an answer that raises `hardware-failure` as well: every rule and the ticket treat both alike;
 * - less evidence where the answer raises a sign all the same: evidence orders the suspects, what is done follows the signs;
 * - taking away a finding that no rule looks at: a condition that misses it is found anyway, else the question is asked again;
 * - a start, a read, a repair, other words about the power, or a sign called off at the desk: technicians may; what they may
 *   not (members, keys, formatting, cases) is damaged in other ways;
 * - a question that is left out, or fills nothing, where not every ticket needs the field: the ticket has one answer less;
 * - a question that is asked of more people, or a step with effect none (which needs nothing first): it costs a minute;
 * - listening, but for where the answer before says that the drive clicks: it harms no other drive;
 * - a step put before words: it stands before the question behind them as well, and that damage is there.
 */
import { WATCHED_FINDINGS } from '#engine/check/names.ts';
import { FIELD_TABLE, type Field } from '#engine/fields.ts';
import { SIGNS } from '#engine/schema.ts';
import type { Raw } from './sources.ts';

/** Does something to the steps of a file; the index is the step's. */
export type Cut = (steps: Raw[], index: number) => void;

export interface Around {
  step: Raw;
  /** The steps before and behind it in its file. */
  before: Raw[];
  later: Raw[];
  /** For technicians. */
  desk: boolean;
  /** Blocks that the file does not visit yet. */
  unvisited: readonly string[];
  /** Faults by which a drive is failing, and one that this file's flows are not about. */
  failing: ReadonlySet<string>;
  foreign: string | undefined;
}

/** Everything that can be done to one step, by name. */
type Maker = (around: Around) => Record<string, Cut | undefined>;

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

const named = (cuts: [string, Cut][]): Record<string, Cut> => Object.fromEntries(cuts);

const does = (step: Raw): boolean =>
  step.try !== undefined || step.hand_over !== undefined || step.end !== undefined;

/** Does it fill a field that every ticket needs? */
const isNeeded = (step: Raw): boolean =>
  [step.fills ?? []].flat().some((field: Field) => FIELD_TABLE[field].always);

/** Words, the data question, hand-overs and what fills the ticket: without them something is missing. */
const leftOut: Maker = ({ step }) =>
  step.visit || step.caution || step.hand_over || step.end || (step.ask && (isNeeded(step) || step.raises))
    ? { 'left out': remove }
    : {};

const SIGN_NAMES: readonly string[] = SIGNS;

const conditions: Maker = ({ step }) => {
  if (!step.if || !(does(step) || step.visit || step.caution || step.raises)) return {};
  const keys = Object.keys(step.if).filter(key => !['all', 'any', 'not'].includes(key));
  const gentle = step.try && step.effect === 'none' && !step.touches;
  const loosened = keys.filter(key => !gentle || SIGN_NAMES.includes(key));
  return {
    ...(gentle || step.ask ? {} : { 'condition left out': edit(each => delete each.if) }),
    ...(gentle ? {} : { 'condition turned round': edit(each => (each.if = { not: each.if })) }),
    ...(keys.length > 1 && (does(step) || step.visit)
      ? named(loosened.map(key => [`condition loosened by ${key}`, edit(each => delete each.if[key])]))
      : {}),
  };
};

const signs: Maker = ({ step }) =>
  named(
    Object.entries<string[]>(step.raises ?? {}).flatMap(([answer, raised]) =>
      raised
        .filter(sign => sign !== 'suspect' || !raised.includes('hardware-failure'))
        .map((sign): [string, Cut] => [
          `${answer} does not raise ${sign}`,
          edit(each => {
            each.raises[answer] = each.raises[answer].filter((other: string) => other !== sign);
            if (each.raises[answer].length === 0) delete each.raises[answer];
          }),
        ]),
    ),
  );

const PARTS = ['raises', 'clears', 'sets', 'goes'] as const;

/** The two answers whose consequences differ most: one that raises something and one that does not. */
const branches: Maker = ({ step }) => {
  const answers = Object.keys(step.answers ?? {});
  const raising = answers.find(answer => step.raises?.[answer]);
  const quiet = answers.find(answer => !step.raises?.[answer]);
  if (raising === undefined || quiet === undefined) return {};
  return {
    [`${raising} and ${quiet} swapped`]: edit(each => {
      for (const part of PARTS) {
        const of = each[part];
        if (!of) continue;
        [of[raising], of[quiet]] = [of[quiet], of[raising]];
        for (const answer of [raising, quiet]) if (of[answer] === undefined) delete of[answer];
      }
    }),
  };
};

/** Findings that rules look at. */
const settled: Maker = ({ step }) =>
  named(
    Object.entries<Raw>(step.sets ?? {})
      .filter(([, findings]) => Object.keys(findings).some(finding => finding in WATCHED_FINDINGS))
      .map(([answer]) => [`${answer} settles nothing`, edit(each => delete each.sets[answer])]),
  );

/** Evidence for a failing drive, where there is much of it and it is all that speaks. */
const evidence: Maker = ({ step, failing }) =>
  named(
    Object.entries<Raw>(step.evidence ?? {})
      .filter(
        ([answer, { for: given = {} }]) =>
          !step.raises?.[answer] &&
          Object.entries<number>(given).some(([fault, bits]) => failing.has(fault) && bits >= 2),
      )
      .map(([answer]) => [
        `${answer} speaks for no failing drive`,
        edit(each => {
          // One list may stand at several questions; only this one's is damaged.
          each.evidence = structuredClone(each.evidence);
          for (const fault of Object.keys(each.evidence[answer].for)) {
            if (failing.has(fault)) delete each.evidence[answer].for[fault];
          }
        }),
      ]),
  );

/** A suspicion that goes away by itself: by an answer that raises nothing, or a test that showed nothing. */
const cleared: Maker = ({ step, desk }) => {
  if (desk) return {};
  const answer = step.try
    ? step.fixed && 'no-change'
    : Object.keys(step.answers ?? {}).find(each => step.raises && !step.raises[each]);
  if (!answer) return {};
  return {
    [`${answer} clears suspect`]: edit(each => {
      each.clears = { ...each.clears, [answer]: ['suspect'] };
    }),
  };
};

const EFFECTS = ['none', 'start', 'read', 'write'];

const tries: Maker = ({ step, foreign, desk }) => ({
  ...(step.try && step.effect !== 'none'
    ? { 'effect lowered': edit(each => (each.effect = EFFECTS[EFFECTS.indexOf(each.effect) - 1])) }
    : {}),
  ...(step.touches ? { 'touches left out': edit(each => delete each.touches) } : {}),
  ...(step.cautions ? { 'its caution left out': edit(each => delete each.cautions) } : {}),
  ...(step.fixed && !desk
    ? {
        'called fixed where the drive is failing': edit(each => (each.fixed = 'drive-failing')),
        ...(foreign === undefined
          ? {}
          : { "called fixed by another matter's fault": edit(each => (each.fixed = foreign)) }),
      }
    : {}),
});

const LOOKS_AT_LEAD = {
  ...{ id: 'damaged-fix', try: 'Push its lead in.', effect: 'none', minutes: 1, fixed: 'cable-loose' },
};

const endings: Maker = ({ step, desk }) =>
  step.hand_over
    ? {
        'hand-over turned into fixed': replace(LOOKS_AT_LEAD),
        'hand-over turned away': replace({ end: 'not-storage' }),
        ...(desk
          ? {}
          : {
              'hand-over says to keep it the other way': edit(each => {
                each.hand_over.keep = each.hand_over.keep === 'off' ? 'on' : 'off';
              }),
            }),
        ...(step.hand_over.keep && !desk
          ? { 'hand-over says nothing about the power': edit(each => delete each.hand_over.keep) }
          : {}),
      }
    : {};

const fields: Maker = ({ step, desk }) => ({
  ...(isNeeded(step) && !desk ? { 'fills nothing': edit(each => delete each.fills) } : {}),
  ...(step.goes ? { 'goes nowhere': edit(each => delete each.goes) } : {}),
});

/** What nobody may do at home or in the office. */
const FOR_PEOPLE = {
  'a repair before it': {
    ...{ id: 'damaged-repair', try: 'Let the system repair it.', effect: 'write', minutes: 30 },
    fixed: 'file-system-damaged',
  },
  'a start before it': { id: 'damaged-start', try: 'Restart it.', effect: 'start', minutes: 3 },
};
const FOR_PEOPLE_BEFORE_DEEDS = {
  'a search before it': {
    ...{ id: 'damaged-search', try: 'Let it search the drive for errors.', effect: 'read', minutes: 30 },
  },
  'changed settings before it': {
    ...{
      id: 'damaged-settings',
      try: 'Load the defaults in its firmware setup.',
      effect: 'start',
      minutes: 5,
    },
    touches: ['firmware-settings'],
  },
  'a pulled member before it': {
    ...{ id: 'damaged-pull', try: 'Pull the tray with the red light.', effect: 'none', minutes: 2 },
    touches: ['array-member'],
  },
};

/** What nobody may do, or only once much else is settled. */
const FOR_ALL = {
  'formatting before it': {
    ...{ id: 'damaged-format', try: 'Format it.', effect: 'write', touches: ['format'], minutes: 9 },
  },
};
const FOR_ALL_BEFORE_DEEDS = {
  'an open case before it': {
    ...{ id: 'damaged-case', try: 'Open the case and look.', effect: 'none', touches: ['case'], minutes: 5 },
  },
  'an open power supply before it': {
    ...{
      id: 'damaged-supply',
      try: 'Open the power supply.',
      effect: 'none',
      touches: ['power-supply'],
      minutes: 5,
    },
  },
  'a key asked for before it': {
    ...{ id: 'damaged-key', ask: 'What is the recovery key?', kind: 'text', fills: 'encryption.key' },
  },
};

const LISTENING = {
  ...{ id: 'damaged-listening', try: 'Hold an ear to it.', effect: 'none', touches: ['listen'], minutes: 1 },
};

const inserts = (steps: Raw): Record<string, Cut> =>
  named(Object.entries<Raw>(steps).map(([name, step]) => [name, insert(step)]));

const inserted: Maker = ({ step, before, later, desk }) => ({
  ...(step.say || step.caution ? {} : inserts({ ...FOR_ALL, ...(desk ? {} : FOR_PEOPLE) })),
  ...(does(step) ? inserts({ ...FOR_ALL_BEFORE_DEEDS, ...(desk ? {} : FOR_PEOPLE_BEFORE_DEEDS) }) : {}),
  ...(Object.values<string[]>(before.at(-1)?.raises ?? {})
    .flat()
    .includes('mechanical')
    ? inserts({ 'listening before it': LISTENING })
    : {}),
  ...(later[0]?.try && (step.caution || step.visit === 'data-first')
    ? { 'said after the step it is for': swapWithNext }
    : {}),
});

const astray: Maker = ({ step, unvisited }) => ({
  ...(step.visit
    ? {
        'block misspelt': edit(each => (each.visit += '-x')),
        ...(unvisited[0] ? { 'another block instead': edit(each => (each.visit = unvisited[0])) } : {}),
      }
    : {}),
  ...(step.caution
    ? {
        'caution misspelt': edit(each => (each.caution += '-x')),
        'another caution instead': edit(each => {
          each.caution = each.caution === 'keep-on' ? 'mechanical-first' : 'keep-on';
        }),
      }
    : {}),
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

const failureSetBack: Maker = ({ step }) =>
  step.raises && step.answers
    ? {
        'failure set back': edit(each => {
          const answer = Object.keys(each.answers)[0]!;
          each.sets = { ...each.sets, [answer]: { ...each.sets?.[answer], 'hardware-failure': 'no' } };
        }),
      }
    : {};

const MAKERS: readonly Maker[] = [
  leftOut,
  conditions,
  signs,
  branches,
  settled,
  evidence,
  cleared,
  tries,
  endings,
  fields,
  inserted,
  astray,
  failureSetBack,
];

export const cutsTo = (around: Around): [string, Cut][] =>
  MAKERS.flatMap(make =>
    Object.entries(make(around)).flatMap(([what, cut]): [string, Cut][] => (cut ? [[what, cut]] : [])),
  );
