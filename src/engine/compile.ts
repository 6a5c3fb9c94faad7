/** flow + blocks + catalogue -> script. Every mistake is collected with the place it stands at, none is thrown. */
import type { Catalogue, Site } from './catalogue.ts';
import { ADD_FAULT, type Context, consequences, needCautions, needKey, needKeys } from './consequences.ts';
import type { Field } from './fields.ts';
import { checkConditions, declare } from './findings.ts';
import { fromSite } from './listed.ts';
import { choiceOf } from './near.ts';
import { demandsListed, fillIn, shareWords } from './placeholders.ts';
import {
  type AskStep,
  type Block,
  type Condition,
  type Flow,
  type FlowStep,
  isDeskTopic,
  type TryStep,
} from './schema.ts';
import { type Answer, type Form, OPEN_VALUES, type Script, type Step, TRY_ANSWERS } from './script.ts';
import { tokensOf } from './tokens.ts';
import { workOf } from './work.ts';

/** Where a step was written: file `blocks/data-first` or the symptom, and the path inside it. */
export interface Origin {
  unit: string;
  path: (string | number)[];
}

/** One thing wrong with a flow and what to do about it. */
export interface Problem extends Origin {
  message: string;
  remedy: string;
}

export interface Compiled {
  script: Script;
  /** Step id to its place in the files, for messages; not part of the hash. */
  origins: Record<string, Origin>;
  problems: Problem[];
}

export function compile(
  flow: Flow,
  blocks: Readonly<Record<string, Block>>,
  catalogue: Catalogue,
  site: Site,
): Compiled {
  const { symptom } = flow;
  const problems: Problem[] = [];
  const origins: Record<string, Origin> = {};
  let ofShare = false;
  // A technician who writes "it clicks" needs no alarm for it; smoke and attackers are everybody's.
  const alarms = Object.entries(catalogue.interrupts).filter(
    ([, { sign }]) => !isDeskTopic(symptom) || sign === 'danger' || sign === 'attack',
  );
  const inline = (
    steps: FlowStep[],
    unit: string,
    prefix: string,
    visiting: string[],
    inFlow: string,
  ): Step[] =>
    steps.flatMap((step, index): Step[] => {
      const path = ['steps', index];
      const local =
        'id' in step && step.id ? step.id : 'visit' in step ? step.visit : `${kindOf(step)}-${index + 1}`;
      const id = prefix + local;
      const problem = (at: (string | number)[], message: string, remedy: string) =>
        problems.push({ unit, path: [...path, ...at], message, remedy });
      if (id in origins) {
        problem(['id'], `the id "${local}" is taken`, 'give this step an id of its own');
        // The steps that a second visit brings are not wrong once more.
        if ('visit' in step) return [];
      }
      origins[id] = { unit, path };
      if ('visit' in step) {
        const block = blocks[step.visit];
        if (block === undefined) {
          problem(['visit'], `there is no block "${step.visit}"`, choiceOf(step.visit, Object.keys(blocks)));
          return [];
        }
        if (visiting.includes(step.visit)) {
          problem(
            ['visit'],
            `block "${step.visit}" visits itself`,
            'a block is never recursive; take this visit out',
          );
          return [];
        }
        const end = `${id}.end`;
        const inner = inline(block.steps, `blocks/${step.visit}`, `${id}.`, [...visiting, step.visit], end);
        const gate: Step = { kind: 'gate', id, if: step.if ?? null, else: end };
        return [gate, ...inner, { kind: 'mark', id: end, if: null }];
      }
      const words: Context['words'] = (given, at) => {
        if (given === undefined) return null as never;
        const { text, ...filled } = fillIn(given, site, demandsListed(step.if ?? null));
        for (const { message, remedy } of filled.problems) problem(at, message, remedy);
        ofShare ||= filled.ofShare;
        return text as never;
      };
      const on = { unit, prefix, inFlow, steps, problem, words, catalogue, site, symptom };
      const made = stepOf(step, id, index, on);
      const within = alarms.flatMap(([alarm, { block }]) => (visiting.includes(block) ? [alarm] : []));
      return [within.length > 0 && 'after' in made ? { ...made, within } : made];
    });

  const main = inline(flow.steps, flow.symptom, '', [], '');
  const interrupts = Object.fromEntries(
    alarms.map(([id, about]) => {
      const block = blocks[about.block];
      const steps = block ? inline(block.steps, `blocks/${about.block}`, `${id}!`, [about.block], '') : [];
      const { rank, sign, caution, doubt } = about;
      return [id, { about: { id, rank, sign, caution, doubt }, steps }];
    }),
  );
  const script: Script = {
    format: 1,
    symptom: flow.symptom,
    title: flow.title,
    faults: Object.keys(catalogue.faults).filter(
      fault => flow.symptom === 'any' || catalogue.faults[fault]!.symptoms.includes(flow.symptom),
    ),
    main,
    interrupts,
    findings: {},
    start: {},
    cautions: Object.fromEntries(
      Object.entries(catalogue.cautions).map(([id, { text, on_sign, takes_over, do: does, dont }]) => [
        id,
        // The one text in which seconds count names the number to call.
        {
          text: on_sign === 'danger' ? `${site.emergency.words} ${text}` : text,
          do: does ?? [],
          dont: dont ?? [],
          ...(takes_over && { takesOver: takes_over }),
        },
      ]),
    ),
    onSign: Object.fromEntries(
      Object.entries(catalogue.cautions).flatMap(([id, { on_sign }]) => (on_sign ? [[on_sign, id]] : [])),
    ),
  };
  if (ofShare) script.shares = shareWords(site);
  declare(script, catalogue, site);
  checkConditions(script, origins, problems);
  return { script, origins, problems };
}

const kindOf = (step: FlowStep) =>
  (['ask', 'try', 'work_out', 'visit', 'hand_over', 'caution', 'end', 'say'] as const).find(
    kind => kind in step,
  ) ?? 'step';

function stepOf(step: Exclude<FlowStep, { visit: string }>, id: string, index: number, on: Context): Step {
  const base = { id, if: (step.if ?? null) as Condition | null };
  if ('ask' in step) return askOf(step, base, index, on);
  if ('try' in step) return tryOf(step, base, index, on);
  if ('hand_over' in step) {
    return {
      ...base,
      kind: 'hand-over',
      because: on.words(step.hand_over.because, ['hand_over', 'because']),
      keep: step.hand_over.keep ?? null,
    };
  }
  if ('work_out' in step) return workOf(step, base, index, on);
  if ('caution' in step) {
    needCautions([step.caution], ['caution'], on);
    return { ...base, kind: 'caution', caution: step.caution };
  }
  if ('end' in step && (step.end === 'done') !== isDeskTopic(on.symptom)) {
    on.problem(
      ['end'],
      step.end === 'done' ? 'only a desk flow is done' : 'a desk flow passes nobody on',
      step.end === 'done' ? 'hand over, or end: not-storage' : 'hand over, or end: done',
    );
  }
  if ('end' in step) return { ...base, kind: 'end', how: step.end, text: on.words(step.say, ['say']) };
  return { ...base, kind: 'say', text: on.words(step.say, ['say']) };
}

function askOf(
  written: AskStep,
  base: { id: string; if: Condition | null },
  index: number,
  on: Context,
): Step {
  const step = fromSite(written, on.site, on.problem);
  const listed = Object.entries(step.answers ?? {});
  const form = formOf(
    step,
    listed.map(([key]) => key),
  );
  const answers = listed.map(([key, label]): Answer => {
    const over = step.over?.[key];
    return { id: key, label, hears: step.hears?.[key] ?? [], ...(over === undefined ? {} : { over }) };
  });
  const open = form === 'text' || form === 'number' || form === 'photo';
  if (open && listed.length > 0 && form !== 'number') {
    on.problem(
      ['answers'],
      `a ${form} question has no answers to choose from`,
      'take the answers out, or make it a choice',
    );
  }
  if (!open && listed.length < 2) {
    on.problem(['answers'], 'a choice needs at least two answers', 'add answers, or make it a text question');
  }
  if (
    form === 'number' &&
    (step.unit === undefined || step.minimum === undefined || step.maximum === undefined)
  ) {
    on.problem(
      [],
      'a number needs unit, minimum and maximum',
      'add the three, such as unit: GB, minimum: 0, maximum: 100000',
    );
  }
  if (step.minimum !== undefined && step.maximum !== undefined && step.minimum > step.maximum) {
    on.problem(
      ['minimum'],
      `no number is ${step.minimum} or more and ${step.maximum} or less`,
      'change the two over',
    );
  }
  for (const { answer, phrase, other } of saidTwice(answers)) {
    on.problem(['hears', answer], `"${phrase}" is "${other}" already`, 'keep it at the one that it means');
  }
  const keys = [...answers.map(answer => answer.id), ...(open ? OPEN_VALUES : [])];
  needKeys(step, keys, on);
  needCautions(step.cautions ?? [], ['cautions'], on);
  for (const key of Object.keys(step.opening ?? {})) needKey(key, keys, ['opening', key], on);
  for (const key of Object.keys(step.hears ?? {})) needKey(key, keys, ['hears', key], on);
  for (const [key, under] of Object.entries(step.over ?? {}))
    for (const each of [key, ...(under ?? [])]) needKey(each, keys, ['over', key], on);
  const tokens = tokensOf(step, keys, on.catalogue, on.site);
  return {
    ...base,
    kind: 'ask',
    form,
    text: on.words(step.ask, ['ask']),
    cautions: step.cautions ?? [],
    help: on.words(step.help, ['help']),
    finding: step.as ?? step.id,
    fills: [...fieldsOf(step.fills), ...(Object.keys(step.records ?? {}) as Field[])],
    answers,
    after: consequences(step, keys, index, on),
    ...(step.records === undefined ? {} : { records: step.records }),
    optional: step.optional ?? false,
    unit: step.unit ?? null,
    minimum: step.minimum ?? null,
    maximum: step.maximum ?? null,
    opening: step.opening ?? {},
    ...(tokens === undefined ? {} : { tokens }),
  };
}

function tryOf(step: TryStep, base: { id: string; if: Condition | null }, index: number, on: Context): Step {
  if (step.fixed !== undefined && !(step.fixed in on.catalogue.faults)) {
    on.problem(
      ['fixed'],
      `there is no fault "${step.fixed}"`,
      choiceOf(step.fixed, Object.keys(on.catalogue.faults), ADD_FAULT),
    );
  }
  const answers = step.fixed === undefined ? TRY_ANSWERS.doing : TRY_ANSWERS.fixing;
  const keys = answers.map(answer => answer.id);
  needKeys(step, keys, on);
  needCautions(step.cautions ?? [], ['cautions'], on);
  return {
    ...base,
    kind: 'try',
    text: on.words(step.try, ['try']),
    effect: step.effect,
    touches: step.touches ?? [],
    minutes: step.minutes,
    fixed: step.fixed ?? null,
    works:
      on.words(step.works, ['works']) ??
      (step.fixed === undefined ? 'Have you done that?' : 'Did that help?'),
    cautions: step.cautions ?? [],
    help: on.words(step.help, ['help']),
    finding: step.id,
    fills: fieldsOf(step.fills),
    answers: answers.map(answer => ({ ...answer })),
    after: consequences(step, keys, index, on),
  };
}

function formOf(step: AskStep, keys: string[]): Form {
  if (step.kind !== undefined && step.kind !== 'choice') return step.kind;
  if (keys.length === 0) return 'text';
  const rest = keys.filter(key => key !== 'yes' && key !== 'no' && key !== 'not-sure');
  return rest.length === 0 && keys.includes('yes') && keys.includes('no') ? 'yes-no' : 'choice';
}

const fieldsOf = (fills: Field | Field[] | undefined): Field[] => (fills === undefined ? [] : [fills].flat());

/** Phrases that stand at two answers, so that neither is heard by them. What is `over` another wins. */
function saidTwice(answers: readonly Answer[]): { answer: string; phrase: string; other: string }[] {
  const first = new Map<string, Answer>();
  return answers.flatMap(answer =>
    answer.hears.flatMap(phrase => {
      const key = phrase.trim().toLowerCase();
      const before = first.get(key);
      if (before === undefined) first.set(key, answer);
      const settled =
        before === undefined ||
        before === answer ||
        answer.over?.includes(before.id) ||
        before.over?.includes(answer.id);
      return settled ? [] : [{ answer: answer.id, phrase, other: before.id }];
    }),
  );
}
