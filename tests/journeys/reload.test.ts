/** Flows are read anew while people talk, and broken ones are refused. */
import { readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { fewFlows } from '../support/few-flows.ts';
import { type Serving, serving } from '../support/serving.ts';

let site: Serving;
let folder: string;
const NOISE = 'drive-noise/flow.yaml';

beforeAll(async () => {
  folder = fewFlows('drive-noise');
  site = await serving({ RESEAT_FLOWS: folder });
  await site.start();
});
afterAll(async () => {
  await site.remove();
  rmSync(folder, { recursive: true });
});

const rewrite = (file: string, change: (text: string) => string) => {
  const path = join(folder, file);
  const before = readFileSync(path, 'utf8');
  writeFileSync(path, change(before));
  expect(readFileSync(path, 'utf8')).not.toBe(before);
  return () => writeFileSync(path, before);
};
const firstPage = async () => (await fetch(site.base)).text();

describe.skipIf(process.platform === 'win32')('a running Reseat that is asked to read its flows anew', () => {
  test('uses what was changed from the next turn on', async () => {
    expect(await firstPage()).not.toContain('Changed Instruments');
    rewrite('site.yaml', text => text.replace(/^organisation: .*/m, 'organisation: Changed Instruments'));
    await site.reload();
    expect(site.output()).toContain('"event":"flows-reloaded"');
    expect(await firstPage()).toContain('Changed Instruments');
  });

  test('stays with the old ones when a file has a mistake, and names it', async () => {
    const mend = rewrite(NOISE, text => `${text}\n  - asks: What?\n`);
    rewrite('site.yaml', text => text.replace('Changed Instruments', 'Other Instruments'));
    await site.reload();
    expect(site.output()).toMatch(/"flows-refused".*drive-noise\/flow\.yaml:\d+/);
    expect(await firstPage()).toContain('Changed Instruments');
    mend();
  });

  test('stays with the old ones when they are not safe, at a reload as at a start', async () => {
    const mend = rewrite(NOISE, text => text.replaceAll('hardware-failure', 'suspect'));
    await site.reload();
    expect(site.output()).toContain('The flows are not safe, so they are not used');
    expect(await firstPage()).toContain('Changed Instruments');
    await site.stop();
    await expect(site.start()).rejects.toThrow(/it ended with 2: .*not safe/s);
    mend();
    await site.start();
    expect(await firstPage()).toContain('Other Instruments');
  });
});
