/** What the proof tells people, and programs. */
import { cpSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { reseatOn } from '../support/terminal.ts';

let folder: string;
beforeAll(async () => {
  folder = join(mkdtempSync(join(tmpdir(), 'reseat-')), 'flows');
  for (const part of ['blocks', 'catalogue', 'site.yaml', 'any']) {
    cpSync(`flows/${part}`, join(folder, part), { recursive: true });
  }
  writeFileSync(join(folder, 'catalogue/os-codes.yaml'), '{}\n');
  await reseatOn(folder, 'new', 'flow', 'disk-full');
  await reseatOn(folder, 'new', 'flow', 'desk-loan');
});
afterAll(() => rmSync(join(folder, '..'), { recursive: true }));

/** Rows of the table by flow: cells behind the name. */
const rows = (out: string): Record<string, string[]> =>
  Object.fromEntries(
    out
      .split('\n')
      .map(line => line.split(/ {2,}/))
      .filter(cells => cells.length === 5)
      .map(([name, ...cells]) => [name!, cells]),
  );

describe('reseat check', () => {
  test('says first whether it is proven, then each aim, and marks what misses it', async () => {
    const { out, status } = await reseatOn(folder, 'check');
    expect(status).toBe(0);
    expect(out).toMatch(
      /^Proven: every rule holds on every path\. 3 flows with \d+ steps and [\d,]+ paths; the longest asks \d+ questions\.\n/,
    );
    const { 'aim, at most': aims, flow: _, ...flows } = rows(out);
    expect(aims).toEqual(['5', '8', '25', '4']);
    expect(Object.keys(flows).sort()).toEqual(['any', 'desk-loan', 'disk-full']);
    for (const [name, cells] of Object.entries(flows)) {
      const marked = cells.map(cell => cell.endsWith('!'));
      expect([name, marked]).toEqual([
        name,
        cells.map((cell, at) => Number.parseInt(cell, 10) > Number(aims![at])),
      ]);
    }
    expect(out).toContain('! misses the aim.');
  });

  test('tells only about the flows that are named, and what is not one', async () => {
    expect(Object.keys(rows((await reseatOn(folder, 'check', 'desk-loan')).out)).slice(2)).toEqual([
      'desk-loan',
    ]);
    const { errors, status } = await reseatOn(folder, 'check', 'desk-lone');
    expect(status).toBe(2);
    expect(errors).toBe('reseat: There is no flow "desk-lone". There are: any, desk-loan, disk-full.\n');
  });

  test('of what one word broke in hundreds of places it shows the first, and how many more there are', async () => {
    const file = join(folder, 'catalogue/interrupts.yaml');
    const before = readFileSync(file, 'utf8');
    writeFileSync(file, before.replace('  sign: danger\n', '  sign: suspect\n'));
    const { out, status } = await reseatOn(folder, 'check');
    writeFileSync(file, before);
    expect(status).toBe(1);
    const places = Number(/Not safe yet: (\d+) places/.exec(out)![1]);
    expect(places).toBeGreaterThan(12);
    expect(out.match(/What to do: .*\n {2}The rule/g)!.length).toBeLessThanOrEqual(12);
    expect(out).toContain(`And ${places - 12} places more, often by the same cause`);
  });

  test('shows what is wrong once, by the shortest conversation, with place and remedy', async () => {
    const file = join(folder, 'disk-full/flow.yaml');
    const before = readFileSync(file, 'utf8');
    writeFileSync(
      file,
      before.replace('effect: none', 'effect: write').replace('  - visit: where-are-you\n', ''),
    );
    const { out, status } = await reseatOn(folder, 'check');
    const { out: other, status: well } = await reseatOn(folder, 'check', 'desk-loan');
    writeFileSync(file, before);
    expect(status).toBe(1);
    expect(out).toContain('Not safe yet: 2 places to mend, below the table.');
    const line = before.split('\n').findIndex(text => text.includes('effect: none')) + 1;
    expect(out).toMatch(
      new RegExp(`\\S+disk-full/flow\\.yaml:${line}: this writes to a drive that may be failing\\.`),
    );
    expect(out).toContain('  What to do: ');
    expect(out).toContain('  The rule, data-first: Nothing starts or reads');
    expect(out).toMatch(/ {2}The shortest conversation that shows it:\n {4}Reseat: .+\n {4}Person: /);
    // What another flow does wrong is not this one's.
    expect([well, other.startsWith('Proven')]).toEqual([0, true]);
  });

  test('for programs the keys are what they were', async () => {
    const { out } = await reseatOn(folder, 'check', '--json');
    const report = JSON.parse(out);
    expect(Object.keys(report)).toEqual(
      expect.arrayContaining(['flows', 'steps', 'states', 'paths', 'longest', 'milliseconds', 'broken']),
    );
    expect(report).toMatchObject({ flows: 3, broken: [] });
  });
});
