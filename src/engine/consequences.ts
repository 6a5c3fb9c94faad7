/** What follows from an answer or a verdict, as written, with every name looked up. */
import type { Catalogue, Site } from './catalogue.ts';
import { choiceOf } from './near.ts';
import type { AskStep, FlowStep, TryStep, WorkFlowStep } from './schema.ts';
import type { Consequence } from './script.ts';

/** What a step is compiled in. */
export interface Context {
  unit: string;
  prefix: string;
  inFlow: string;
  steps: FlowStep[];
  problem: (at: (string | number)[], message: string, remedy: string) => void;
  /** The text with its placeholders seen to; null where there is none. */
  words: <T extends string | undefined>(text: T, at: (string | number)[]) => T extends string ? string : null;
  catalogue: Catalogue;
  site: Site;
  symptom: string;
}

type Consequential = Pick<
  AskStep | TryStep | WorkFlowStep,
  'raises' | 'clears' | 'sets' | 'evidence' | 'goes'
>;

const FLOW_SUFFIX = /\.$/;

export function consequences(
  step: Consequential,
  keys: string[],
  index: number,
  on: Context,
): Record<string, Consequence> {
  return Object.fromEntries(
    keys.map(key => [
      key,
      {
        raises: step.raises?.[key] ?? [],
        clears: step.clears?.[key] ?? [],
        sets: step.sets?.[key] ?? {},
        evidence: { for: step.evidence?.[key]?.for ?? {}, against: step.evidence?.[key]?.against ?? {} },
        goes: goesTo(step.goes?.[key], key, index, on),
      },
    ]),
  );
}

/** A step names later steps of its own file only, so that every script ends. */
function goesTo(target: string | undefined, key: string, index: number, on: Context): string | null {
  if (target === undefined) return null;
  if (target === 'return') {
    if (on.prefix === '') {
      on.problem(
        ['goes', key],
        '"return" leaves a block, and this is not one',
        'name a later step, or hand over',
      );
    }
    return on.inFlow || `${on.prefix.replace(FLOW_SUFFIX, '')}.end`;
  }
  const later = on.steps.slice(index + 1).map(nameOf);
  if (!later.includes(target)) {
    const earlier = on.steps.some(step => nameOf(step) === target);
    on.problem(
      ['goes', key],
      earlier ? `"${target}" stands earlier` : `there is no step "${target}" here`,
      earlier ? FORWARD : choiceOf(target, later, FORWARD),
    );
  }
  return on.prefix + target;
}

const FORWARD = 'name a step further down in this file; steps never go back';

const nameOf = (step: FlowStep) => ('id' in step && step.id ? step.id : 'visit' in step ? step.visit : '');

export function needKeys(step: Consequential, keys: string[], on: Context): void {
  for (const part of ['raises', 'clears', 'sets', 'evidence', 'goes'] as const) {
    for (const key of Object.keys(step[part] ?? {})) needKey(key, keys, [part, key], on);
  }
  for (const [key, { for: speaksFor, against }] of Object.entries(step.evidence ?? {})) {
    for (const fault of Object.keys({ ...speaksFor, ...against })) {
      if (!(fault in on.catalogue.faults)) {
        on.problem(
          ['evidence', key],
          `there is no fault "${fault}"`,
          choiceOf(fault, Object.keys(on.catalogue.faults), ADD_FAULT),
        );
      }
    }
  }
}

export const ADD_FAULT = 'name a fault of catalogue/faults.yaml, or add it there';
const ADD_CAUTION = 'name one of catalogue/cautions.yaml, or add it there';

export function needKey(key: string, keys: string[], at: (string | number)[], on: Context): void {
  if (!keys.includes(key)) {
    on.problem(at, `"${key}" is no answer of this step`, choiceOf(key, keys));
  }
}

export function needCautions(ids: string[], at: (string | number)[], on: Context): void {
  for (const id of ids) {
    if (!(id in on.catalogue.cautions)) {
      const known = Object.keys(on.catalogue.cautions);
      on.problem(at, `there is no caution "${id}"`, choiceOf(id, known, ADD_CAUTION));
    }
  }
}
