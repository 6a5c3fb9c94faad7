/** What somebody who writes their first flow gets wrong, and what they are told: one line, with file, line and remedy. */
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, relative } from 'node:path';
import fc from 'fast-check';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { CATALOGUE } from '#library/load.ts';
import { BLOCKS, DEFAULT, SITE } from '../engine/check/fixture.ts';
import { reseatOn } from '../support/terminal.ts';
import { ASK, DESK, HEAD, SLIPS, TRY } from './slips.ts';

/** A small house, so that nothing here depends on what the shipped one says. JSON is YAML too. */
const HOUSE = {
  ...BLOCKS,
  'to-the-desk': { steps: [...BLOCKS.everything!.steps, { hand_over: { keep: 'as-usual' } }] },
  'data-first': BLOCKS.data!,
  'power-now': {
    steps: [{ id: 'on', ask: 'Is it on?', answers: { yes: 'Yes', no: 'No' }, fills: 'power.now' }],
  },
};
const full = { name: 'Full', means: 'full', hardware: false, symptoms: ['disk-full'], checks: [] };
const checks = [{ check: 'look', minutes: 1 }];

let folder: string;
beforeAll(() => {
  folder = join(mkdtempSync(join(tmpdir(), 'reseat-')), 'flows');
  const put = (file: string, content: unknown) => {
    mkdirSync(join(folder, file, '..'), { recursive: true });
    writeFileSync(join(folder, file), JSON.stringify(content));
  };
  for (const [block, { steps }] of Object.entries(HOUSE)) {
    put(`blocks/${block}/block.yaml`, { block, about: 'for a test', steps });
  }
  const faults = { ...DEFAULT.faults, 'disk-full-user-data': { ...full, checks } };
  for (const [name, [file]] of Object.entries(CATALOGUE)) {
    put(`catalogue/${file}`, { ...DEFAULT, faults }[name as keyof typeof DEFAULT] ?? {});
  }
  put('site.yaml', SITE);
  mkdirSync(join(folder, 'disk-full'));
});
afterAll(() => rmSync(join(folder, '..'), { recursive: true }));

async function told(text: string | Buffer) {
  writeFileSync(join(folder, 'disk-full', 'flow.yaml'), text);
  const printed = await reseatOn(folder, 'check', 'disk-full');
  const plain = (words: string) => words.replaceAll(`${relative(process.cwd(), folder)}/`, '');
  return {
    status: printed.status,
    errors: plain(printed.errors)
      .replace(/^reseat: /, '')
      .split('\n')
      .slice(0, -1),
    out: plain(printed.out),
  };
}

describe('a slip is told in one line, with its place and what to do', () => {
  test.each(SLIPS)('%s', async (_, text, line) => {
    expect(await told(HEAD + text)).toEqual({ status: 2, errors: [`disk-full/flow.yaml:${line}`], out: '' });
  });

  test.each([
    ['an empty file', '', '1: the file is empty. Write it as in flows/README.md, or take its folder out.'],
    [
      'a page of another kind',
      '<html>',
      '1: this is only text. Write it as in flows/README.md: a word, a colon, and what it is.',
    ],
    [
      'another name than its folder',
      HEAD.replace('disk-full', 'full-disk') + DESK,
      '1: the folder is called disk-full, the file says full-disk. Give both the same name.',
    ],
    [
      'a word of the head misspelt',
      HEAD.replace('title', 'titel') + DESK,
      '2: there is no "titel" here. Write "title" if that is meant.',
    ],
    [
      'steps that are no list',
      `${HEAD}  say: Thanks.\n`,
      '3: steps: a list must stand here, not words with values. Put a dash in front of each entry.',
    ],
    [
      'a second document',
      `${HEAD}${DESK}---\n${HEAD}`,
      '5: a line of dashes begins another document. Take the line out.',
    ],
    [
      'letters saved in an old way',
      Buffer.from(`${HEAD}  - say: Grüße\n`, 'latin1'),
      '4: the file is saved in a way that loses letters such as ä or é. Save it as UTF-8, and correct the letters.',
    ],
  ])('%s', async (_, text, line) => {
    expect(await told(text)).toEqual({ status: 2, errors: [`disk-full/flow.yaml:${line}`], out: '' });
  });

  test('two slips are two lines, each where it is', async () => {
    const { errors } = await told(`${HEAD}${ASK}    fils: message\n${TRY}    minutes: 2\n${DESK}`);
    expect(errors.map(line => line.slice(0, 22))).toEqual([
      'disk-full/flow.yaml:7:',
      'disk-full/flow.yaml:8:',
    ]);
  });
});

describe('a slip in a walk', () => {
  const WALK = '- walk: full\n  opening: my drive is full\n  says:\n';
  test.each([
    [
      'a misspelt word',
      `${WALK}    - { at: room, says: none }\n  ends: fixed\n`,
      '4: says: there is no "says" here. Write "say" if that is meant.',
    ],
    [
      'an answer in figures',
      `${WALK}    - { at: room, press: 1 }\n  ends: fixed\n`,
      '4: says, press: 1 without quotes is no text. Write "1".',
    ],
    [
      'typed and pressed at once',
      `${WALK}    - { at: room, press: none, say: nothing }\n  ends: fixed\n`,
      '4: says: "press" does not go with the other words here. Keep the one that is meant and take the other out.',
    ],
    [
      'an end that there is not',
      `${WALK}    - { at: room, say: none }\n  ends: solved\n`,
      '5: ends: "solved" is not known here. Use one of: fixed, escalated, known-outage, not-storage, left, done.',
    ],
    [
      'no list',
      'walk: full\n',
      '1: a list must stand here, not words with values. Put a dash in front of each entry.',
    ],
  ])('%s', async (_, text, line) => {
    await told(HEAD + DESK);
    const file = join(folder, 'disk-full', 'walks.yaml');
    writeFileSync(file, text);
    const { status, errors } = await reseatOn(folder, 'replay', file);
    expect([status, errors]).toEqual([2, `reseat: ${file}:${line}\n`]);
  });
});

describe('what only the proof can find is one thing to mend', () => {
  test.each([
    ['a step after the end', `${DESK}  - say: Thanks.\n`, '5: no conversation comes to this step.'],
    [
      'a condition on a later step',
      `  - say: Thanks.\n    if: { room: none }\n${ASK}    fills: message\n${DESK}`,
      '5: the condition reads "room", which nothing has set on this way.',
    ],
    ['a flow that just stops', `${ASK}    fills: message\n`, '4: after this step the flow just stops.'],
    [
      'a question for nothing',
      ASK + DESK,
      '4: whatever is answered here changes nothing and fills no field of the ticket.',
    ],
  ])('%s', async (_, text, line) => {
    const { status, errors, out } = await told(HEAD + text);
    expect([status, errors]).toEqual([1, []]);
    expect(out).toContain('Not safe yet: 1 place to mend');
    expect(out.split('\n').filter(each => /^\S*flow\.yaml:/.test(each))).toEqual([
      `disk-full/flow.yaml:${line}`,
    ]);
    expect(out).toContain('What to do: ');
  });
});

describe('what looks odd and is not wrong', () => {
  const fine = `${HEAD}  - id: room\n    ask: Is there any room?\n    answers: { yes: Yes, no: No }\n    fills: message\n  - say: Then let me see.\n    if: { room: no }\n${DESK}`;

  test.each([
    ['bare yes and no', fine],
    ['lines that end as on another system', fine.replaceAll('\n', '\r\n')],
    ['a byte order mark', `\ufeff${fine}`],
    ['steps that begin at the edge', fine.replaceAll('\n  ', '\n')],
    ['remarks', `# Ours.\n${fine.replace('\n', ' # its folder\n')}`],
    ['no line end at the end', fine.trimEnd()],
  ])('%s', async (_, text) => {
    const { status, errors } = await told(text);
    expect([status, errors]).toEqual([0, []]);
  });
});

test('whatever is typed or deleted in a flow, nothing breaks, and every line is one line', async () => {
  const start = `${HEAD}${ASK}    fills: message\n    raises: { none: [suspect] }\n${TRY}    effect: write\n    minutes: 2\n    if: { room: none }\n${DESK}`;
  const damage = fc.record({
    at: fc.nat(start.length),
    gone: fc.nat(12),
    typed: fc.constantFrom(
      '',
      ' ',
      '\t',
      '\n',
      ':',
      '- ',
      '{',
      ']',
      '"',
      "'",
      '*',
      '&a ',
      '!',
      '? ',
      '#',
      'null',
      '3',
      'ä',
      '|',
      '>',
    ),
  });
  await fc.assert(
    fc.asyncProperty(fc.array(damage, { minLength: 1, maxLength: 3 }), async damages => {
      const text = damages.reduce(
        (now, { at, gone, typed }) => now.slice(0, at) + typed + now.slice(at + gone),
        start,
      );
      const { status, errors } = await told(text);
      expect(errors.filter(line => !/^disk-full\/flow\.yaml:\d+: .+\.$/.test(line))).toEqual([]);
      expect(errors.length > 0).toBe(status === 2);
    }),
    { numRuns: 300 },
  );
});
