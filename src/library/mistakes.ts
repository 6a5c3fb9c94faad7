/** What is wrong with the files, in the words of whoever must mend them. */
import type { z } from 'zod';
import { STEP_KINDS } from '#engine/schema.ts';
import type { Path, Source } from './yaml.ts';

export interface Mistake {
  file: string;
  line: number;
  message: string;
  remedy: string;
}

type Issue = z.core.$ZodIssue;

/** Every mistake of one file against its schema. A step is judged as the kind that its keyword says it is. */
export function mistakesOf(source: Source, schema: z.ZodType): Mistake[] {
  if (source.errors.length > 0) {
    return source.errors.map(({ line, message }) => ({
      file: source.file,
      line,
      message,
      remedy: 'mend the YAML there; texts with a colon or a hash in them need quotes',
    }));
  }
  const result = schema.safeParse(source.value);
  if (result.success) return [];
  return result.error.issues
    .flatMap(issue => (issue.code === 'invalid_union' ? explainStep(source, issue) : [issue]))
    .map(issue => ({
      file: source.file,
      line: source.line(issue.path as Path),
      message: `${issue.path.length > 0 ? `${issue.path.join('.')}: ` : ''}${issue.message}`,
      remedy: remedyFor(issue),
    }));
}

/** A step that fits no kind: say what is wrong with it as the kind it is meant to be. */
function explainStep(source: Source, issue: Issue): Issue[] {
  const value = issue.path.reduce<unknown>(
    (at, key) =>
      typeof at === 'object' && at !== null ? (at as Record<PropertyKey, unknown>)[key] : undefined,
    source.value,
  );
  if (issue.path.at(-2) !== 'steps' || typeof value !== 'object' || value === null) {
    return [{ ...issue, message: 'this does not fit' } as Issue];
  }
  const kind = (Object.keys(STEP_KINDS) as (keyof typeof STEP_KINDS)[]).find(key => key in value);
  if (kind === undefined) {
    return [{ ...issue, message: `a step is one of: ${Object.keys(STEP_KINDS).join(', ')}` } as Issue];
  }
  const closer = STEP_KINDS[kind].safeParse(value);
  if (closer.success) return [issue];
  return closer.error.issues.map(inner => ({ ...inner, path: [...issue.path, ...inner.path] }) as Issue);
}

function remedyFor(issue: Issue): string {
  switch (issue.code) {
    case 'unrecognized_keys':
      return `take out or correct: ${issue.keys.join(', ')}`;
    case 'invalid_value':
      return `use one of: ${issue.values.join(', ')}`;
    case 'too_big':
      return 'shorten it';
    case 'invalid_type':
      return `write ${issue.expected === 'record' ? 'a list of names with values' : `a value of kind ${issue.expected}`} here`;
    default:
      return 'correct it as the message says';
  }
}
