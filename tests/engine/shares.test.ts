import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  argument,
  connectCommand,
  nameOf,
  removeCommand,
  type Share,
  serverOf,
  share as shape,
  smbAddress,
  waysToSay,
} from '#engine/shares.ts';
import { argumentsOf, readByCmd } from './windows-arguments.ts';

const share = (path: string, letter?: string): Share => ({
  id: 'it',
  path,
  about: 'the plans',
  owner: 'the head of plans',
  ...(letter ? { letter } : {}),
});

// The middle is common to every part; a part may have spaces and dots inside and never at its end.
const COMMON = [..."abzKÄéß019!#$&'()-@^_{}~"];
const part = (more: string) =>
  fc
    .tuple(
      fc.string({ unit: fc.constantFrom(...COMMON, ...more, ' ', '.'), maxLength: 12 }),
      fc.constantFrom(...COMMON, ...more),
    )
    .map(([start, end]) => start + end);
const server = fc.string({ unit: fc.constantFrom(...'abz019.-_'), minLength: 1, maxLength: 20 });
const path = fc
  .tuple(server, part(''), fc.array(part('+,;=[]'), { maxLength: 3 }))
  .map(([host, name, folders]) => `\\\\${[host, name, ...folders].join('\\')}`);
const letter = fc.option(fc.constantFrom('G:', 'H:', 'Z:'), { nil: undefined });

describe('the rules by which Windows takes a command line apart', () => {
  // The examples printed beside the rules.
  it.each<[string, string[]]>([
    ['"a b c" d e', ['a b c', 'd', 'e']],
    [String.raw`"ab\"c" "\\" d`, ['ab"c', '\\', 'd']],
    [String.raw`a\\\b d"e f"g h`, [String.raw`a\\\b`, 'de fg', 'h']],
    [String.raw`a\\\"b c d`, [String.raw`a\"b`, 'c', 'd']],
    [String.raw`a\\\\"b c" d e`, [String.raw`a\\b c`, 'd', 'e']],
  ])('%s', (line, expected) => expect(argumentsOf(line)).toEqual(expected));
});

describe('the command that connects a share', () => {
  it('comes to Windows as written in site.yaml, whatever the name', () => {
    fc.assert(
      fc.property(path, letter, (where, own) => {
        const expected = ['net', 'use', ...(own ? [own] : []), where, ...(own ? ['/persistent:yes'] : [])];
        expect(argumentsOf(connectCommand(share(where, own)))).toEqual(expected);
        expect(argumentsOf(removeCommand(share(where, own)))).toEqual([
          'net',
          'use',
          own ?? where,
          '/delete',
        ]);
      }),
    );
  });

  it('holds nothing that the command window would take for itself, whatever site.yaml may say', () => {
    fc.assert(
      fc.property(path, letter, (where, own) => {
        expect(shape.safeParse(share(where, own)).error).toBeUndefined();
        expect(readByCmd(connectCommand(share(where, own)))).toBe(false);
        expect(readByCmd(removeCommand(share(where, own)))).toBe(false);
      }),
    );
  });

  it('quotes any text at all', () => {
    fc.assert(
      fc.property(fc.string({ unit: fc.constantFrom(...'ab \t\\"') }), text => {
        expect(argumentsOf(`net ${argument(text)} end`)).toEqual(['net', text, 'end']);
      }),
    );
  });

  it('takes away one connection, never all', () => {
    fc.assert(
      fc.property(path, letter, (where, own) => {
        expect(removeCommand(share(where, own))).not.toMatch(/\*/);
      }),
    );
  });

  it('reads as people know it', () => {
    expect(connectCommand(share(String.raw`\\files.example\team plans$`, 'P:'))).toBe(
      String.raw`net use P: "\\files.example\team plans$" /persistent:yes`,
    );
    expect(removeCommand(share(String.raw`\\files.example\plans`, 'P:'))).toBe('net use P: /delete');
  });
});

describe('the address for a Mac and for GNOME', () => {
  it('leads to the same place, whatever the name', () => {
    fc.assert(
      fc.property(path, where => {
        const address = new URL(smbAddress(share(where)));
        const parts = address.pathname.slice(1).split('/').map(decodeURIComponent);
        expect([address.protocol, address.search, address.hash, address.username]).toEqual([
          'smb:',
          '',
          '',
          '',
        ]);
        expect(`\\\\${[address.host, ...parts].join('\\')}`).toBe(where);
      }),
    );
  });

  it('reads as people know it', () => {
    expect(smbAddress(share(String.raw`\\files.example\team plans\2026 & later$`))).toBe(
      'smb://files.example/team%20plans/2026%20&%20later$',
    );
  });
});

describe('a share in site.yaml', () => {
  const withPath = (where: string) => shape.safeParse(share(where)).success;

  it.each([
    [String.raw`\\files\accounts`],
    [String.raw`\\files.example\home$`],
    [String.raw`\\10.0.0.7\R&D plans\2026`],
    [String.raw`\\nas-2\Büro (alt)\Übergabe`],
  ])('may lie at %s', where => expect(withPath(where)).toBe(true));

  it.each([
    ['a letter and no path', 'G:'],
    ['no share', String.raw`\\files`],
    ['nothing behind the last backslash', '\\\\files\\plans\\'],
    ['a quotation mark', String.raw`\\files\pl"ans`],
    ['a typographic quotation mark, which some programs turn into a plain one', String.raw`\\files\pl“ans`],
    ['a variable of the command window', String.raw`\\files\%TEMP%`],
    ['a backtick, which ends code in a chat', '\\\\files\\a`b'],
    ['a pipe', String.raw`\\files\a|b`],
    ['a star', String.raw`\\files\*`],
    ['a line break', '\\\\files\\a\nb'],
    ['a dot at the end, which Windows drops', String.raw`\\files\plans.`],
    ['a path to a whole server from the inside', String.raw`\\files\plans\..`],
    ['slashes', '//files/plans'],
  ])('may not have %s in its path', (_what, where) => expect(withPath(where)).toBe(false));

  it.each(['**bold**', 'a `code`', 'a [link](x)', 'two\nlines', 'a {share.path}'])(
    'may not be called %j, which our texts would take for a mark',
    about => expect(shape.safeParse({ ...share(String.raw`\\files\plans`), about }).success).toBe(false),
  );

  it('is called by its letter, or by what it is', () => {
    expect(nameOf(share(String.raw`\\files\plans`, 'P:'))).toBe('P: (the plans)');
    expect(nameOf(share(String.raw`\\files\plans`))).toBe('the plans');
    expect(serverOf(share(String.raw`\\files.example\plans\old`))).toBe('files.example');
  });

  it('is named by its letter in the ways that people use, except where that is a word', () => {
    expect(waysToSay(share(String.raw`\\files\plans`, 'P:'))).toEqual(['p:', 'p', 'p drive', 'drive p']);
    expect(waysToSay(share(String.raw`\\files\plans`, 'I:'))).toEqual(['i:']);
    expect(waysToSay(share(String.raw`\\files\plans`))).toEqual([]);
  });
});
