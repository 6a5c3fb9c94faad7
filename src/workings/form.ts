/** Any working as a form, whatever draws it: its fields in words, and what was filled in back to the working's input. */
import { z } from 'zod';
import {
  byLine,
  exampleOf,
  ofType,
  readValue,
  type Shape,
  typesOf,
  Unreadable,
  writeValue,
} from './notation.ts';
import { type Worked, type Working, type Wrong, workOut } from './working.ts';

export interface FormField {
  name: string;
  label: string;
  kind: 'number' | 'text' | 'long-text' | 'choice' | 'yes-no';
  /** For a choice and a yes or no; else none. */
  options: { value: string; label: string }[];
  required: boolean;
  /** Unit, bounds, how to write it; empty where nothing is to be said. */
  help: string;
  /** What is taken when it is left empty, as it would be filled in; null: nothing. */
  usual: string | null;
  /** Characters that it takes at most. */
  longest: number;
}

/** Field name to what was filled in, as text; a field that was left empty is missing or empty. */
export type Values = Readonly<Record<string, string | null | undefined>>;

const shapeOf = (working: Working): Shape => z.toJSONSchema(working.input, { io: 'input' }) as Shape;

export function formOf(working: Working): FormField[] {
  const { properties = {}, required = [] } = shapeOf(working);
  const sample = working.example as Record<string, unknown>;
  return Object.entries(properties).map(([name, shape]) => ({
    name,
    label: shape.title ?? inWords(name),
    kind: kindOf(shape),
    options: optionsOf(shape),
    required: required.includes(name),
    help: helpOf(shape, sample[name]),
    usual: shape.default === undefined || isNothing(shape.default) ? null : writeValue(shape.default, shape),
    longest: shape.maxLength ?? LONGEST,
  }));
}

/** An input as it would be filled in. */
export function valuesOf(working: Working, input: Record<string, unknown>): Record<string, string> {
  const { properties = {} } = shapeOf(working);
  return Object.fromEntries(
    Object.entries(input).map(([name, value]) => [name, writeValue(value, properties[name] ?? {})]),
  );
}

export type Filled<O = unknown> =
  | Extract<Worked<O>, { ok: true }>
  /** Field name to one clear message. */
  | { ok: false; wrong: Record<string, string> };

/** Works out what was filled in. */
export function workForm<O>(working: Working<unknown, O>, values: Values): Filled<O> {
  const { properties = {} } = shapeOf(working);
  const input: Record<string, unknown> = {};
  const wrong: Record<string, string> = {};
  for (const [name, shape] of Object.entries(properties)) {
    const text = values[name] ?? '';
    if (text.trim() === '') continue;
    try {
      input[name] = readValue(text, shape);
    } catch (error) {
      if (!(error instanceof Unreadable)) throw error;
      wrong[name] = sentence(error.message);
    }
  }
  const worked = workOut(working, input);
  if (worked.ok && Object.keys(wrong).length === 0) return worked;
  // What could not be read is missing from the input, and "give a list" would hide why.
  if (!worked.ok) for (const each of worked.wrong) place(each, properties, wrong);
  return { ok: false, wrong };
}

function place(
  { field, why }: Wrong,
  properties: Record<string, Shape>,
  wrong: Record<string, string>,
): void {
  const [first = '', ...into] = field.split('.');
  const name = first in properties ? first : Object.keys(properties)[0]!;
  const lines = byLine(ofType(properties[name] ?? {}, 'array')?.items ?? {});
  const where = into.map(step =>
    /^\d+$/.test(step) ? `${lines ? 'line' : 'entry'} ${Number(step) + 1}` : step,
  );
  wrong[name] ??= sentence([...where, ''].join(', ').replace(/, $/, ': ') + why);
}

const LONGEST = 3000;
/** Longer texts than this need more than one line. */
const ONE_LINE = 300;

function kindOf(shape: Shape): FormField['kind'] {
  const types = typesOf(shape);
  if (shape.enum !== undefined) return 'choice';
  if (types.every(type => type === 'boolean')) return 'yes-no';
  if (types.every(type => type === 'number' || type === 'integer')) return 'number';
  if (types.includes('object')) return 'long-text';
  const list = ofType(shape, 'array');
  if (list !== undefined) return byLine(list.items ?? {}) ? 'long-text' : 'text';
  return (shape.maxLength ?? LONGEST) > ONE_LINE ? 'long-text' : 'text';
}

const optionsOf = (shape: Shape): FormField['options'] =>
  kindOf(shape) === 'yes-no'
    ? [
        { value: 'yes', label: 'Yes' },
        { value: 'no', label: 'No' },
      ]
    : (shape.enum ?? []).map(value => ({ value, label: value }));

function helpOf(shape: Shape, sample: unknown): string {
  const list = ofType(shape, 'array');
  const thing = ofType(shape, 'object');
  const usual =
    shape.default === undefined || isNothing(shape.default)
      ? ''
      : `Left empty: ${writeValue(shape.default, shape)}`;
  if (list === undefined && thing === undefined)
    return [sentence(described(shape)), usual].filter(Boolean).join('. ');
  const names = Object.keys((thing ?? ofType(list?.items ?? {}, 'object'))?.properties ?? {});
  const example = sample === undefined ? exampleOf(shape) : writeValue(sample, shape).split('\n')[0]!;
  const how =
    list === undefined ? 'Write' : byLine(list.items ?? {}) ? 'One a line, such as' : 'With commas, such as';
  return [
    sentence(described(shape)),
    `${how} ${example.length > ONE_LINE ? exampleOf(shape) : example}`,
    names.length === 0 ? '' : `Names: ${names.join(', ')}. JSON is taken too`,
  ]
    .filter(Boolean)
    .join('. ');
}

const described = (shape: Shape): string => {
  const told = shape.description ?? ofType(shape, 'array')?.items?.description;
  const values = ofType(shape, 'array')?.items?.enum;
  return told ?? (values === undefined ? '' : `of ${values.join(', ')}`);
};

const isNothing = (usual: unknown): boolean => Array.isArray(usual) && usual.length === 0;

/** "hoursADay" as "Hours a day". A schema's own title goes before. */
const inWords = (name: string): string =>
  sentence(
    name
      .split(/(?<=[a-z])(?=[A-Z0-9])|(?<=A)(?=[A-Z][a-z])/)
      .map(word => ABBREVIATIONS[word.toLowerCase()] ?? word.toLowerCase())
      .join(' '),
  );
const ABBREVIATIONS: Readonly<Record<string, string>> = {
  mbps: 'MB a second',
  tb: 'TB',
  kb: 'KB',
  usb: 'USB',
  rpm: 'turns a minute',
  iops: 'operations a second',
  mttf: 'mean time to failure,',
};

const sentence = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);
