/** Typed answers against their questions: those of answers.yaml, and of the shipped flows by typed.yaml. */
import type { Form } from '#engine/script.ts';
import { type Asked, hearAnswer } from '#hearing/answer.ts';
import { knowledge } from '../support/knowledge.ts';
import { load } from './load.ts';

/** A question with what is typed at it. */
export interface Table {
  question: string;
  form: Form;
  answers?: Record<string, string>;
  hears?: Record<string, string[]>;
  optional?: boolean;
  unit?: string;
  minimum?: number;
  maximum?: number;
  /** Answer id to texts; `?` for none. */
  means?: Record<string, string[]>;
  numbers?: Record<string, number>;
  wrong?: string[];
  skipped?: string[];
  texts?: string[];
}

export interface Case {
  question: string;
  asked: Asked;
  text: string;
  /** Null: asked again. */
  heard: ReturnType<typeof hearAnswer>;
}

export const askedOf = ({ form, answers = {}, hears = {}, optional = false, ...limits }: Table): Asked => ({
  form,
  answers: Object.entries(answers).map(([id, label]) => ({ id, label, hears: hears[id] ?? [] })),
  optional,
  unit: limits.unit ?? null,
  minimum: limits.minimum ?? null,
  maximum: limits.maximum ?? null,
});

export function casesOf(table: Table): Case[] {
  const { question, means = {}, numbers = {}, skipped = [], texts = [] } = table;
  const asked = askedOf(table);
  const at = (text: string, heard: Case['heard']): Case => ({ question, asked, text, heard });
  return [
    ...meant(means).map(([text, id]) => at(text, id === null ? null : { value: { id } })),
    ...Object.entries(numbers).map(([text, number]) => at(text, { value: { number } })),
    ...skipped.map(text => at(text, { value: { skipped: true } })),
    ...texts.map(text => at(text, { value: { text: text.trim() } })),
  ];
}

const meant = (means: Record<string, string[]>): [text: string, id: string | null][] =>
  Object.entries(means).flatMap(([id, said]) =>
    said.map((text): [string, string | null] => [text, id === '?' ? null : id]),
  );

/** Of the shipped flows. A question that no flow asks any more is a mistake in the table. */
export function flowCases(): Case[] {
  const steps = Object.values(knowledge.flows).flatMap(({ script }) => script.main);
  return Object.entries(load<Record<string, Record<string, string[]>>>('typed.yaml')).flatMap(
    ([end, means]) => {
      const step = steps.find(
        each => each.kind === 'ask' && (each.id === end || each.id.endsWith(`.${end}`)),
      );
      if (step?.kind !== 'ask') throw new Error(`no flow asks "${end}"`);
      const other = Object.keys(means).find(id => id !== '?' && !step.answers.some(each => each.id === id));
      if (other !== undefined) throw new Error(`"${end}" has no answer "${other}"`);
      return meant(means).map(
        ([text, id]): Case => ({
          question: end,
          asked: step,
          text,
          heard: id === null ? null : { value: { id } },
        }),
      );
    },
  );
}

export interface Wrong {
  question: string;
  text: string;
  meant: string;
  heard: string | null;
}

export function answersHeard(): { answers: number; right: number; wrong: Wrong[] } {
  const cases = [...load<Table[]>('answers.yaml').flatMap(casesOf), ...flowCases()];
  const wrong = cases.flatMap(({ question, asked, text, heard }): Wrong[] => {
    const [was, should] = [told(hearAnswer(asked, text)), told(heard)];
    return was === should ? [] : [{ question, text, meant: should ?? 'nothing', heard: was }];
  });
  return { answers: cases.length, right: cases.length - wrong.length, wrong };
}

const told = (heard: Case['heard']): string | null =>
  heard === null || !('value' in heard) ? null : JSON.stringify(heard.value);
