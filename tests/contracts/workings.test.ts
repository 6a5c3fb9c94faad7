/** What every working must fulfil. Finds them by reading the folder, so a new one is tested without being named anywhere. */
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { z } from 'zod';
import { mistakeText } from '#library/load.ts';
import { mistakesOf } from '#library/mistakes.ts';
import { readYaml } from '#library/yaml.ts';
import { WORKINGS } from '#workings/all.ts';
import { workOut } from '#workings/working.ts';

const STATUS = ['read', 'read in a copy', 'calculated', 'common practice', 'from memory'] as const;

const cases = z.array(
  z.strictObject({
    case: z.string().min(1),
    /** Where the value comes from, published, or how it was calculated. */
    source: z.string().min(1),
    status: z.enum(STATUS),
    input: z.unknown(),
    /** What must be among the output. */
    expect: z.unknown().optional(),
    /** What must stand in the one line that refuses the input. */
    refuses: z.string().optional(),
    /** Relative, for numbers. */
    within: z.number().positive().default(1e-6),
  }),
);

const folders = readdirSync('src/workings', { withFileTypes: true })
  .filter(entry => entry.isDirectory())
  .map(({ name }) => name);

test('the registry names every folder', () => {
  expect(WORKINGS.map(({ id }) => id).toSorted()).toEqual(folders.toSorted());
});

/** Every number in it, with its place. */
function numbers(value: unknown, at = ''): [string, number][] {
  if (typeof value === 'number') return [[at, value]];
  if (typeof value !== 'object' || value === null) return [];
  return Object.entries(value).flatMap(([key, inner]) => numbers(inner, `${at}.${key}`));
}

/** Places where `given` departs from what is expected of it. */
function departures(given: unknown, wanted: unknown, within: number, at = ''): string[] {
  if (typeof wanted === 'number' && typeof given === 'number') {
    const near = Math.abs(given - wanted) <= within * Math.max(Math.abs(wanted), Number.MIN_VALUE);
    return near ? [] : [`${at} is ${given}, not ${wanted}`];
  }
  if (typeof wanted === 'object' && wanted !== null && typeof given === 'object' && given !== null) {
    return Object.entries(wanted).flatMap(([key, inner]) =>
      departures((given as Record<string, unknown>)[key], inner, within, `${at}.${key}`),
    );
  }
  return given === wanted ? [] : [`${at} is ${JSON.stringify(given)}, not ${JSON.stringify(wanted)}`];
}

describe.each(WORKINGS.map(working => [working.id, working] as const))('%s', (id, working) => {
  const file = `src/workings/${id}/examples.yaml`;

  test('its sample works, and comes out in its own shape, with a verdict of its own', () => {
    const worked = workOut(working, working.example);
    if (!worked.ok) throw new Error(worked.why);
    expect(() => working.output.parse(worked.output)).not.toThrow();
    expect(working.verdicts).toContain(worked.verdict);
    expect(worked.told.says.length).toBeGreaterThan(0);
    expect(worked.told.limits.length).toBeGreaterThan(0);
  });

  test('its shapes can be told as JSON Schema', () => {
    expect(z.toJSONSchema(working.input, { io: 'input' })).toHaveProperty('type');
    const { type, anyOf } = z.toJSONSchema(working.output);
    expect(type ?? anyOf).toBeDefined();
  });

  test('it has cases with their sources, and they come out as published', () => {
    expect(existsSync(file)).toBe(true);
    const source = readYaml(file, readFileSync(file, 'utf8'));
    expect(mistakesOf(source, cases).map(mistakeText)).toEqual([]);
    const wrong = cases.parse(source.value).flatMap((each, index) => {
      const worked = workOut(working, each.input);
      const where = `${file}:${source.line([index])}: ${each.case}`;
      if (each.refuses !== undefined) {
        if (worked.ok) return [`${where}: it was not refused`];
        return worked.why.includes(each.refuses) ? [] : [`${where}: refused with: ${worked.why}`];
      }
      if (!worked.ok) return [`${where}: ${worked.why}`];
      expect(working.verdicts).toContain(worked.verdict);
      expect(numbers(worked.output).filter(([, value]) => !Number.isFinite(value))).toEqual([]);
      return departures(worked.output, each.expect, each.within).map(departure => `${where}: ${departure}`);
    });
    expect(wrong).toEqual([]);
  });

  test.each([null, [], 7, 'text', {}, { nothing: 1 }])(
    '%j is refused in one line for each thing that is wrong',
    given => {
      const worked = workOut(working, given);
      expect(worked.ok).toBe(false);
      if (!worked.ok) expect(worked.why).toMatch(/^\S.+/);
    },
  );
});
