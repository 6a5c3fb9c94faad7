/** The same page in every manner of pasting is the same page; a part of it is none. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { health } from '#workings/health/index.ts';
import { workOut } from '#workings/working.ts';
import { anyAta, anyNvme, ataPage, hex, LAYOUTS, nvmePage, QUIET } from './health-pages.ts';
import { refused, worked } from './health-worked.ts';

describe('a paste', () => {
  const pages = fc.oneof(
    anyNvme.map(nvmePage),
    anyAta.map(attributes => ataPage(attributes)),
  );

  test.each(Object.keys(LAYOUTS))('in the manner "%s" is read like all others', layout => {
    fc.assert(
      fc.property(pages, bytes => {
        expect(worked({ page: LAYOUTS[layout]!(bytes) })).toEqual(worked({ page: hex(bytes) }));
      }),
      { numRuns: 50 },
    );
  });

  test.each(Object.keys(LAYOUTS).filter(name => !/left out|fence/.test(name)))(
    'in the manner "%s" that lost a line, or a part at its end, is refused',
    layout => {
      fc.assert(
        fc.property(pages, fc.nat(1000), (bytes, at) => {
          const text = LAYOUTS[layout]!(bytes);
          const lines = text.split('\n');
          const holding = lines.flatMap((line, place) =>
            /(?:(?:0x[0-9a-f]|[0-9a-f]{2}).*){3}/i.test(line) && !/C:|00 01 02 03 04 05 06 07/.test(line)
              ? [place]
              : [],
          );
          const gone = holding[at % holding.length];
          const without = lines.filter((_, place) => place !== gone).join('\n');
          expect(refused({ page: without })).toMatch(/^page: .*(expected|holds|give)/s);
          const end = Math.floor((text.length * (at % 900)) / 1000);
          expect(refused({ page: text.slice(0, end) })).toMatch(/^page: /);
        }),
        { numRuns: 30 },
      );
    },
  );

  test('of which one digit is lost is refused, and says so', () => {
    fc.assert(
      fc.property(pages, fc.nat(1023), (bytes, at) => {
        const text = hex(bytes);
        expect(refused({ page: text.slice(0, at) + text.slice(at + 1) })).toBe(
          'page: 1023 hex digits make no whole bytes; expected 512 bytes in hex (NVMe or ATA; with the page of limits after it 1024), or a whole SCSI log page',
        );
      }),
    );
  });

  test('names the line at fault', () => {
    const lines = LAYOUTS['offset, two blocks of eight, letters between bars']!(nvmePage(QUIET)).split('\n');
    const broken = (at: number, change: (line: string) => string) =>
      refused({ page: lines.map((line, place) => (place === at ? change(line) : line)).join('\n') });
    expect(broken(6, line => line.replace(/ 00/, ' 0z'))).toMatch(
      /^page: line 7 has 1?\d bytes that can be read, of 16/,
    );
    expect(broken(9, () => 'cut by the mail program')).toMatch(
      /^page: before line 11 \(offset 000000a0\) 16 bytes are missing/,
    );
    expect(broken(9, line => `${line}\n${line}`)).toMatch(/^page: line 11 goes back to offset 00000090/);
    const bare = LAYOUTS['bytes with blanks']!(nvmePage(QUIET)).split('\n');
    bare[4] = bare[4]!.slice(0, -3);
    expect(refused({ page: bare.join('\n') })).toMatch(/^page: there are 511 bytes, and line 5 has fewer/);
  });

  test('that is anything at all is read or refused in one line, never with a number that is none', () => {
    const scrap = fc.oneof(
      fc.string(),
      fc.constantFrom(
        '*',
        '\n',
        '00000010: ',
        '00000000  ',
        '0x',
        '{"Wear":',
        '[1,2',
        '|',
        'Wear : 3\n',
        'fffe7b00',
      ),
      anyNvme.map(page => hex(nvmePage(page))),
      fc.uint8Array({ maxLength: 40 }).map(hex),
    );
    fc.assert(
      fc.property(fc.array(scrap, { maxLength: 6 }), parts => {
        const done = workOut(health, { page: parts.join('') });
        if (!done.ok) expect(done.why).toMatch(/^\S[^\n]*$/);
        else expect(JSON.stringify(done)).not.toMatch(/NaN|Infinity|undefined/);
      }),
      { numRuns: 500 },
    );
  });
});
