import { existsSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join, normalize, relative } from 'node:path';
import { afterAll, describe, expect, test } from 'vitest';
import { loadLibrary } from '#library/load.ts';
import { run as runCommand } from '../../src/cli.ts';
import type { Shell } from '../../src/commands/wired.ts';
import { reseat } from '../support/reseat.ts';
import { readXml } from './shipped.ts';

const folder = mkdtempSync(join(tmpdir(), 'reseat-draw-'));
afterAll(() => rmSync(folder, { recursive: true }));

const loaded = loadLibrary('flows');
/** The command line in this process; it reads nothing but the flows. */
async function run(args: string[]): Promise<{ status: number; out: string; err: string }> {
  const said = { status: 0, out: '', err: '' };
  const into = (stream: 'out' | 'err') => ({ write: (text: string) => (said[stream] += text) });
  const shell = {
    output: into('out'),
    errors: into('err'),
    load: () => loaded,
    exit: (status: number) => {
      said.status = status;
    },
  };
  await runCommand(shell as unknown as Shell, ['node', 'reseat', ...args]);
  return said;
}

describe('reseat draw', () => {
  test('without --out prints the SVG', () => {
    const { run: runProcess, remove } = reseat();
    const { status, out, err } = runProcess(['draw', 'any']);
    remove();
    expect({ status, err }).toEqual({ status: 0, err: '' });
    expect(readXml(out).name).toBe('svg');
  });

  test('writes an SVG, and a PNG of the width asked for', async () => {
    const svg = join(folder, 'block.svg');
    expect((await run(['draw', 'data-first', '--out', svg])).status).toBe(0);
    const { attributes } = readXml(readFileSync(svg, 'utf8'));
    const png = join(folder, 'block.png');
    expect((await run(['draw', 'blocks/data-first', '--out', png, '--width', '1234'])).status).toBe(0);
    const bytes = readFileSync(png);
    // PNG specification: the signature, then IHDR with width and height as the first 8 bytes of its data.
    expect([...bytes.subarray(0, 8)]).toEqual([137, 80, 78, 71, 13, 10, 26, 10]);
    expect(bytes.toString('latin1', 12, 16)).toBe('IHDR');
    expect(bytes.readUInt32BE(16)).toBe(1234);
    const proportion = Number(attributes.height) / Number(attributes.width);
    expect(Math.abs(bytes.readUInt32BE(20) - 1234 * proportion)).toBeLessThan(1.5);
  });

  test.each([
    [
      ['draw', 'drive-nois'],
      /^reseat: There is no flow or block "drive-nois"\. Flows: .*drive-noise.* Blocks: .*data-first/,
    ],
    [['draw', 'blocks/any'], /^reseat: There is no flow or block "blocks\/any"/],
    [['draw', '__proto__'], /^reseat: There is no flow or block "__proto__"/],
    [
      ['draw', 'any', '--out', 'any.gif'],
      /^reseat: --out takes a file that ends with \.svg or \.png; any\.gif does not\./,
    ],
    [['draw', 'any', '--out', 'not/here/any.svg'], /^reseat: There is no folder not\/here to write into\./],
    [
      ['draw', 'any', '--out', 'any.png', '--width', 'wide'],
      /Write a whole number of pixels from 100 to 10000\./,
    ],
    [['draw', 'any', '--out', 'any.svg', '--width', '500'], /^reseat: --width is for a \.png;/],
    [
      ['draw', 'any', '--out', join(folder, '.png')],
      /^reseat: --out takes a file that ends with \.svg or \.png/,
    ],
  ])('%j is told in one line', async (args, expected) => {
    const { status, out, err } = await run(args);
    expect(status).toBe(2);
    expect(out).toBe('');
    expect(err.split('\n')[0]).toMatch(expected);
    expect(existsSync('any.gif') || existsSync('any.png') || existsSync('any.svg')).toBe(false);
  });
});

test('nothing else loads the layout library or the PNG maker: chat and serve start without them', () => {
  const loaded = new Set<string>();
  const load = (file: string) => {
    if (loaded.has(file)) return;
    loaded.add(file);
    if (!file.endsWith('.ts')) return;
    const source = readFileSync(join('src', file), 'utf8').replace(/^import type .*$/gm, '');
    for (const [, target] of source.matchAll(/\bfrom '([^']+)'/g)) {
      if (target!.startsWith('#')) load(target!.slice(1));
      else if (target!.startsWith('.')) load(relative('.', normalize(join(dirname(file), target!))));
      else load(target!);
    }
  };
  for (const file of ['shell.ts', 'wiring.ts', 'commands/serve.ts', 'commands/chat.ts']) load(file);
  expect(loaded.has('talk/turn.ts') && loaded.has('server/app.ts')).toBe(true);
  expect([...loaded].filter(file => /elkjs|resvg|^drawing\//.test(file))).toEqual([]);
});
