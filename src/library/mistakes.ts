/** What is wrong with the files, in the words of whoever must mend them. One line for each mistake. */
import type { z } from 'zod';
import { nearest } from '#engine/near.ts';
import { STEP_KINDS } from '#engine/schema.ts';
import { KINDS, kindsOf, valueAt } from './places.ts';
import { type Issue, tell } from './tell.ts';
import type { Path, Source } from './yaml.ts';

export interface Mistake {
  file: string;
  line: number;
  message: string;
  remedy: string;
}

/** Every mistake of one file against its schema. A step is judged as the kind that its keyword says it is. */
export const mistakesOf = (source: Source, schema: z.ZodType): Mistake[] => readAs(source, schema).mistakes;

/** The file's content in its shape, or null and what is wrong with it. */
export function readAs<T>(source: Source, schema: z.ZodType<T>): { value: T | null; mistakes: Mistake[] } {
  const { file, errors, value } = source;
  if (errors.length > 0) return { value: null, mistakes: errors.map(slip => ({ file, ...slip })) };
  const result = schema.safeParse(value);
  if (result.success) return { value: result.data, mistakes: [] };
  const issues = result.error.issues.flatMap(issue => closer(value, issue)).flatMap(each);
  const mistakes = merged(issues, value).map(issue => {
    const { message, remedy } = tell(issue, value, schema);
    return { file, line: source.line(placeOf(issue)), message, remedy };
  });
  return { value: null, mistakes };
}

/** Each word that does not belong is a mistake of its own, on its own line. */
const each = (issue: Issue): Issue[] =>
  issue.code === 'unrecognized_keys' ? issue.keys.map(key => ({ ...issue, keys: [key] })) : [issue];

const placeOf = (issue: Issue): Path =>
  (issue.code === 'unrecognized_keys' ? [...issue.path, ...issue.keys] : issue.path) as Path;

/** One mistake is told once: a misspelt word is not a word too many and one too few, nor are lines that should stand further in. */
function merged(issues: Issue[], value: unknown): Issue[] {
  const told = new Set<Issue>();
  for (const issue of issues) {
    if (issue.code !== 'unrecognized_keys') continue;
    const empty = issues.find(
      other => isIn(other, issue) && valueAt(value, other.path) === null && precedes(value, other, issue),
    );
    if (empty !== undefined) {
      Object.assign(empty, {
        code: 'custom',
        message: 'what belongs to it does not stand further in than it',
        params: { remedy: 'put two more spaces in front of each line that belongs to it' },
      });
      told.add(issue);
      continue;
    }
    const missing = issues.filter(other => isIn(other, issue) && valueAt(value, other.path) === undefined);
    const meant = nearest(
      issue.keys[0]!,
      missing.map(({ path }) => String(path.at(-1))),
    );
    for (const other of missing) if (other.path.at(-1) === meant) told.add(other);
  }
  return issues.filter(issue => !told.has(issue));
}

const isIn = ({ path }: Issue, around: Issue): boolean =>
  path.length === around.path.length + 1 && around.path.every((key, at) => key === path[at]);

function precedes(value: unknown, { path }: Issue, around: Issue): boolean {
  const keys = Object.keys(valueAt(value, around.path) as object);
  return (
    around.code === 'unrecognized_keys' && keys.indexOf(String(path.at(-1))) < keys.indexOf(around.keys[0]!)
  );
}

/** What fits none of several shapes is judged by the one that it is nearest to. */
function closer(value: unknown, issue: Issue): Issue[] {
  const given = valueAt(value, issue.path);
  const isStep = issue.path.at(-2) === 'steps' && typeof given === 'object' && given !== null;
  if (isStep && (issue.code === 'invalid_union' || kindsOf(given).length > 1)) {
    return asStep(value, issue, given);
  }
  if (issue.code !== 'invalid_union') return [issue];
  const branches = issue.errors.filter(
    branch => !branch.some(inner => inner.path.length === 0 && isOtherKind(inner, given)),
  );
  const [best] = (given === undefined ? [] : branches)
    .map(branch => branch.map(inner => ({ ...inner, path: [...issue.path, ...inner.path] }) as Issue))
    .sort((a, b) => misfit(a, value) - misfit(b, value));
  return best === undefined ? [issue] : best.flatMap(inner => closer(value, inner));
}

const isOtherKind = ({ code }: Issue, given: unknown): boolean =>
  code === 'invalid_type' || (code === 'invalid_value' && typeof given === 'object');

const misfit = (issues: Issue[], value: unknown): number =>
  10 * issues.filter(({ path }) => valueAt(value, path) === undefined).length + issues.length;

function asStep(value: unknown, issue: Issue, given: object): Issue[] {
  const kinds = kindsOf(given);
  const custom = (message: string, remedy: string): Issue[] => [
    { code: 'custom', path: issue.path, message, params: { remedy }, input: given },
  ];
  if (kinds.length > 1) {
    return custom(
      `${kinds.map(kind => `"${kind}"`).join(' and ')} stand in one step`,
      'make a step of each, the second behind a dash of its own',
    );
  }
  const kind = kinds[0] ?? KINDS.find(each => nearest(each, Object.keys(given)) !== null);
  if (kind === undefined) {
    return custom('this step has none of the words that make one', `write one of: ${KINDS.join(', ')}`);
  }
  const result = STEP_KINDS[kind].safeParse(given);
  if (result.success) return [issue];
  return result.error.issues.flatMap(inner =>
    closer(value, { ...inner, path: [...issue.path, ...inner.path] } as Issue),
  );
}
