/** A technician works through a desk flow in the terminal, and what was found is on the ticket. */
import { mkdirSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { fewFlows } from '../support/few-flows.ts';
import { type Reseat, reseat } from '../support/reseat.ts';

const LOOK = `
symptom: desk-look
title: A look at the drive
steps:
  - id: cable
    ask: Does the cable sit firmly?
    answers: { "yes": "Yes", "no": "No" }
    raises: { "no": [hardware-failure] }
  - id: serial
    ask: What is the serial number?
    optional: true
  - hand_over: { because: The cable goes back to whoever sold it., keep: "off" }
    if: { cable: "no" }
  - end: done
    say: The cable is well.
`;

let here: Reseat;
let folder: string;
beforeAll(() => {
  folder = fewFlows();
  mkdirSync(join(folder, 'desk-look'));
  writeFileSync(join(folder, 'desk-look', 'flow.yaml'), LOOK);
  here = reseat(undefined, folder);
  here.run(['chat', '--json'], 'my drive is slow\nperson\n');
});
afterAll(() => {
  here.remove();
  rmSync(folder, { recursive: true });
});

const work = (lines: string[], ...more: string[]) => {
  const { out, status, err } = here.run(
    ['chat', '--json', '--as', 'ada', '--desk', 'look', ...more],
    lines.join('\n'),
  );
  return {
    status,
    err,
    lines: out
      .split('\n')
      .filter(Boolean)
      .map(line => JSON.parse(line)),
  };
};

describe('a desk flow', () => {
  test('asks at once, ends as done, and its record is a note on the ticket', () => {
    const { lines } = work(['yes', 'SN 0815', 'nobody hears this'], '--ticket', 'R-1001');
    expect(lines[0].ask).toMatchObject({ question: 'Does the cable sit firmly?', always: ['back', 'stop'] });
    expect(lines).toHaveLength(3);
    expect(lines.at(-1).outcome).toMatchObject({ how: 'done', symptom: 'desk-look', ticket: null });
    expect(lines.at(-1).says).toEqual(['The cable is well.', 'This is on R-1001 now.']);
    const shown = here.run(['tickets', 'show', 'R-1001']).out;
    expect(shown).toContain('A look at the drive: The cable is well.');
    expect(shown).toContain('- What is the serial number? SN 0815');
    expect(here.run(['tickets', 'list', '--json']).out).toContain('R-1001');
  });

  test('makes no ticket of its own, also where a drive fails', () => {
    const { lines } = work(['no', 'skip']);
    expect(lines.at(-1).outcome).toMatchObject({ how: 'escalated', ticket: null });
    expect(lines.at(-1).says.join()).toContain('The cable goes back to whoever sold it. Keep it off.');
    expect(JSON.parse(here.run(['tickets', 'list', '--json']).out)).toHaveLength(1);
  });

  test('is gone on with where it was left, and stopping tells the ticket so', () => {
    work(['no'], '--ticket', '1001');
    const { lines } = work(['same', 'stop'], '--ticket', '1001');
    expect(lines.at(1).ask.question).toBe('What is the serial number?');
    expect(lines.at(-1).outcome).toMatchObject({ how: 'left' });
    expect(here.run(['tickets', 'show', '1001']).out).toContain(
      'A look at the drive: stopped before the end',
    );
  });

  test('smoke at the bench makes a ticket all the same', () => {
    const { lines } = work(['there is smoke coming out of it'], '--ticket', 'R-1001');
    expect(lines.at(-1).ask).not.toBeNull();
    expect(lines.at(-1).says.join()).toContain('555-0199');
  });

  test('an unknown one is one clear line', () => {
    expect(here.run(['chat', '--desk', 'lok'])).toMatchObject({
      status: 2,
      err: expect.stringMatching(/^reseat: There is no desk flow "lok"\. There are: .*look.*\.\n$/),
    });
    expect(here.run(['chat', '--desk', 'look', '--ticket', '99'])).toMatchObject({ status: 2 });
    expect(here.run(['chat', '--ticket', '1001'])).toMatchObject({ status: 2 });
  });
});
