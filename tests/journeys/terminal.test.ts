import { spawnSync } from 'node:child_process';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { type Line, type Reseat, reseat, type Talk } from '../support/reseat.ts';

let here: Reseat;
beforeEach(() => {
  here = reseat();
});
afterEach(() => here.remove());

/** Answers each question from the list, by the end of its words; else its last answer, else some words; to the outcome. */
async function answered(talk: Talk, first: Line, wanted: Record<string, string>): Promise<Line> {
  let line = first;
  for (let turn = 0; turn < 40 && line.outcome === null && line.ask !== null; turn++) {
    const { question, answers } = line.ask;
    const known = Object.entries(wanted).find(([part]) => question.includes(part))?.[1];
    line = await talk.line(known ?? answers.at(-1)?.id ?? 'room 2.14, my phone is 555-0123');
  }
  return line;
}

describe('in the terminal', () => {
  test('a stick left in: the person pulls it out and is done', async () => {
    const talk = await here.talk();
    expect(talk.greeting).toMatchObject({ outcome: null, ask: { kind: 'text' } });
    const first = await talk.line(
      'my laptop says no bootable device, I gave a talk with a usb stick yesterday',
    );
    const end = await answered(talk, first, {
      'will not start': 'laptop',
      'one of these true': 'none',
      'last switched on': 'no-drive',
      'plugged in or inserted': 'yes, the stick is still in',
      'Does it start normally': 'fixed',
    });
    expect(end.outcome).toEqual({
      how: 'fixed',
      symptom: 'boot-no-device',
      fault: 'usb-left-in',
      ticket: null,
    });
    expect(await talk.end()).toBe(0);
  });

  test('a clicking drive: the desk takes it, asks back, is answered, and closes it with the fault', async () => {
    const talk = await here.talk('ada');
    const first = await talk.line('my external usb drive makes a clicking noise');
    expect(first.says.join('\n')).toMatch(/unplug|off/i);
    const end = await answered(talk, first, {
      'sound like': 'clicking',
      'come from': 'portable',
      'would you miss': 'nowhere',
    });
    expect(end.outcome).toMatchObject({ how: 'escalated', symptom: 'drive-noise' });
    const ticket = end.outcome!.ticket!;
    expect(here.run(['tickets']).out).toContain(ticket);
    expect(here.run(['tickets', 'take', ticket, '--by', 'Grete']).status).toBe(0);
    expect(here.run(['tickets', 'ask', ticket, 'Which colour is the case?', '--by', 'Grete']).status).toBe(0);
    const asked = await talk.line('thanks');
    expect(asked.ask?.question).toContain('Which colour is the case?');
    const told = await talk.line('it is a grey one');
    expect(told.says.join('\n')).toContain('passed that on');
    expect(here.run(['tickets', 'show', ticket]).out).toContain('it is a grey one');
    expect(here.run(['tickets', 'close', ticket, 'no-such-fault']).err).toContain('no fault');
    expect(here.run(['tickets', 'close', ticket, 'drive-failing', '--by', 'Grete']).status).toBe(0);
    const closed = await talk.line('hello');
    expect(closed.says.join('\n')).toContain('is closed');
    expect(JSON.parse(here.run(['tickets', 'list', '--all', '--json']).out)).toMatchObject([
      { ticket, status: 'closed', fault: 'drive-failing' },
    ]);
    await talk.end();
  });

  test('an outage: who reports the same is told at once, and told when it is over', async () => {
    const declared = here.run([
      'tickets',
      'outage',
      'share-missing',
      'The file server is down; back by noon.',
    ]);
    const outage = /O-\S+/.exec(declared.out)![0];
    const talk = await here.talk('ben');
    let first = await talk.line('my network drive S: is gone');
    if (first.ask?.question.includes('closest')) first = await talk.line(first.ask.answers[0]!.id);
    expect(first.says.join('\n')).toContain('back by noon');
    const counted = await talk.line('same here');
    expect(counted.outcome).toMatchObject({ how: 'known-outage', ticket: null });
    expect(here.run(['tickets', 'outage-over', outage]).out).toContain('conversations told: 1');
    const over = await talk.line('any news?');
    expect(over.says.join('\n')).toContain('It is over');
    await talk.end();
  });

  test('killed in the middle, it goes on where it was', async () => {
    const before = await here.talk('cara');
    const asked = await before.line('no bootable device found');
    await before.kill();
    const after = await here.talk('cara');
    expect(after.greeting.says.join('\n')).toContain('again');
    const again = await after.line('yes, go on');
    expect(again.ask?.question).toBe(asked.ask?.question);
    await after.end();
  });

  test('exactly one JSON line per line of input, an empty one too, with every key there', async () => {
    const { out, status } = here.run(
      ['chat', '--json'],
      'hi\n\n   \nmy drive is clicking\n2\nnonsense words here\nback\n',
    );
    const lines = out
      .trim()
      .split('\n')
      .map(line => JSON.parse(line) as Line);
    expect(status).toBe(0);
    expect(lines).toHaveLength(8);
    for (const line of lines) {
      expect(Object.keys(line)).toEqual(['conversation', 'says', 'ask', 'outcome']);
      expect(line.says.length + (line.ask === null ? 0 : 1)).toBeGreaterThan(0);
      if (line.ask) expect(Object.keys(line.ask)).toEqual(['kind', 'question', 'answers', 'always']);
    }
  });

  test('people read it too: wrapped, with numbered answers, and no mark-up left in it', () => {
    const { out } = here.run(['chat', '--as', 'dora'], 'my external drive clicks\n1\n');
    expect(out).toContain('1  ');
    expect(out).not.toContain('**');
    expect(Math.max(...out.split('\n').map(line => line.length))).toBeLessThanOrEqual(88);
  });
});

describe('bad input', () => {
  test.each([
    [['tickets', 'show', 'banana'], 'no ticket number'],
    [['tickets', 'show', 'R-9999'], 'There is no ticket R-9999'],
    [['tickets', 'priority', 'R-1', 'urgent'], 'urgent'],
    [['tickets', 'outage', 'no-such', 'text'], 'There is no symptom'],
    [['tickets', 'outage-over', 'O-none'], 'No open outage'],
    [['replay', 'nowhere.yaml'], 'There is no file'],
    [['bogus'], 'unknown command'],
  ])('%j: one clear line on standard error and status 2', (args, told) => {
    const { status, err } = here.run(args as string[]);
    expect(err).toContain(told);
    expect(err.trim().split('\n').length).toBeLessThanOrEqual(2);
    expect(status).toBe(2);
  });

  test('settings that make no sense are all told at once', () => {
    const other = reseat('mysql://nowhere');
    const { status, err } = other.run(['tickets']);
    expect(status).toBe(2);
    expect(err).toContain('postgres://');
    other.remove();
  });
});

test('whoever stops reading early gets no error for it', () => {
  const { stderr } = spawnSync(
    'sh',
    ['-c', '"$0" src/main.ts tickets schema | head -n 1', process.execPath],
    {
      encoding: 'utf8',
    },
  );
  expect(stderr).toBe('');
});

describe('understanding', () => {
  test('one JSON line per line, with every symptom ranked', () => {
    const { out } = here.run(['understand', '--json'], 'my drive clicks\n\n');
    const lines = out
      .trim()
      .split('\n')
      .map(line => JSON.parse(line));
    expect(lines).toHaveLength(2);
    expect(lines[0]).toMatchObject({ text: 'my drive clicks', symptom: 'drive-noise' });
    expect(lines[0].ranked).toHaveLength(19);
    expect(lines[1]).toMatchObject({ text: '', symptom: null, sure: false });
  });
});
