import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { copyTime } from '#workings/copy-time/index.ts';
import { workForm } from '#workings/form.ts';
import { exampleOf, readValue, type Shape, writeValue } from '#workings/notation.ts';
import { power } from '#workings/power/index.ts';

const numbers: Shape = { type: 'array', items: { type: 'integer' } };
const thing: Shape = {
  type: 'object',
  properties: {
    name: { type: 'string' },
    gigabytes: { type: 'number' },
    lastCopy: { type: 'boolean' },
    paths: { type: 'array', items: { type: 'string' } },
  },
  required: ['name', 'gigabytes'],
};
const things: Shape = { type: 'array', items: thing };

describe('values as people write them', () => {
  test.each<[string, Shape, unknown]>([
    ['1, 3', numbers, [1, 3]],
    ['1\n3', numbers, [1, 3]],
    ['[1,3]', numbers, [1, 3]],
    ['none', numbers, []],
    ['two of them', numbers, ['two of them']],
    ['8', { anyOf: [{ type: 'number' }, { type: 'array', items: { type: 'number' } }] }, 8],
    ['8, 4', { anyOf: [{ type: 'number' }, { type: 'array', items: { type: 'number' } }] }, [8, 4]],
    [
      '1, 2\n3, 4',
      { type: 'array', items: numbers },
      [
        [1, 2],
        [3, 4],
      ],
    ],
    ['name: model A, 4 TB; gigabytes: 300', things, [{ name: 'model A, 4 TB', gigabytes: 300 }]],
    ['name: a\nname: b; paths: \\x, \\y', things, [{ name: 'a' }, { name: 'b', paths: ['\\x', '\\y'] }]],
    ['Name: a\nGigabytes: 3\nlast copy: no', thing, { name: 'a', gigabytes: 3, lastCopy: false }],
    ['name: "a; b"; gigabytes: 1', thing, { name: 'a; b', gigabytes: 1 }],
    ['name: C:\\Users; gigabytes: x', thing, { name: 'C:\\Users', gigabytes: 'x' }],
    ['[{"name":"a"}]', things, [{ name: 'a' }]],
    ['Yes', { type: 'boolean' }, true],
    ['1e-14', { type: 'number' }, 1e-14],
    ['3,5', { type: 'number' }, '3,5'],
  ])('%j', (text, shape, value) => {
    expect(readValue(text, shape)).toEqual(value);
  });

  test.each<[string, Shape, RegExp]>([
    ['[{', things, /^this is no JSON/],
    ['photos 300', thing, /^"photos 300" has no name before it: write name: name; gigabytes: 1$/],
  ])('%j is told what to write', (text, shape, said) => {
    expect(() => readValue(text, shape)).toThrow(said);
  });

  test('whatever is written is read back as the same', () => {
    const sign = fc.oneof(
      fc.string({ unit: 'grapheme' }),
      fc.constantFrom('a; b', '"', '[x', 'name: y', 'a,b', ' ', 'yes', '7', '\n'),
    );
    const value = fc.array(
      fc.record(
        {
          name: sign,
          gigabytes: fc.double({ noNaN: true, noDefaultInfinity: true }),
          lastCopy: fc.boolean(),
          paths: fc.array(sign),
        },
        { requiredKeys: ['name'] },
      ),
    );
    fc.assert(
      fc.property(value, given => {
        expect(readValue(writeValue(given, things), things)).toEqual(JSON.parse(JSON.stringify(given)));
      }),
    );
  });

  test('an example fits its own shape', () => {
    expect(readValue(exampleOf(things), things)).toEqual([{ name: 'name', gigabytes: 1 }]);
    expect(readValue(exampleOf(numbers), numbers)).toEqual([1, 2]);
  });
});

describe('what is wrong in a form', () => {
  test('is said at its field, with the line', () => {
    const filled = workForm(copyTime, {
      from: 'spinning',
      link: 'usb-2',
      sets: 'name: a; gigabytes: 1\nname: b; gigabytes: much',
    });
    expect(filled).toEqual({
      ok: false,
      wrong: { sets: 'Line 2, gigabytes: give gigabytes, from 0 to 1000000' },
    });
  });

  test('also where only the working itself can see it', () => {
    const filled = workForm(power, {});
    expect(filled.ok).toBe(false);
    if (!filled.ok) expect(Object.keys(filled.wrong)).toHaveLength(1);
  });

  test('what cannot be read is told instead of called missing', () => {
    const filled = workForm(copyTime, { from: 'spinning', link: 'usb-2', sets: '[{' });
    expect(filled).toMatchObject({ ok: false, wrong: { sets: expect.stringMatching(/^This is no JSON/) } });
  });
});
