/** Random input for all workings: `node tests/workings/fuzz.ts [RUNS] [SEED]`. Prints crashes and outputs that are no finite numbers; both must be none. */
import { z } from 'zod';
import { WORKINGS } from '#workings/all.ts';
import { workOut } from '#workings/working.ts';

interface Schema {
  type?: string;
  enum?: unknown[];
  const?: unknown;
  anyOf?: Schema[];
  properties?: Record<string, Schema>;
  required?: string[];
  items?: Schema;
  minimum?: number;
  maximum?: number;
  minItems?: number;
  maxItems?: number;
  minLength?: number;
  maxLength?: number;
}

/** Small, seeded, and good enough for this (Marsaglia, xorshift). */
export function random(seed: number): () => number {
  let state = seed | 1;
  return () => {
    state ^= state << 13;
    state ^= state >>> 17;
    state ^= state << 5;
    return (state >>> 0) / 2 ** 32;
  };
}

const JUNK: unknown[] = [
  null,
  '',
  'x',
  -1,
  0,
  1e308,
  -1e308,
  0.1,
  [],
  {},
  true,
  '0',
  '\u0000',
  'NaN',
  Number.MAX_SAFE_INTEGER,
  [[]],
  { a: 1 },
];

const LETTERS = [...'0123456789abcdef', ' ', '\n', ':', '-'];

/** Half of the time the working's own sample with some of its fields made anew: most of what is made altogether is refused. */
function input(sample: unknown, schema: Schema, next: () => number): unknown {
  const all = made(schema, next);
  if (next() < 0.5 || typeof sample !== 'object' || typeof all !== 'object') return all;
  return { ...sample, ...Object.fromEntries(Object.entries(all ?? {}).filter(() => next() < 0.3)) };
}

/** Something of the shape, often at its edges, and now and then something else altogether. */
function made(schema: Schema, next: () => number): unknown {
  const pick = <T>(from: readonly T[]): T => from[Math.floor(next() * from.length)]!;
  if (next() < 0.004) return pick(JUNK);
  if (schema.const !== undefined) return schema.const;
  if (schema.enum) return pick(schema.enum);
  if (schema.anyOf) return made(pick(schema.anyOf), next);
  switch (schema.type) {
    case 'integer':
    case 'number': {
      const { minimum: low = -1e9, maximum: high = 1e9 } = schema;
      const at = next();
      if (at < 0.1) return low;
      if (at < 0.2) return high;
      if (at < 0.205) return low - 1;
      if (at < 0.21) return high * 2 + 1;
      // Small figures as often as large ones.
      const value =
        at < 0.7 ? low + (Math.min(high, low + 20) - low) * next() : low + (high - low) * next() ** 4;
      return schema.type === 'integer' ? Math.round(value) : value;
    }
    case 'boolean':
      return next() < 0.5;
    case 'string': {
      const { minLength: least = 0, maxLength: most = 1098 } = schema;
      return Array.from({ length: least + Math.floor(next() ** 3 * (most - least + 2)) }, () =>
        pick(LETTERS),
      ).join('');
    }
    case 'array': {
      const most = Math.min(schema.maxItems ?? 6, 8);
      const length = (schema.minItems ?? 0) + Math.floor(next() * (most - (schema.minItems ?? 0) + 1));
      return Array.from({ length }, () => made(schema.items ?? {}, next));
    }
    case 'object':
      return Object.fromEntries(
        Object.entries(schema.properties ?? {}).flatMap(([name, inner]) =>
          schema.required?.includes(name)
            ? next() < 0.98
              ? [[name, made(inner, next)]]
              : []
            : next() < 0.5
              ? [[name, made(inner, next)]]
              : [],
        ),
      );
    default:
      return pick(JUNK);
  }
}

function unfit(value: unknown): boolean {
  if (typeof value === 'number') return !Number.isFinite(value);
  return typeof value === 'object' && value !== null && Object.values(value).some(unfit);
}

export interface Fuzzed {
  runs: number;
  worked: number;
  refused: number;
  /** What went wrong, with the input that shows it. */
  wrong: string[];
}

/** `runs` inputs, shared out over all workings. */
export function fuzz(runs: number, seed: number): Record<string, Fuzzed> {
  return Object.fromEntries(
    WORKINGS.map((working, index) => {
      const schema = z.toJSONSchema(working.input, { io: 'input' }) as Schema;
      const next = random(seed + 7919 * (index + 1));
      const fuzzed: Fuzzed = { runs: Math.ceil(runs / WORKINGS.length), worked: 0, refused: 0, wrong: [] };
      for (let run = 0; run < fuzzed.runs; run++) {
        const given = input(working.example, schema, next);
        try {
          const worked = workOut(working, given);
          if (!worked.ok) {
            fuzzed.refused += 1;
            if (!/^\S/.test(worked.why))
              fuzzed.wrong.push(`refused without a word: ${JSON.stringify(given)}`);
            continue;
          }
          fuzzed.worked += 1;
          // A name that somebody typed may be "NaN".
          const told = [...worked.told.says, ...(worked.told.table ?? []).flat()]
            .join(' ')
            .replaceAll(JSON.stringify(given).includes('"NaN"') ? 'NaN' : '\0', '');
          if (
            unfit(worked.output) ||
            /\b(NaN|undefined|Infinity|null)\b/.test(told) ||
            !working.verdicts.includes(worked.verdict)
          )
            fuzzed.wrong.push(`${JSON.stringify(given)} -> ${JSON.stringify(worked.output)} ${told}`);
        } catch (error) {
          fuzzed.wrong.push(`${String(error)}: ${JSON.stringify(given)}`);
        }
      }
      return [working.id, fuzzed];
    }),
  );
}

if (import.meta.main) {
  const [runs = 1_000_000, seed = 20_261_125] = process.argv.slice(2).map(Number);
  const all = fuzz(runs, seed);
  for (const [id, { runs, worked, refused, wrong }] of Object.entries(all)) {
    console.log(
      `${id.padEnd(12)} ${runs} inputs: ${worked} worked out, ${refused} refused, ${wrong.length} wrong`,
    );
    for (const line of wrong.slice(0, 3)) console.log(`  ${line.slice(0, 600)}`);
  }
  process.exitCode = Object.values(all).some(({ wrong }) => wrong.length > 0) ? 1 : 0;
}
