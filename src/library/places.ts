/** Places in a file: what stands there, and what may. */
import type { z } from 'zod';
import { STEP_KINDS } from '#engine/schema.ts';

export const valueAt = (value: unknown, path: readonly PropertyKey[]): unknown =>
  path.reduce<unknown>(
    (at, key) =>
      typeof at === 'object' && at !== null ? (at as Record<PropertyKey, unknown>)[key] : undefined,
    value,
  );

type Kind = keyof typeof STEP_KINDS;
export const KINDS = Object.keys(STEP_KINDS) as Kind[];

/** The kinds of step that its words name. The last words of an `end` are no step of their own. */
export const kindsOf = (given: unknown): Kind[] =>
  typeof given === 'object' && given !== null
    ? KINDS.filter(kind => kind in given && !(kind === 'say' && 'end' in given))
    : [];

/** Words that may stand at a place. */
export function keysAt(schema: z.ZodType, value: unknown, path: readonly PropertyKey[]): string[] {
  if (path.at(-2) === 'steps') {
    const [kind] = kindsOf(valueAt(value, path));
    return kind === undefined ? KINDS : Object.keys(STEP_KINDS[kind].shape);
  }
  let here = [schema as z.core.$ZodType];
  for (const key of path) here = here.flatMap(inside).flatMap(each => under(each, key));
  return [...new Set(here.flatMap(inside).flatMap(each => Object.keys(defOf(each).shape ?? {})))];
}

type Def = {
  shape?: Record<string, z.core.$ZodType>;
  valueType?: z.core.$ZodType;
  element?: z.core.$ZodType;
  innerType?: z.core.$ZodType;
  options?: z.core.$ZodType[];
  getter?: () => z.core.$ZodType;
  in?: z.core.$ZodType;
};
const defOf = (schema: z.core.$ZodType): Def => schema._zod.def as Def;

/** Without what is wrapped around it. */
function inside(schema: z.core.$ZodType): z.core.$ZodType[] {
  const { innerType, options, getter, in: before } = defOf(schema);
  const inner = options ?? [innerType ?? getter?.() ?? before].filter(each => each !== undefined);
  return inner.length === 0 ? [schema] : inner.flatMap(inside);
}

function under(schema: z.core.$ZodType, key: PropertyKey): z.core.$ZodType[] {
  const { shape, valueType, element } = defOf(schema);
  const next = shape?.[key as string] ?? valueType ?? element;
  return next === undefined ? [] : [next];
}
