/** What an editor tells a desk lead while they type, read by what editors read it with. */
import { readdirSync, readFileSync } from 'node:fs';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { loadLibrary } from '#library/load.ts';
import { SCHEMA_FOLDER, schemaFiles } from '../../src/commands/schema.ts';
import { type Editor, editor } from '../support/editor.ts';

const files = readdirSync('flows', { recursive: true, encoding: 'utf8' })
  .filter(file => file.endsWith('.yaml'))
  .map(file => `flows/${file.replaceAll('\\', '/')}`);

test('the schemas are what the code would write now (npx reseat schema writes them anew)', () => {
  const folder = `flows/${SCHEMA_FOLDER}`;
  const now = schemaFiles(loadLibrary('flows').library!);
  expect(readdirSync(folder).sort()).toEqual(Object.keys(now).sort());
  // A new block, fault, caution or policy changes the names; a new word in a shape changes the others.
  const behind = Object.keys(now).filter(file => readFileSync(`${folder}/${file}`, 'utf8') !== now[file]);
  expect(behind, 'behind: npx reseat schema').toEqual([]);
});

describe('in an editor', () => {
  let desk: Editor;
  beforeAll(async () => {
    desk = await editor();
  });
  afterAll(() => desk.close());

  test('no file of the folder is underlined anywhere', async () => {
    const opened = await Promise.all(
      files.map(async file => {
        const { mistakes } = await desk.open(file, readFileSync(file, 'utf8'));
        return mistakes.map(mistake => `${file}:${mistake}`);
      }),
    );
    expect(opened.flat()).toEqual([]);
  });

  test('every file of the folder has a schema: a word that none knows is underlined', async () => {
    const wrong = files.map(async file => {
      const text = file.endsWith('/walks.yaml') ? '- no: 1\n' : 'No: { no: 1 }\n';
      const { mistakes } = await desk.open(file, text);
      return mistakes.length === 0 ? [file] : [];
    });
    expect((await Promise.all(wrong)).flat()).toEqual([]);
  });

  const HEAD = 'symptom: disk-full\ntitle: A full drive\nsteps:\n';
  let count = 0;
  const typed = (text: string) => {
    count += 1;
    return desk.open(`flows/typed-${count}/flow.yaml`, HEAD + text);
  };

  test('pointing at a word, or at a name, explains it', async () => {
    const file = await typed(`  - visit: data-first
  - id: room
    ask: How much room is left?
    answers: { little: Little, none: None }
    raises: { none: [suspect] }
    evidence: { none: { for: { disk-full-user-data: 2 } } }
    fills: message
  - id: bin
    try: Empty the recycle bin.
    effect: write
    minutes: 2
    fixed: disk-full-user-data
`);
    const { faults } = loadLibrary('flows').library!.catalogue;
    expect(await file.explained('    raises')).toContain('Signs that an answer raises');
    expect(await file.explained('    evid')).toContain('speaks for and against faults');
    expect(await file.explained('    fills')).toContain('of the ticket');
    expect(await file.explained('    effect')).toContain('write: save, delete');
    expect(await file.explained('visit: data-fi')).toContain('would be missed');
    expect(await file.explained('fixed: disk-full-us')).toContain(faults['disk-full-user-data']!.name);
  });

  test.each([
    ['the symptom', 'symptom: ', 'symptom: ', 'drive-slow'],
    ['a block', '  - visit: ', 'visit: ', 'data-first'],
    ['a caution', '  - caution: ', 'caution: ', 'keep-on'],
    ['the kinds of step', '  - ', '  - ', 'hand_over'],
    ['an effect', '  - id: x\n    try: Do.\n    effect: ', 'effect: ', 'write'],
    ['a fault that it was', '  - id: x\n    try: Do.\n    fixed: ', 'fixed: ', 'usb-left-in'],
    ['what it lays hands on', '  - id: x\n    try: Do.\n    touches:\n      - ', '- ', 'own-stick'],
    ['a field of the ticket', '  - id: x\n    ask: Well?\n    fills: ', 'fills: ', 'data.copy'],
    ['a sign', '  - id: x\n    ask: Well?\n    raises:\n      a:\n        - ', '        - ', 'suspect'],
    ['a finding', '  - visit: data-first\n    if:\n      ', 'if:\n      ', 'copy'],
    ['what it can be', '  - visit: data-first\n    if:\n      copy: ', 'copy: ', 'seen'],
    ['a policy', '  - visit: save-now\n    if:\n      ', 'if:\n      ', 'policy.firmware'],
    [
      'a fault to weigh',
      '  - id: x\n    ask: Well?\n    evidence:\n      a:\n        for:\n          ',
      'for:\n          ',
      'cable-loose',
    ],
  ])('offers %s', async (_, text, until, name) => {
    const last = (HEAD + text).endsWith(until) ? HEAD + text : until;
    expect(await (await typed(text)).offered(last)).toContain(name);
  });

  test.each([
    ['a misspelt word', '  - id: x\n    ask: Well?\n    fils: message\n', '6: Property fils is not allowed'],
    [
      'an effect that is none',
      '  - id: x\n    try: Do.\n    effect: brush\n    minutes: 2\n',
      '6: Value is not accepted',
    ],
    ['what is missing', '  - id: x\n    try: Do.\n', 'Missing property "effect"'],
    ['an id with capitals', '  - id: Room\n    ask: Well?\n', '4: use small letters'],
    [
      'a field that no ticket has',
      '  - id: x\n    ask: Well?\n    fills: data.size\n',
      '6: Value is not accepted',
    ],
  ])('underlines %s', async (_, text, told) => {
    expect((await typed(text)).mistakes.join('\n')).toContain(told);
  });

  test.each([
    ['a block that is still to be written', '  - visit: still-to-come\n'],
    [
      "a fault of one's own",
      '  - id: x\n    try: Do.\n    effect: none\n    minutes: 2\n    fixed: my-own\n',
    ],
    [
      'a finding of this flow, and a bare yes',
      '  - say: Well.\n    if: { all: [{ mine: yes }, { not: { suspect: [yes] } }] }\n',
    ],
  ])('leaves %s alone', async (_, text) => {
    expect((await typed(text)).mistakes).toEqual([]);
  });

  test('an editor without such settings follows the line at the top of a file', async () => {
    const line = '# yaml-language-server: $schema=../flows/.schema/flow.json\n';
    const text = `${line}${HEAD}  - visti: data-first\n`;
    expect((await desk.open('docs/elsewhere.yaml', text)).mistakes.join('\n')).toContain('visti');
  });
});
