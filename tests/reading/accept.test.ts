/** What people attach beside pictures: text, and a drive's page as its bare bytes. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { accept } from '#reading/accept.ts';
import { anyNvme, nvmePage, QUIET } from '../workings/health-pages.ts';

const bytes = (text: string) => new TextEncoder().encode(text);
const textOf = (given: Uint8Array) => {
  const accepted = accept(given);
  return accepted.ok ? { type: accepted.type, text: new TextDecoder().decode(accepted.content) } : accepted;
};
const utf16 = (text: string, mark: number[], big: boolean) => {
  const units = Array.from({ length: text.length }, (_, at) => text.charCodeAt(at));
  return new Uint8Array([
    ...mark,
    ...units.flatMap(unit => (big ? [unit >> 8, unit & 255] : [unit & 255, unit >> 8])),
  ]);
};

describe('a file that is no picture', () => {
  test('is taken as text where it is some, whatever wrote it', () => {
    const text = '{ "Temperature": 41,\r\n  "Wear": 3 } ü';
    const taken = { type: 'text/plain', text };
    expect(textOf(bytes(text))).toEqual(taken);
    expect(textOf(new Uint8Array([0xef, 0xbb, 0xbf, ...bytes(text)]))).toEqual(taken);
    expect(textOf(utf16(text, [0xff, 0xfe], false))).toEqual(taken);
    expect(textOf(utf16(text, [0xfe, 0xff], true))).toEqual(taken);
    const old = Uint8Array.from(text, letter => letter.charCodeAt(0));
    expect(textOf(old)).toEqual(taken);
    expect(textOf(new Uint8Array([...bytes(text), 0, 0x1a]))).toEqual(taken);
    expect(textOf(bytes(`\u001b[1;31m${text}\u001b[0m`))).toEqual(taken);
  });

  test("of 512 bytes that are no text is a drive's page, and comes out in hex", () => {
    fc.assert(
      fc.property(anyNvme, page => {
        const given = nvmePage({
          ...page,
          kelvin: 270 + (page.kelvin % 100),
          spare: page.spare % 101,
          spareLimit: 10,
        });
        const { text } = textOf(given) as { text: string };
        expect(Uint8Array.from(text.trim().split(/\s+/), pair => Number.parseInt(pair, 16))).toEqual(given);
      }),
      { numRuns: 50 },
    );
  });

  test.each([
    ['nothing in it', new Uint8Array(), 'empty'],
    ['blanks', bytes(' \n\n'), 'other'],
    ['a program', new Uint8Array([0x4d, 0x5a, 0x90, 0, 3, 0, 0, 0]), 'other'],
    ['a page that was cut off', nvmePage(QUIET).subarray(0, 511), 'other'],
    [
      '512 bytes of a key',
      Uint8Array.from({ length: 512 }, (_, at) => (at * 89 + (at === 5 ? 201 : 200)) & 255),
      'other',
    ],
    ['a page of the web', bytes('<!DOCTYPE html><title>Sign in</title>'), 'other'],
    ['half a letter of UTF-16', new Uint8Array([0xff, 0xfe, 0x61]), 'other'],
    ['a whole day of log', bytes('x'.repeat(1024 * 1024 + 1)), 'too-long'],
  ])('with %s is refused', (_, given, why) => {
    expect(accept(given)).toEqual({ ok: false, why });
  });
});
