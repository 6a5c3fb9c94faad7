import { cpSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { loadLibrary, mistakeText } from '#library/load.ts';

const folders: string[] = [];
afterAll(() => {
  for (const folder of folders) rmSync(folder, { recursive: true, force: true });
});

/** What is said about the flows with one text changed, and the line that it stands in. */
function changed(file: string, from: string, to: string): { said: string[]; line: number } {
  const folder = mkdtempSync(join(tmpdir(), 'reseat-shares-'));
  folders.push(folder);
  cpSync('flows', folder, { recursive: true });
  const path = join(folder, file);
  const text = readFileSync(path, 'utf8');
  const at = text.indexOf(from);
  if (at === -1) throw new Error(`${file} has no ${from}`);
  writeFileSync(path, text.replace(from, to));
  const line = text.slice(0, at).split('\n').length;
  return { said: loadLibrary(folder).mistakes.map(mistakeText), line };
}

describe('what is wrong about shares is told with file and line', () => {
  it('a place in a text that site.yaml cannot fill', () => {
    const { said, line } = changed('share-missing/flow.yaml', '{share.name}', '{share.nane}');
    expect(said).toHaveLength(1);
    expect(said[0]).toMatch(
      new RegExp(`share-missing/flow\\.yaml:${line}: .*\\{share\\.nane\\}.*\\{share\\.name\\}`),
    );
  });

  it('a path that a command would not carry', () => {
    const { said, line } = changed('site.yaml', 'project archive', 'project "archive"');
    expect(said).toHaveLength(1);
    expect(said[0]).toContain(`site.yaml:${line}: `);
    expect(said[0]).toContain("can't be put into a command safely");
  });

  it('a share that is listed twice', () => {
    const { said } = changed('site.yaml', 'id: projects', 'id: groups');
    expect(said.join('\n')).toMatch(/site\.yaml:\d+: .*the id "groups" is taken/);
  });

  it('words of the organisation that are missing', () => {
    const { said } = changed('site.yaml', '  vpn:', '  von:');
    expect(said.join('\n')).toMatch(/site\.yaml:\d+: /);
  });

  it('an error number that leads nowhere', () => {
    const { said } = changed(
      'catalogue/os-codes.yaml',
      '{ error: not-found, came: not-found }',
      '{ error: not-fund }',
    );
    expect(said).toHaveLength(1);
    expect(said[0]).toMatch(/os-codes\.yaml:\d+: "error" has no answer "not-fund"/);
  });
});
