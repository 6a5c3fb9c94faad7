/** The calculators as somebody at a terminal uses them. */
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { WORKINGS } from '#workings/all.ts';
import { type Reseat, reseat } from '../support/reseat.ts';

let here: Reseat;
let folder: string;
beforeAll(() => {
  here = reseat();
  folder = mkdtempSync(join(tmpdir(), 'reseat-work-'));
});
afterAll(() => {
  here.remove();
  rmSync(folder, { recursive: true });
});

describe('reseat work-out', () => {
  test('without a name lists all, one line each', () => {
    const { out } = here.run(['work-out']);
    expect(out.trim().split('\n')).toHaveLength(WORKINGS.length);
  });

  test.each(WORKINGS.map(({ id }) => id))('%s takes its own sample, for people and as JSON', id => {
    const sample = here.run(['work-out', id, '--example']).out;
    const people = here.run(['work-out', id], sample);
    expect(people).toMatchObject({ status: 0, err: '' });
    expect(people.out).toContain('This assumes:');
    const json = JSON.parse(here.run(['work-out', id, '--json'], sample).out);
    expect(json).toHaveProperty('verdict');
    expect(JSON.parse(here.run(['work-out', id, '--schema']).out)).toHaveProperty('input.properties');
  });

  test('takes options, and what stands in a file', () => {
    const file = join(folder, 'sets.json');
    writeFileSync(file, '[{"name":"all","gigabytes":36}]');
    const { out, err } = here.run([
      ...['work-out', 'copy-time', '--json', '--from', 'spinning', '--condition=well', '--link', 'sata-6g'],
      ...['--measured-mbps', '1', '--sets', `@${file}`],
    ]);
    expect(err).toBe('');
    expect(JSON.parse(out)).toMatchObject({ bestHours: 10, verdict: 'fits' });
  });

  test.each([
    [['nothing'], /no working "nothing"\. There are: .*copy-time/],
    [['copy-time', '--frm', 'x'], /"--frm" is no option of this working; there are: --sets, --from/],
    [['copy-time', '--from'], /--from needs a value/],
    [['copy-time', '--sets', '@/no/such/file'], /no file \/no\/such\/file/],
    [['copy-time', '--sets', '[{'], /no JSON/],
    [['copy-time', '--from', 'spining', '--sets', '[]', '--link', 'wi-fi'], /from: give one of: spinning/],
  ])('%j is told what is wrong, in words', (args, said) => {
    const { status, err, out } = here.run(['work-out', ...args]);
    expect({ status, out }).toEqual({ status: 2, out: '' });
    expect(err).toMatch(said);
    expect(err).not.toMatch(/\n\s+at /);
  });

  test('what is no JSON is told so', () => {
    expect(here.run(['work-out', 'copy-time'], 'hello').err).toMatch(/^reseat: Standard input is no JSON/);
  });
});
