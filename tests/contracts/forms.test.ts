/** Every working can be used by a form. Finds the workings by the registry, which another contract compares with the folders. */
import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { readYaml } from '#library/yaml.ts';
import { WORKINGS } from '#workings/all.ts';
import { formOf, valuesOf, workForm } from '#workings/form.ts';
import { workOut } from '#workings/working.ts';

const plain = (value: unknown) => JSON.parse(JSON.stringify(value));
type Input = Record<string, unknown>;

describe.each(WORKINGS.map(working => [working.id, working] as const))('the form of %s', (id, working) => {
  const fields = formOf(working);
  const inputs = (
    readYaml('examples', readFileSync(`src/workings/${id}/examples.yaml`, 'utf8')).value as { input: Input }[]
  )
    .map(({ input }) => input)
    .concat(working.example as Input)
    // Cases that the form cannot express are those with wrong names in them.
    .filter(input => Object.keys(input).every(name => fields.some(field => field.name === name)));

  test('has every field once, in words, with its choices and what it expects', () => {
    expect(new Set(fields.map(({ name }) => name)).size).toBe(fields.length);
    for (const { label, kind, options, help, required, usual } of fields) {
      expect(label).toMatch(/^[A-Z][A-Za-z0-9 ,]*$/);
      expect(options.length > 0).toBe(kind === 'choice' || kind === 'yes-no');
      if (kind === 'long-text' || kind === 'number') expect(help).not.toBe('');
      if (required) expect(usual).toBeNull();
    }
  });

  test('filled in with any of its cases gives what the input itself gives', () => {
    expect(inputs.length).toBeGreaterThan(3);
    for (const input of inputs) {
      const direct = workOut(working, input);
      const filled = workForm(working, valuesOf(working, input));
      if (direct.ok) expect(plain(filled)).toEqual(plain(direct));
      else expect({ input, ok: filled.ok }).toEqual({ input, ok: false });
    }
  });

  test('with nothing filled in names what is missing, field by field', () => {
    const filled = workForm(working, {});
    expect(filled.ok).toBe(false);
    if (filled.ok) return;
    const required = fields.filter(field => field.required).map(({ name }) => name);
    expect(Object.keys(filled.wrong)).toEqual(expect.arrayContaining(required));
    for (const why of Object.values(filled.wrong)) expect(why).toMatch(/^[^\n]{5,}$/);
  });

  test('takes any text without falling over, and says in one line at its field what is wrong', () => {
    const text = fc.oneof(
      fc.string(),
      fc.constantFrom('[', '{"a":', '1, 2', 'name: x; y', '__proto__: 1', '-', 'a: [1; 2', '"'),
    );
    const values = fc.record(Object.fromEntries(fields.map(({ name }) => [name, text])));
    fc.assert(
      fc.property(values, given => {
        const filled = workForm(working, given);
        if (filled.ok) return;
        expect(fields.map(({ name }) => name)).toEqual(expect.arrayContaining(Object.keys(filled.wrong)));
        for (const why of Object.values(filled.wrong)) expect(why.split('\n')[0]!.length).toBeGreaterThan(4);
      }),
      { numRuns: 100 },
    );
  });
});
