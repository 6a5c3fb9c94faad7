/**
 * What a working is: a calculator. Pure: the same input has the same output on any day. Input and output are plain JSON with
 * units in the names of their fields; errors name the field and say what is expected.
 */
import { z } from 'zod';

export interface Working<I = unknown, O = unknown> {
  /** As its folder. */
  id: string;
  /** What it is for, in one line. */
  title: string;
  input: z.ZodType<I>;
  output: z.ZodType<O>;
  /** A sample that works, close to a real case. */
  example: unknown;
  /** What flows go by: a small closed set. */
  verdicts: readonly string[];
  /** `input` has passed its schema. Throws an `Impossible` for what no schema can see. */
  work(input: I): O;
  verdict(output: O): string;
  /** For people. */
  tell(output: O, input: I): Told;
}

export interface Told {
  /** Plain sentences, the answer first. */
  says: string[];
  /** Rows of cells, the first one the heads. */
  table?: string[][];
  /** What was assumed, and where the figures end to be true. */
  limits: string[];
  /** Said before anything else where work could hurt somebody. */
  cautions?: string[];
}

/** Input that fits its schema and still cannot be: told in one line that names the field. */
export class Impossible extends Error {
  readonly wrong: Wrong;
  constructor(field: string, why: string) {
    super(lineOf({ field, why }));
    this.wrong = { field, why };
  }
}

export interface Wrong {
  /** The way to it, such as `sets.0.gigabytes`; empty for the whole input. */
  field: string;
  why: string;
}

export type Worked<O = unknown> =
  | { ok: true; output: O; verdict: string; told: Told }
  | { ok: false; why: string; wrong: Wrong[] };

/** Runs a working on anything at all. `why` is one line for each thing that is wrong. */
export function workOut<I, O>(working: Working<I, O>, given: unknown): Worked<O> {
  const read = working.input.safeParse(given);
  if (!read.success) return refused(read.error.issues.map(wrongOf));
  try {
    const output = working.work(read.data);
    return { ok: true, output, verdict: working.verdict(output), told: working.tell(output, read.data) };
  } catch (error) {
    if (error instanceof Impossible) return refused([error.wrong]);
    throw error;
  }
}

const refused = (wrong: Wrong[]) => ({ ok: false as const, why: wrong.map(lineOf).join('\n'), wrong });

const wrongOf = ({ path, message }: z.core.$ZodIssue): Wrong => ({
  field: path.map(String).join('.'),
  why: message,
});

const lineOf = ({ field, why }: Wrong): string => (field === '' ? why : `${field}: ${why}`);

/** A number with its bounds, and a message that says what is expected. `what` reads like "hours from 0 to 100000". */
export const number = (what: string, least: number, most: number): z.ZodNumber =>
  z
    .number({ error: `give ${what}` })
    .min(least, `give ${what}`)
    .max(most, `give ${what}`)
    .describe(what);

export const whole = (what: string, least: number, most: number): z.ZodNumber =>
  z
    .int({ error: `give a whole number: ${what}` })
    .min(least, `give ${what}`)
    .max(most, `give ${what}`)
    .describe(what);

export const oneOf = <const T extends readonly [string, ...string[]]>(
  values: T,
): z.ZodEnum<{ [K in T[number]]: K }> => z.enum(values, { error: `give one of: ${values.join(', ')}` });
