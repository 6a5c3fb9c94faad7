/** A first flow from nothing, for people and for technicians. */
import { cpSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { reseatOn } from '../support/terminal.ts';

let folder: string;
beforeAll(() => {
  folder = join(mkdtempSync(join(tmpdir(), 'reseat-')), 'flows');
  for (const part of ['blocks', 'catalogue', 'site.yaml', 'any']) {
    cpSync(`flows/${part}`, join(folder, part), { recursive: true });
  }
  // Its numbers lead to questions of flows that are left out here.
  writeFileSync(join(folder, 'catalogue/os-codes.yaml'), '{}\n');
});
afterAll(() => rmSync(join(folder, '..'), { recursive: true }));

const read = (file: string) => readFileSync(join(folder, file), 'utf8');

/** One of each family that rules treat differently. */
const NAMES = [
  'boot-no-os',
  'drive-slow',
  'share-denied',
  'raid-alarm',
  'disk-full',
  'not-storage',
  'desk-loan',
];

describe('reseat new flow', () => {
  test.each(NAMES)('%s: a flow and a walk are written', async name => {
    const { status, errors, out } = await reseatOn(folder, 'new', 'flow', name);
    expect([status, errors]).toEqual([0, '']);
    expect(out).toContain(`check ${name}\n`);
    expect(read(`${name}/flow.yaml`)).toContain(`\nsymptom: ${name}\n`);
  });

  test('as they are, all of them are safe, and their walks come out as written', async () => {
    expect((await reseatOn(folder, 'check')).out).toMatch(
      /^Proven: every rule holds on every path\. 8 flows /,
    );
    const walks = NAMES.map(name => join(folder, name, 'walks.yaml'));
    const { out } = await reseatOn(folder, 'replay', ...walks);
    expect(out).toBe('7 walks played, 0 came out differently.\n');
  });

  test('one that is for people asks something, offers something, and hands over', () => {
    const text = read('disk-full/flow.yaml');
    for (const word of [
      '  - visit: ',
      '    ask: ',
      '    try: ',
      '    effect: none',
      '  - hand_over:',
      '  # ',
    ]) {
      expect(text).toContain(word);
    }
    expect(text).toContain('# fixed: disk-full-user-data');
    expect(read('disk-full/walks.yaml')).toMatch(/at: look, press: done[\s\S]*ends: escalated/);
  });

  test('what is there already stays as it is', async () => {
    const before = read('disk-full/flow.yaml');
    const { status, errors, out } = await reseatOn(folder, 'new', 'flow', 'disk-full');
    expect([status, out]).toEqual([2, '']);
    expect(errors).toMatch(
      /^reseat: There is a folder \S+disk-full already, and nothing was changed\. .+\n$/,
    );
    expect(read('disk-full/flow.yaml')).toBe(before);
  });

  test.each([
    [
      'printer',
      /^reseat: "printer" is no symptom\. Free: .*drive-slow.*; or desk-TOPIC, for technicians\.\n$/,
    ],
    ['drive-slo', /^reseat: "drive-slo" is no symptom\. Write "drive-slow" if that is meant\. Free: .+\n$/],
    ['desk-Lötkolben', /^reseat: "desk-Lötkolben" is no symptom\. .+\n$/],
    ['../elsewhere', /^reseat: "..\/elsewhere" is no symptom\. .+\n$/],
    ['blocks', /^reseat: There is a folder \S+blocks already/],
  ])('%s is refused with what is free', async (name, told) => {
    rmSync(join(folder, 'drive-slow'), { recursive: true, force: true });
    const { status, errors } = await reseatOn(folder, 'new', 'flow', name);
    expect(status).toBe(2);
    expect(errors).toMatch(told);
  });
});
