import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { caution } from '#engine/advance.ts';
import { cautions as shape } from '#engine/catalogue.ts';
import { fresh } from '#engine/state.ts';
import { knowledge } from '../support/knowledge.ts';

const cautions = shape.parse(parse(readFileSync('flows/catalogue/cautions.yaml', 'utf8')));

/** The words themselves and the lines that come back at the hand-over. */
const said = (id: string): string => {
  const { text, do: does = [], dont = [] } = cautions[id]!;
  return [text, ...does, ...dont].join(' ').toLowerCase();
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

describe('where an alarm orders the opposite of what was said before, it says which of the two holds', () => {
  const { script } = Object.values(knowledge.flows)[0]!;
  const saidAfter = (before: string[], id: string): string => {
    const state = fresh();
    for (const each of before) caution(script, state, each);
    return caution(script, state, id)[0]!.text;
  };

  it.each([
    ['keep-on', 'mechanical-first', /that no longer holds/],
    ['mechanical-first', 'attack-first', /goes off all the same/],
    ['server-hands-off', 'attack-first', /its network cable comes out all the same/],
    ['array-let-rebuild', 'danger-first', /goes before anything I said/],
  ])('%s, then %s', (before, id, words) => {
    expect(saidAfter([before], id)).toMatch(words);
    expect(saidAfter([], id)).not.toMatch(words);
  });

  it('once, however many it takes the place of', () => {
    expect(
      saidAfter(['keep-on', 'server-hands-off', 'attack-first'], 'danger-first').split('goes before'),
    ).toHaveLength(2);
  });

  it('danger does, after any word to leave something on or as it is', () => {
    const orders = Object.entries(cautions)
      .filter(([id]) => !id.startsWith('desk-') && !id.includes('danger'))
      .filter(([, { text }]) =>
        /leave (?:it|the machine|the computer|everything)|\*\*nothing\*\*|no restart|let it run/i.test(text),
      )
      .filter(([, { text }]) => !/leave it off|don't switch it on/i.test(text))
      .map(([id]) => id);
    expect(orders.length).toBeGreaterThan(5);
    expect(Object.keys(cautions['danger-first']!.takes_over ?? {})).toEqual(expect.arrayContaining(orders));
  });
});
