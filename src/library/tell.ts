/** One thing that does not fit its shape, as a sentence and what to do about it. */
import type { z } from 'zod';
import { choiceOf } from '#engine/near.ts';
import { STEP_KINDS } from '#engine/schema.ts';

import { KINDS, keysAt, kindsOf, valueAt } from './places.ts';

export type Issue = z.core.$ZodIssue;

export interface Told {
  message: string;
  remedy: string;
}

export function tell(issue: Issue, value: unknown, schema: z.ZodType): Told {
  const { message, remedy } = judged(issue, value, schema);
  const missing = valueAt(value, issue.path) === undefined && issue.code !== 'unrecognized_keys';
  const where = placeIn(
    value,
    missing || issue.code === 'invalid_key' ? issue.path.slice(0, -1) : issue.path,
  );
  return { message: where === '' ? message : `${where}: ${message}`, remedy };
}

/** A step by its id, everything else by the words that lead to it. */
function placeIn(value: unknown, path: readonly PropertyKey[]): string {
  const words = path.flatMap((key, at): string[] => {
    if (key === 'steps' && typeof path[at + 1] === 'number') return [];
    if (typeof key !== 'number') return [String(key)];
    if (path[at - 1] !== 'steps') return [];
    const id = valueAt(value, [...path.slice(0, at + 1), 'id']);
    return [typeof id === 'string' ? `step "${id}"` : `step ${key + 1}`];
  });
  return words.join(', ');
}

function judged(issue: Issue, value: unknown, schema: z.ZodType): Told {
  const given = valueAt(value, issue.path);
  const key = String(issue.path.at(-1) ?? '');
  if (given === undefined && issue.code !== 'unrecognized_keys' && issue.code !== 'custom') {
    return { message: `"${key}" is missing`, remedy: `add "${key}:" and behind it ${wanted(issue)}` };
  }
  if (given === null && key !== '' && issue.code !== 'custom') return empty(issue, key);
  switch (issue.code) {
    case 'invalid_type':
      return wrongType(issue, given, key, keysAt(schema, value, issue.path));
    case 'invalid_value':
      return {
        message: `"${shown(given)}" is not known here`,
        remedy: choiceOf(String(given), issue.values.map(String)),
      };
    case 'invalid_key':
      return notAName(key, issue.issues[0]?.message ?? issue.message);
    case 'invalid_format':
      return notAName(String(given), issue.message);
    case 'unrecognized_keys':
      return unknownWord(issue.keys[0]!, given, keysAt(schema, value, issue.path));
    case 'too_big':
      return typeof given === 'number'
        ? { message: `${given} is too much`, remedy: `write ${issue.maximum} or less` }
        : {
            message: `${sizeOf(given)}, and ${issue.maximum} is the most`,
            remedy: typeof given === 'string' ? 'say it in fewer words' : 'take some out, or split it',
          };
    case 'too_small':
      return typeof given === 'number'
        ? { message: `${given} is too little`, remedy: `write ${issue.minimum} or more` }
        : empty(issue, key);
    case 'custom':
      return { message: issue.message, remedy: String(issue.params?.remedy ?? AS_IN_PAGE) };
    case 'invalid_union':
      return fitsNone(issue, given);
    default:
      return { message: issue.message, remedy: AS_IN_PAGE };
  }
}

const AS_IN_PAGE = 'write it as in flows/README.md';

const empty = (issue: Issue, key: string): Told => ({
  message: 'nothing stands behind it',
  remedy:
    key === 'hand_over'
      ? 'write { keep: as-usual } behind it'
      : `write ${wanted(issue)}, or take the word out`,
});

function fitsNone({ path }: Issue, given: unknown): Told {
  if (path.at(-2) === 'steps') {
    return {
      message: `"${shown(given)}" is no step`,
      remedy: 'write a word, a colon and what it is, such as "say: Good."',
    };
  }
  if (typeof given === 'number') return unquoted(given);
  return path.includes('if')
    ? {
        message: `"${shown(given)}" is no condition`,
        remedy: 'write a finding and its values, such as { device: [laptop, desktop] }',
      }
    : { message: `"${shown(given)}" does not fit here`, remedy: AS_IN_PAGE };
}

/** A word that may stand there, in other company or in another kind of step, is no misspelling. */
function unknownWord(word: string, given: unknown, known: string[]): Told {
  if (known.includes(word)) {
    return {
      message: `"${word}" does not go with the other words here`,
      remedy: 'keep the one that is meant and take the other out',
    };
  }
  const [own] = kindsOf(given);
  const others = KINDS.filter(kind => word in STEP_KINDS[kind].shape).map(kind => `"${kind}"`);
  return own !== undefined && others.length > 0
    ? { message: `"${own}" has no "${word}"`, remedy: `take it out; it belongs to ${others.join(' or ')}` }
    : { message: `there is no "${word}" here`, remedy: choiceOf(word, known) };
}

const notAName = (given: string, words: string): Told => {
  const name = nameFor(given);
  return {
    message: `"${given}" cannot be a name`,
    remedy: name === '' || name === given ? words : `${words}; here perhaps "${name}"`,
  };
};

const nameFor = (given: string): string =>
  given
    .toLowerCase()
    .replace(/ä/g, 'ae')
    .replace(/ö/g, 'oe')
    .replace(/ü/g, 'ue')
    .replace(/ß/g, 'ss')
    .normalize('NFD')
    .replace(/[^a-z0-9]+/g, letters => (/^\p{M}+$/u.test(letters) ? '' : '-'))
    .replace(/^[-0-9]+|-+$/g, '');

const sizeOf = (given: unknown): string => {
  if (typeof given === 'string') return `${given.trim().length} characters`;
  if (typeof given === 'object' && given !== null) return `${Object.keys(given).length} entries`;
  return String(given);
};

const shown = (given: unknown): string => {
  const text = typeof given === 'object' ? JSON.stringify(given) : String(given);
  return text.length > 40 ? `${text.slice(0, 39)}…` : text;
};

/** What belongs there, for somebody who has to write it. */
function wanted(issue: Issue): string {
  if (issue.code === 'invalid_value') return `one of: ${issue.values.join(', ')}`;
  if (NAMES.has(String(issue.path.at(-1)))) return 'a name';
  if (issue.path.at(-1) === 'if') return 'a condition';
  const kind = issue.code === 'invalid_type' ? issue.expected : 'origin' in issue ? issue.origin : '';
  return WANTED[kind as string] ?? 'something';
}

const NAMES = new Set(['id', 'symptom', 'block', 'visit', 'caution', 'fixed', 'as']);
const WANTED: Record<string, string> = {
  string: 'the words',
  number: 'a number',
  boolean: 'true or false',
  array: 'a list',
  record: 'names with values',
  object: 'words with values',
};

const unquoted = (given: unknown): Told => ({
  message: `${shown(given)} without quotes is no text`,
  remedy: `write "${shown(given)}"`,
});

/** `known` are the words that could stand inside it. */
function wrongType(
  issue: Issue & { code: 'invalid_type' },
  given: unknown,
  key: string,
  known: string[],
): Told {
  const { expected } = issue;
  if (given === null)
    return { message: 'the file is empty', remedy: `${AS_IN_PAGE}, or take its folder out` };
  if (key === '' && typeof given !== 'object') {
    return { message: 'this is only text', remedy: `${AS_IN_PAGE}: a word, a colon, and what it is` };
  }
  const what = Array.isArray(given) ? 'a list' : typeof given === 'object' ? 'words with values' : null;
  if (what === null && expected === 'string') return unquoted(given);
  if (what === null && expected === 'number') {
    return {
      message: `"${shown(given)}" is no number`,
      remedy: 'write it in figures and without quotes, such as 5',
    };
  }
  return {
    message: `${wanted(issue)} must stand here, not ${what ?? `"${shown(given)}"`}`,
    remedy: howTo(expected, what === null ? shown(given) : null, known[0] ?? 'yes'),
  };
}

function howTo(expected: string, given: string | null, word: string): string {
  if (expected === 'array') return given === null ? 'put a dash in front of each entry' : `write [${given}]`;
  if (expected === 'record' || expected === 'object') {
    return `write a name, a colon and a value for each, such as { ${word}: ${given === null ? 'Yes' : /^[\w-]+$/.test(given) ? given : `"${given}"`} }`;
  }
  return 'write nothing else there';
}
