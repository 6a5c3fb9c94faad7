import { cpSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { loadLibrary, mistakeText } from '#library/load.ts';

let folder: string;
beforeEach(() => {
  folder = join(mkdtempSync(join(tmpdir(), 'reseat-')), 'flows');
  cpSync('flows', folder, { recursive: true });
});
afterEach(() => rmSync(join(folder, '..'), { recursive: true }));

/** Damages one file and returns what is said about it. */
function damaged(file: string, change: (text: string) => string): string[] {
  const path = join(folder, file);
  writeFileSync(path, change(readFileSync(path, 'utf8')));
  return loadLibrary(folder).mistakes.map(mistakeText);
}
const flow = 'boot-no-device/flow.yaml';
const lineOf = (file: string, part: string) =>
  readFileSync(join(folder, file), 'utf8')
    .split('\n')
    .findIndex(line => line.includes(part)) + 1;

describe('reading flows', () => {
  test('the shipped flows have no mistakes, and each has its hash', () => {
    const { library, mistakes } = loadLibrary(folder);
    expect(mistakes.map(mistakeText)).toEqual([]);
    expect(Object.values(library!.flows).every(({ hash }) => /^[0-9a-f]{64}$/.test(hash))).toBe(true);
  });

  test('the hash follows the content, not the layout of the file', () => {
    const before = loadLibrary(folder).library!.flows['boot-no-device']!.hash;
    damaged(flow, text => `# a remark\n\n${text}`);
    expect(loadLibrary(folder).library!.flows['boot-no-device']!.hash).toBe(before);
    damaged(flow, text => text.replace(/title: .*/, 'title: Something else'));
    expect(loadLibrary(folder).library!.flows['boot-no-device']!.hash).not.toBe(before);
  });

  test('broken YAML is told with file and line', () => {
    const [first] = damaged(flow, text => `${text}\n  - id: [oops\n`);
    expect(first).toMatch(/boot-no-device\/flow\.yaml:\d+: a bracket is opened here and not closed/);
  });

  test('a misspelt key is told on its own line with the remedy', () => {
    const told = damaged('drive-noise/flow.yaml', text => text.replace(/^( {4}|- )ask: /m, '$1aks: '));
    expect(told.join('\n')).toContain('flow.yaml:');
    expect(told.join('\n')).toMatch(/aks|a step is one of/);
  });

  test('an unknown block, fault, caution or answer is told with what there is', () => {
    const told = damaged(
      flow,
      text =>
        `${text.trimEnd()}\n  - visit: no-such-block\n  - id: extra\n    ask: Well?\n    answers: { yes: "Yes", no: "No" }\n    cautions: [no-such-caution]\n    raises: { maybe: [suspect] }\n    evidence: { yes: { for: { no-such-fault: 1 } } }\n`,
    ).join('\n');
    expect(told).toContain('there is no block "no-such-block"');
    expect(told).toContain('there is no caution "no-such-caution"');
    expect(told).toContain('"maybe" is no answer of this step');
    expect(told).toContain('there is no fault "no-such-fault"');
    expect(told).toContain(`flow.yaml:${lineOf(flow, 'visit: no-such-block')}:`);
  });

  test('a condition on a finding that nothing sets, or a value it never has, is told', () => {
    const told = damaged(
      flow,
      text =>
        `${text.trimEnd()}\n  - say: Never.\n    if: { no-such-finding: yes }\n  - say: Never either.\n    if: { suspect: maybe }\n`,
    ).join('\n');
    expect(told).toContain('nothing sets a finding "no-such-finding"');
    expect(told).toContain('"suspect" is never "maybe"');
  });

  test('a folder and the id inside it must agree', () => {
    expect(
      damaged(flow, text => text.replace('symptom: boot-no-device', 'symptom: boot-no-os')).join('\n'),
    ).toContain('the folder is called boot-no-device');
  });

  test('a missing folder says which setting to correct', () => {
    expect(() => loadLibrary(join(folder, 'nowhere'))).toThrow(/RESEAT_FLOWS/);
  });
});
