import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { cautions as shape } from '#engine/catalogue.ts';

const cautions = shape.parse(parse(readFileSync('flows/catalogue/cautions.yaml', 'utf8')));

/** The words themselves and the lines that come back at the hand-over. */
const said = (id: string): string => {
  const { text, do: todo = [], dont = [] } = cautions[id]!;
  return [text, ...todo, ...dont].join(' ').toLowerCase();
};

describe('the myths are said where somebody might try them', () => {
  it.each([
    [
      'a drive that clicks, was dropped or got wet',
      'mechanical-first',
      ['freezer', 'tap', 'rice', 'open', 'scan and fix'],
    ],
    ['something wet or swollen', 'danger-first', ['rice', 'heat', 'open']],
    ['what stays in danger until somebody comes', 'keep-away', ['rice', 'heat', 'open']],
    ['a drive that offers to repair itself', 'data-first', ['scan and fix', 'format', 'cancel']],
    ['files that were deleted', 'stop-writing', ['recovery program', 'install']],
    ['a machine that others depend on', 'server-hands-off', ['restart', 'pull']],
    ['a password that is refused', 'password-twice', ['twice', 'lock']],
    ['work that was done without a connection', 'offline-copies', ['disconnect', 'all']],
  ])('%s', (_what, id, words) => {
    for (const word of words) expect(said(id)).toContain(word);
  });

  it('what must not be done stands among the lines that the person keeps', () => {
    const kept = (cautions['mechanical-first']!.dont ?? []).join(' ').toLowerCase();
    for (const word of ['tap', 'cool', 'heat', 'open', 'repair']) expect(kept).toContain(word);
  });
});
