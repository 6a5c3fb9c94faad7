/** The Teams app that an administrator uploads. */
import { execFileSync, spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { strFromU8, unzipSync } from 'fflate';
import sharp from 'sharp';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { COMMANDS } from '#channels/teams/desk/desk.ts';
import { hearStanding } from '#hearing/standing.ts';

const require = createRequire(import.meta.url);
const Ajv = require('ajv-draft-04').default;
const SCHEMA = join(
  dirname(require.resolve('@microsoft/app-manifest/package.json')),
  'build/json-schemas/teams/v1.29/MicrosoftTeams.schema.json',
);
const APP = '0a0b0c0d-1111-4222-8333-444455556666';

let folder: string;
let files: Record<string, Uint8Array>;
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'reseat-app-'));
  const out = join(folder, 'app.zip');
  const given = ['--app-id', APP, '--website', 'https://help.example/', '--version', '1.2.3', '--out', out];
  execFileSync(process.execPath, ['deploy/teams/package.ts', ...given]);
  files = unzipSync(readFileSync(out));
});
afterAll(() => rmSync(folder, { recursive: true }));
const manifest = () => JSON.parse(strFromU8(files['manifest.json']!));

test('its manifest is valid by the published schema, and carries the ids that were given', () => {
  const validate = new Ajv({ strict: false, allErrors: true, validateFormats: false }).compile(
    JSON.parse(readFileSync(SCHEMA, 'utf8')),
  );
  expect([validate(manifest()), validate.errors]).toEqual([true, null]);
  expect([manifest().id, manifest().bots[0].botId, manifest().version]).toEqual([APP, APP, '1.2.3']);
  // The schema is not one that takes anything.
  expect(validate({ ...manifest(), icons: {} })).toBe(false);
});

test('its icons are as large as Teams wants them; the outline is white on nothing', async () => {
  expect(Object.keys(files).sort()).toEqual(['color.png', 'manifest.json', 'outline.png']);
  expect(await sharp(files['color.png']!).metadata()).toMatchObject({
    format: 'png',
    width: 192,
    height: 192,
  });
  const { data, info } = await sharp(files['outline.png']!)
    .ensureAlpha()
    .raw()
    .toBuffer({ resolveWithObject: true });
  expect([info.width, info.height]).toEqual([32, 32]);
  const pixels = Array.from({ length: 32 * 32 }, (_, at) => [...data.subarray(at * 4, at * 4 + 4)]);
  expect(pixels.filter(([, , , alpha]) => alpha === 0).length).toBeGreaterThan(300);
  const seen = pixels.filter(([, , , alpha]) => alpha! > 0);
  expect(seen.length).toBeGreaterThan(100);
  expect(seen.filter(([red, green, blue]) => Math.min(red!, green!, blue!) < 250)).toEqual([]);
});

test('every command that it offers is one that is heard', () => {
  const heard = manifest().bots[0].commandLists.map(({ commands }: { commands: { title: string }[] }) =>
    commands.map(({ title }) => (COMMANDS.includes(title.toLowerCase()) ? 'desk' : hearStanding(title))),
  );
  const standing = ['person', 'back', 'again', 'stop'];
  // The desk's is of no use in a chat of one's own.
  expect(heard).toEqual([standing, [...standing, 'desk']]);
});

test('a wrong id or address is told in one line, with what to do', () => {
  const told = (...given: string[]) => {
    const { status, stderr } = spawnSync(process.execPath, ['deploy/teams/package.ts', ...given], {
      encoding: 'utf8',
    });
    return [status, stderr.trim().split('\n').length, stderr];
  };
  expect(told('--app-id', 'x')).toEqual([2, 1, expect.stringContaining('--app-id is the Application')]);
  expect(told('--app-id', APP, '--website', 'http://x')).toEqual([
    2,
    1,
    expect.stringContaining('--website is an address'),
  ]);
  expect(told('--made-up')).toEqual([2, expect.anything(), expect.stringContaining('made-up')]);
});
