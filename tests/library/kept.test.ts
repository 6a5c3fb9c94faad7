import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { loadKept } from '#library/kept.ts';
import { loadLibrary } from '#library/load.ts';
import { fewFlows } from '../support/few-flows.ts';

let home: string;
let flows: string;
let kept: string;

beforeEach(() => {
  home = mkdtempSync(join(tmpdir(), 'kept-'));
  kept = join(home, 'kept');
  flows = fewFlows('drive-noise');
});
afterEach(() => {
  for (const folder of [home, flows]) rmSync(folder, { recursive: true, force: true });
});

const load = () => loadKept(flows, kept);
const site = () => join(flows, 'site.yaml');
const change = (file: string, make: (text: string) => string) =>
  writeFileSync(file, make(readFileSync(file, 'utf8')));

describe('a library that was loaded before', () => {
  test('is the one that its files make, and still tells where something is written', () => {
    const first = load();
    const again = load();
    expect(readdirSync(kept)).toHaveLength(1);
    expect(again.mistakes).toEqual([]);
    expect(again.library).toEqual(loadLibrary(flows).library);
    expect(again.library).not.toBe(first.library);
    const origin = { unit: 'drive-noise', path: ['steps', 0] };
    expect(again.place(origin)).toEqual(first.place(origin));
    expect(again.place(origin).line).toBeGreaterThan(1);
  });

  test('is not taken for one whose files have changed since', () => {
    load();
    change(site(), text => text.replace(/555-\d+/, '555-0142'));
    const { library } = load();
    expect(library).toEqual(loadLibrary(flows).library);
    expect(readdirSync(kept)).toHaveLength(2);
  });

  test('with a mistake in it is read again each time, and the mistake told each time', () => {
    change(site(), text => `${text}\nnonsense: true\n`);
    for (const { mistakes } of [load(), load()]) {
      expect(mistakes.map(({ file, message }) => [file.endsWith('site.yaml'), message])).toEqual([
        [true, expect.stringContaining('nonsense')],
      ]);
    }
  });

  test('that was kept by half, or may not be kept at all, is loaded from its files', () => {
    load();
    const [file] = readdirSync(kept);
    writeFileSync(join(kept, file!), readFileSync(join(kept, file!)).subarray(0, 1000));
    expect(load().library).toEqual(loadLibrary(flows).library);
    writeFileSync(join(home, 'in-the-way'), '');
    expect(loadKept(flows, join(home, 'in-the-way', 'kept')).library).not.toBeNull();
  });

  test('leaves a few behind and no more', () => {
    for (let number = 0; number < 8; number++) {
      change(site(), text => `${text}# ${number}\n`);
      load();
    }
    expect(readdirSync(kept)).toHaveLength(6);
  });
});

test('a folder that is not there is told of', () => {
  expect(() => loadKept(join(home, 'nowhere'), kept)).toThrow(/RESEAT_FLOWS/);
});
