/** The ticket's fields from the person's answers; where there is none, why. */
import { FIELD_TABLE, FIELDS, type Field } from '#engine/fields.ts';
import type { Question, Script } from '#engine/script.ts';
import type { State } from '#engine/state.ts';
import type { FieldValue, NotAsked, Ticket } from './schema.ts';
import { questionsOf } from './suspects.ts';

interface Said {
  value: string;
  answer: string | null;
  words: string;
  /** Not sure, or skipped. */
  unknown: boolean;
  /** Findings that the step can settle beside its own. */
  settles: string[];
}

export function fieldsOf(script: Script | null, state: State): Ticket['fields'] {
  const said = saidByField(script, state);
  const missing = missingOf(state);
  return Object.fromEntries(
    FIELDS.map(field => [field, settle(said.get(field) ?? [], missing, FIELD_TABLE[field].always)]),
  ) as Ticket['fields'];
}

function settle(said: Said[], missing: Missing, always: boolean): FieldValue {
  const known = said.filter(({ unknown }) => !unknown);
  if (known.length > 0) {
    return {
      state: 'known',
      value: joined(known.map(({ value }) => value)),
      answer: known.length === 1 ? known[0]!.answer : null,
      words: joined(known.map(({ words }) => words)),
    };
  }
  if (said.length > 0) return { state: 'unknown' };
  if (always || !missing.needless) return { state: 'not-asked', why: missing.why };
  return { state: 'not-needed' };
}

const joined = (parts: string[]): string => [...new Set(parts)].join('; ');

interface Missing {
  why: NotAsked;
  /** The flow went to its end, so what it did not ask and need not always ask was not needed. */
  needless: boolean;
}

function missingOf({ findings, outcome, signs }: State): Missing {
  if (findings.danger === 'yes') return { why: 'danger', needless: false };
  if (findings.attack === 'yes') return { why: 'attack', needless: false };
  if (outcome === null) return { why: 'sign', needless: false };
  if (outcome.because !== 'script') return { why: outcome.because ?? 'stopped', needless: false };
  // The checker lets no flow hand over without what is always asked; one that does anyhow was broken off.
  return { why: signs.length > 0 ? 'sign' : 'withdrawn', needless: true };
}

function saidByField(script: Script | null, state: State): Map<Field, Said[]> {
  const all = new Map<Field, Said[]>();
  const steps = new Map((script === null ? [] : questionsOf(script)).map(step => [step.id, step]));
  const last = new Map(state.answers.map(given => [given.step, given]));
  for (const given of last.values()) {
    const step = steps.get(given.step);
    for (const field of step?.fills ?? []) {
      // An answer that settles the same finding anew takes the place of the earlier one: it was on, and now it is off.
      const settles = step === undefined ? [] : settledBy(step);
      const kept = (all.get(field) ?? []).filter(said => !said.settles.some(each => settles.includes(each)));
      // "Done" says nothing without its question.
      const told = step?.kind === 'try' ? { ...given, shown: `${step.works} ${given.shown}` } : given;
      all.set(field, [...kept, recorded(step, field, saidOf(told, settles))]);
    }
  }
  for (const step of steps.values()) {
    // Already told in the opening, though its question never came up.
    const heard = state.waiting[step.finding];
    const label = step.answers.find(({ id }) => id === heard?.answer)?.label;
    if (heard === undefined || label === undefined || last.has(step.id)) continue;
    const { answer, words } = heard;
    for (const field of step.fills) {
      const told = { value: label, answer, words, unknown: unsure(answer), settles: [] };
      if (!all.has(field)) all.set(field, [recorded(step, field, told)]);
    }
  }
  if (state.screen !== null && !all.get('message')?.some(({ unknown }) => !unknown)) {
    const { id, verbatim } = state.screen;
    all.set('message', [{ value: verbatim, answer: id, words: verbatim, unknown: false, settles: [] }]);
  }
  return all;
}

/** In the flow's own words for this field, where it has some. */
function recorded(step: Question | undefined, field: Field, said: Said): Said {
  const words = step?.kind === 'ask' ? step.records?.[field] : undefined;
  return words === undefined ? said : { ...said, value: words.replaceAll('{answer}', () => said.value) };
}

const settledBy = (step: Question): string[] =>
  Object.values(step.after).flatMap(({ sets }) => Object.keys(sets));

function saidOf({ value, shown, words }: State['answers'][number], settles: string[]): Said {
  const answer = 'id' in value ? value.id : null;
  const unknown = 'skipped' in value || (answer !== null && unsure(answer));
  return { value: shown, answer, words, unknown, settles };
}

const unsure = (answer: string): boolean => answer === 'not-sure';
