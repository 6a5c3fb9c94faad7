/**
 * JSON Schema of the files that a desk lead writes, so that an editor completes, explains and corrects while typing. Draft 7, which
 * every editor reads. The names that stand in the folder are a file of their own: a new block changes that one only.
 */
import { z } from 'zod';
import type { Name, Names } from './names.ts';

export const NAMES_FILE = 'names.json';
const DRAFT = 'http://json-schema.org/draft-07/schema#';

export type JsonSchema = z.core.JSONSchema.BaseSchema;

/** The shape as it is written, before anything is filled in. */
export const editorSchema = (shape: z.ZodType): JsonSchema =>
  offering(JSON.parse(JSON.stringify(z.toJSONSchema(shape, { io: 'input', target: 'draft-7' }))));

/**
 * Where a name stands, those of the folder are offered; any other may stand there too, since it may be written next. A shape says
 * so by `names`, the kind of name; a list by name says it of its keys.
 */
function offering(schema: JsonSchema): JsonSchema {
  if (typeof schema !== 'object' || schema === null) return schema;
  if (Array.isArray(schema)) return schema.map(offering) as unknown as JsonSchema;
  const { names, propertyNames, description, ...rest } = schema;
  const shape = Object.fromEntries(
    Object.entries(rest).map(([key, inner]) => [key, offering(inner as JsonSchema)]),
  );
  const told = description === undefined ? {} : { description };
  if (typeof names === 'string') return { ...told, anyOf: [reference(names), shape] };
  if (typeof propertyNames !== 'object') return { ...told, ...shape };
  const { names: kind, ...keys } = propertyNames;
  return {
    ...told,
    ...shape,
    propertyNames: keys,
    ...(typeof kind === 'string' ? { allOf: [reference(`${kind}-keys`)] } : {}),
  };
}

const reference = (definition: string): JsonSchema => ({ $ref: `${NAMES_FILE}#/definitions/${definition}` });

/** The names of each kind: as values, and as keys with the values that they can have. */
export function namesSchema(names: Names): JsonSchema {
  const definitions = Object.entries(names).flatMap(([kind, all]): [string, JsonSchema][] => [
    [kind, { anyOf: all.map(each => ({ const: each.name, ...told(each) })) }],
    [
      `${kind}-keys`,
      { properties: Object.fromEntries(all.map(each => [each.name, { ...told(each), ...valuesOf(each) }])) },
    ],
  ]);
  return { $schema: DRAFT, definitions: Object.fromEntries(definitions) };
}

const told = ({ about }: Name) => (about === undefined ? {} : { description: about });

/** Offered, not required: a flow may give a finding further values. */
const valuesOf = ({ values }: Name) => (values === undefined ? {} : { anyOf: [{ enum: values }, {}] });
