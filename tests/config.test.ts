import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { readConfig } from '../src/config.ts';

describe('settings', () => {
  test('an empty environment runs with a database file and the shipped flows', () => {
    expect(readConfig({})).toEqual({
      database: 'data/reseat.db',
      flows: 'flows',
      host: '127.0.0.1',
      port: 3978,
      publicUrl: null,
      nudgeAfter: 4 * 3_600_000,
      leftAfter: 72 * 3_600_000,
      boards: [],
    });
  });

  test('every mistake is told at once, in one message', () => {
    expect(() => readConfig({ RESEAT_NUDGE_HOURS: 'soon', RESEAT_LEFT_HOURS: '-1' })).toThrow(
      /RESEAT_NUDGE_HOURS: a number of hours.*RESEAT_LEFT_HOURS: a number of hours above 0/,
    );
  });

  test('a public address is kept without what stands behind it, and has no path', () => {
    expect(readConfig({ RESEAT_PUBLIC_URL: 'https://help.example/' }).publicUrl).toBe('https://help.example');
    expect(() => readConfig({ RESEAT_PUBLIC_URL: 'https://help.example/chat' })).toThrow(/without a path/);
    expect(() => readConfig({ RESEAT_PUBLIC_URL: 'help.example', PORT: '70000' })).toThrow(
      /PORT: a port number.*RESEAT_PUBLIC_URL: an address such as/,
    );
  });

  test('leaving before the nudge makes no sense', () => {
    expect(() => readConfig({ RESEAT_NUDGE_HOURS: '5', RESEAT_LEFT_HOURS: '4' })).toThrow(/longer than/);
  });

  test('the example lists every setting, with values that are accepted', () => {
    const lines = readFileSync('deploy/env.example', 'utf8').matchAll(/^#? ?([A-Z][A-Z_]+)=(.*)$/gm);
    const given = Object.fromEntries([...lines].map(([, name, value]) => [name, value]));
    expect(() => readConfig(given)).not.toThrow();
    const named = readFileSync('src/config.ts', 'utf8').matchAll(/^ {2}([A-Z][A-Z_]+):/gm);
    expect(Object.keys(given).sort()).toEqual([...named].map(([, name]) => name).sort());
  });
});
