/** `reseat work-out`: a calculator from a terminal. Input as options, or as JSON on standard input. */
import { existsSync, readFileSync } from 'node:fs';
import { z } from 'zod';
import { clean } from '#channels/terminal/render.ts';
import { WORKINGS, workingNamed } from '#workings/all.ts';
import { readValue, type Shape, typesOf, Unreadable } from '#workings/notation.ts';
import { toldText } from '#workings/told.ts';
import { workOut } from '#workings/working.ts';
import { UserError } from '../errors.ts';
import type { Shell } from './wired.ts';

export interface WorkOutOptions {
  json: boolean;
  schema: boolean;
  example: boolean;
}

export async function workOutCommand(
  shell: Shell,
  name: string | undefined,
  given: string[],
  options: WorkOutOptions,
): Promise<void> {
  if (name === undefined) {
    const width = Math.max(...WORKINGS.map(({ id }) => id.length));
    shell.output.write(`${WORKINGS.map(({ id, title }) => `${id.padEnd(width)}  ${title}`).join('\n')}\n`);
    return;
  }
  const working = workingNamed(name);
  if (working === undefined)
    throw new UserError(
      `There is no working "${clean(name)}". There are: ${WORKINGS.map(({ id }) => id).join(', ')}.`,
    );
  const schema = z.toJSONSchema(working.input, { io: 'input' });
  if (options.schema) return print(shell, { input: schema, output: z.toJSONSchema(working.output) });
  if (options.example) return print(shell, working.example);
  const input = given.length > 0 ? fromOptions(given, schema as Shape) : fromText(await everything(shell));
  const worked = workOut(working, input);
  if (!worked.ok) throw new UserError(worked.why);
  if (options.json)
    shell.output.write(`${JSON.stringify({ verdict: worked.verdict, ...(worked.output as object) })}\n`);
  else shell.output.write(`${clean(toldText(worked.told))}\n`);
}

const print = (shell: Shell, value: unknown) => {
  shell.output.write(`${JSON.stringify(value, null, 2)}\n`);
};

async function everything({ input }: Shell): Promise<string> {
  if (input.isTTY === true)
    throw new UserError(
      'Give the input as options, or as JSON on standard input; --example shows one, --schema all fields.',
    );
  let all = '';
  for await (const chunk of input) all += chunk;
  return all;
}

function fromText(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch (error) {
    throw new UserError(
      `Standard input is no JSON: ${(error as Error).message}. --example shows what is expected.`,
    );
  }
}

/** `--free-gigabytes 12 --level 5 --failed 1,3`: numbers, words, lists with commas, or JSON; `@FILE` is what stands in a file. */
function fromOptions(given: string[], { properties = {} }: Shape): Record<string, unknown> {
  const input: Record<string, unknown> = {};
  for (let at = 0; at < given.length; at++) {
    const [option, inline] = split(given[at]!);
    const field = Object.keys(properties).find(name => optionOf(name) === option);
    const shape = field === undefined ? undefined : properties[field];
    if (field === undefined || shape === undefined)
      throw new UserError(
        `"${clean(given[at]!)}" is no option of this working; there are: ${Object.keys(properties).map(optionOf).join(', ')}.`,
      );
    const flag = typesOf(shape).includes('boolean');
    const value = inline ?? (flag && (given[at + 1] ?? '--').startsWith('--') ? 'true' : given[++at]);
    if (value === undefined) throw new UserError(`${option} needs a value.`);
    input[field] = read(value.startsWith('@') ? fileOf(value.slice(1)) : value, shape);
  }
  return input;
}

const split = (given: string): [string, string | undefined] => {
  const at = given.indexOf('=');
  return given.startsWith('--') && at > 0 ? [given.slice(0, at), given.slice(at + 1)] : [given, undefined];
};

const optionOf = (field: string): string =>
  `--${field.replace(/[A-Z]+/g, letters => `-${letters.toLowerCase()}`)}`;

/** What cannot be read as its field wants stays text: then the field's own message says what is expected. */
function read(value: string, shape: Shape): unknown {
  try {
    return readValue(value, shape);
  } catch (error) {
    if (error instanceof Unreadable)
      throw new UserError(`"${clean(value.slice(0, 60))}": ${clean(error.message)}.`);
    throw error;
  }
}

/** Text as it stands; bytes that are none as hexadecimal digits. */
function fileOf(path: string): string {
  if (!existsSync(path)) throw new UserError(`There is no file ${clean(path)}.`);
  const bytes = readFileSync(path);
  const text = bytes.toString('utf8');
  return /^[\t\n\r\x20-\x7e]*$/.test(text) ? text : bytes.toString('hex');
}
