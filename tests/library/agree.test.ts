/** What one file of the folder says of another, damaged in every way that was let through before: each is one mistake, with its line. */
import { readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { loadLibrary, mistakeText } from '#library/load.ts';
import { fewFlows } from '../support/few-flows.ts';

let folder: string;
beforeEach(() => {
  folder = fewFlows('disk-full');
});
afterEach(() => rmSync(folder, { recursive: true }));

/** The line that was changed, and what is said about the folder then. */
function changed(file: string, from: string | RegExp, to: string): { line: number; said: string[] } {
  const path = join(folder, file);
  const before = readFileSync(path, 'utf8');
  const after = before.replace(from, to);
  expect(after).not.toBe(before);
  writeFileSync(path, after);
  const line = before.split('\n').findIndex((text, at) => text !== after.split('\n')[at]) + 1;
  return { line, said: loadLibrary(folder).mistakes.map(mistakeText) };
}

describe('one mistake, on its line, with what to do', () => {
  test.each([
    ['catalogue/interrupts.yaml', '    - smoke\n', '    - "smoke|"\n', 'has a word that is none'],
    ['catalogue/interrupts.yaml', '    - smoke\n', '    - "..."\n', 'has a word that is none'],
    [
      'catalogue/interrupts.yaml',
      '    - smoke\n',
      `    - ${Array(9).fill('a|b|c|d').join(' ')}\n`,
      'stands for 262144 phrases',
    ],
    [
      'catalogue/interrupts.yaml',
      /not_for:\n +- drive-noise/,
      'not_for:\n    - drive-nose',
      'Write "drive-noise"',
    ],
    ['catalogue/screen-messages.yaml', /^( +)- (?=[A-Z])/m, '$1- "* "  # ', 'does not begin with a word'],
    [
      'catalogue/screen-messages.yaml',
      /symptom: boot-read-error/,
      'symptom: boot-read-eror',
      'Write "boot-read-error"',
    ],
    ['catalogue/interrupts.yaml', 'faults: [ransomware]', 'faults: [ransomwear]', 'Write "ransomware"'],
    [
      'catalogue/interrupts.yaml',
      'faults: [warning-fraud]',
      'faults: [warning-froud]',
      'Write "warning-fraud"',
    ],
    ['catalogue/symptoms.yaml', /^disk-full:/m, 'disk-ful:', 'Write "disk-full"'],
    ['catalogue/os-codes.yaml', /symptom: share-missing/, 'symptom: share-mising', 'Write "share-missing"'],
    ['catalogue/policies.yaml', /default: \S+/, 'default: lokced', 'is none of its values'],
    ['site.yaml', /usb-storage: \S+/, 'usb-storage: block', 'Write "blocked"'],
    ['site.yaml', /firmware: (\S+)/, 'firmwear: $1', 'Write "firmware"'],
    ['site.yaml', /time_zone: Europe\/London/, 'time_zone: Europe/Londres', 'is no time zone'],
    ['site.yaml', /number: .*/, 'number: "555-0111"', 'Write the same number at both'],
  ])('%s: %s becomes %s', (file, from, to, words) => {
    const { line, said } = changed(file, from, to);
    const [first = ''] = said.filter(text => text.toLowerCase().includes(words.toLowerCase()));
    expect(first).toContain(words);
    if (!words.includes('same number')) expect(first).toContain(`${file}:${line}:`);
  });

  test('the same words at two answers', () => {
    const { said } = changed(
      'blocks/data-first/block.yaml',
      'nothing: ["nothing important',
      'nothing: ["nowhere", "nothing important',
    );
    expect(said).toEqual([expect.stringMatching(/"nowhere" is "nowhere" already. Keep it at the one/)]);
  });
});

test('a file that is far too large, and one that was saved with a second ending', () => {
  const site = join(folder, 'site.yaml');
  const text = readFileSync(site, 'utf8');
  writeFileSync(site, `${text}${'# nothing\n'.repeat(250_000)}`);
  expect(loadLibrary(folder).mistakes.map(mistakeText)).toEqual([
    expect.stringMatching(/site\.yaml:1: the file has 3 MB, and 2 is the most/),
  ]);
  rmSync(site);
  writeFileSync(`${site}.txt`, text);
  expect(loadLibrary(folder).mistakes.map(mistakeText)).toEqual([
    expect.stringMatching(
      /site\.yaml:1: the file is missing. There is .*site\.yaml\.txt: give that one this name/,
    ),
  ]);
});
