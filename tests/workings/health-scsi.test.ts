/** SCSI log pages: what they say, and what is no page. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { hex } from './health-pages.ts';
import { exact, refused, values } from './health-worked.ts';

describe('a SCSI log page', () => {
  const parameter = fc.record({
    code: fc.constantFrom(0, 1, 2, 3, 4, 5, 6, 0x8000),
    value: fc.uint8Array({ minLength: 1, maxLength: 8 }),
  });
  const pageOf = (code: number, parameters: { code: number; value: Uint8Array }[]) => {
    const body = parameters.flatMap(({ code: of, value }) => [of >> 8, of & 255, 3, value.length, ...value]);
    return Uint8Array.from([code, 0, body.length >> 8, body.length & 255, ...body]);
  };
  const distinct = fc.uniqueArray(parameter, { minLength: 1, selector: ({ code }) => code });

  test.each([
    [2, 'write'],
    [3, 'read'],
    [5, 'check'],
  ])('%i gives back the errors that were put in', (code, doing) => {
    fc.assert(
      fc.property(distinct, parameters => {
        const read = values({ page: hex(pageOf(code, parameters)) });
        for (const [of, id] of [
          [3, `mended-${doing}-errors`],
          [6, `unmended-${doing}-errors`],
        ] as const) {
          const put = parameters.find(each => each.code === of);
          expect(read[id]).toBe(put === undefined ? undefined : exact(BigInt(`0x${hex(put.value)}`)));
        }
      }),
    );
  });

  test('that is cut off, or of which the length is wrong, is refused', () => {
    fc.assert(
      fc.property(distinct, parameters => {
        const bytes = pageOf(3, parameters);
        expect(refused({ page: hex(bytes.subarray(0, -1)) })).toMatch(
          /^page: there are \d+ bytes?; expected/,
        );
        const last = bytes.length - parameters.at(-1)!.value.length - 1;
        bytes[last] = bytes[last]! + 1;
        expect(refused({ page: hex(bytes) })).toMatch(
          /^page: the last parameter of this SCSI log page is cut off/,
        );
      }),
    );
  });
});
