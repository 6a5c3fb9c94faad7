import { describe, expect, it } from 'vitest';
import { openStep } from '#engine/advance.ts';
import type { Site } from '#engine/catalogue.ts';
import { type Compiled, compile } from '#engine/compile.ts';
import type { Entry } from '#engine/entries.ts';
import { fold } from '#engine/fold.ts';
import { flow } from '#engine/schema.ts';
import { blocks, catalogue, site } from '../support/flows.ts';
import { opened } from '../support/random-flow.ts';

const shares: Site['shares'] = [
  {
    id: 'plans',
    letter: 'P:',
    path: String.raw`\\files\team plans`,
    about: 'the plans',
    owner: 'the head of plans',
  },
  { id: 'pool', path: String.raw`\\files\pool`, about: 'the pool', owner: 'the librarian' },
];
const connecting = { script: 'double-click **Drives**', wait: 'within an hour', vpn: 'click the shield' };
const here: Site = { ...site, shares, connecting };

const ask = { id: 'share', ask: 'Which one is it?', answers_from: 'shares' };
const compiled = (steps: object[], where: Site = here): Compiled =>
  compile(flow.parse({ symptom: 'drive-slow', title: 'Shares', steps }), blocks, catalogue, where);

/** What is said and asked after choosing `chosen` at the question for the share. */
function chose(chosen: string, step: object, where = here) {
  const { script, problems } = compiled([ask, { say: 'Right, {share.name}.' }, step], where);
  expect(problems).toEqual([]);
  const entries: Entry[] = [opened(1)];
  entries.push({ kind: 'answer', at: 2, question: 1, step: 'share', value: { id: chosen }, words: chosen });
  const { state, said } = fold(script, entries, 1);
  return { script, state, said: said.map(each => each.text), open: openStep(script, state) };
}

describe('a question for the share', () => {
  const { script } = compiled([ask]);
  const [step] = script.main;

  it('offers those of site.yaml, another one, and not sure', () => {
    expect(step?.kind === 'ask' && step.answers.map(({ id, label }) => [id, label])).toEqual([
      ['plans', 'P: (the plans)'],
      ['pool', 'The pool'],
      ['another', 'Another one'],
      ['not-sure', "I'm not sure"],
    ]);
  });

  it('can offer more, such as all of them', () => {
    const [more] = compiled([{ ...ask, answers: { all: 'All of them' } }]).script.main;
    expect(more?.kind === 'ask' && more.answers.map(({ id }) => id)).toEqual([
      'plans',
      'pool',
      'all',
      'another',
      'not-sure',
    ]);
  });

  it('is heard from the first words by letter and by path', () => {
    expect(step?.kind === 'ask' && step.tokens).toMatchObject({
      'path:\\\\files\\team plans': 'plans',
      'path:\\\\files\\pool': 'pool',
      'letter:p': 'plans',
      'name:plans': 'plans',
      'name:pool': 'pool',
    });
  });

  it('is another one by a letter that is on no share, unless it is of the computer itself', () => {
    const tokens = (step?.kind === 'ask' && step.tokens) || {};
    expect(tokens['letter:s']).toBe('another');
    expect(tokens).not.toHaveProperty('letter:c');
  });

  it('takes no letter for a share that two of them have', () => {
    const twice = shares.map(share => ({ ...share, letter: 'P:' }));
    const [both] = compiled([ask], { ...here, shares: twice }).script.main;
    expect(both?.kind === 'ask' && Object.keys(both.tokens ?? {})).not.toContain('letter:p');
  });

  it('is the same to conditions whichever was chosen, so that any site.yaml keeps the proof', () => {
    expect(script.findings.share).toEqual(['listed', 'another', 'not-sure']);
    expect(chose('pool', { id: 'next', ask: 'And?' }).state.findings.share).toBe('listed');
    expect(chose('another', { id: 'next', ask: 'And?' }).state.findings.share).toBe('another');
  });

  it('lets an answer of the list do what `listed` says', () => {
    const [listed] = compiled([
      { ...ask, sets: { listed: { known: 'yes' } }, evidence: { listed: { for: { 'usb-left-in': 1 } } } },
    ]).script.main;
    if (listed?.kind !== 'ask') throw new Error('no question');
    expect(listed.after.pool?.sets).toEqual({ known: 'yes', share: 'listed' });
    expect(listed.after.pool?.evidence.for).toEqual({ 'usb-left-in': 1 });
    expect(listed.after.another?.sets).toEqual({});
  });
});

describe('placeholders', () => {
  it('show the chosen share as site.yaml has it', () => {
    const { said, open } = chose('plans', {
      id: 'map',
      if: { share: 'listed' },
      try: 'Type {share.windows}, or {share.remove} first. It is at {share.path}, {share.address}, on {share.server}.',
      effect: 'none',
      minutes: 1,
      works: 'Is {share.name} there? If not: {share.owner}.',
      help: 'Only {share.name}.',
    });
    expect(said).toEqual(['Right, P: (the plans).']);
    expect(open).toMatchObject({
      text: 'Type `net use P: "\\\\files\\team plans" /persistent:yes`, or `net use P: /delete` first. It is at `\\\\files\\team plans`, `smb://files/team%20plans`, on `files`.',
      works: 'Is P: (the plans) there? If not: the head of plans.',
      help: 'Only P: (the plans).',
    });
  });

  it('have words of their own where no share of the list was chosen', () => {
    const { said, open } = chose('not-sure', { id: 'who', ask: 'Ask {share.owner}, on {share.server}?' });
    expect(said).toEqual(['Right, the network drive.']);
    expect(open?.text).toBe('Ask its owner, on its server?');
  });

  it('say why it is handed over', () => {
    const { state } = chose('pool', { hand_over: { because: '{share.owner} decides about {share.name}.' } });
    expect(state.outcome?.text).toBe('the librarian decides about the pool.');
  });

  it('show what site.yaml says of the way in', () => {
    const { open } = chose('pool', {
      id: 'in',
      ask: 'VPN: {site.vpn}. Script: {site.script}. Else {site.wait}.',
    });
    expect(open?.text).toBe('VPN: click the shield. Script: double-click **Drives**. Else within an hour.');
  });

  it('take nothing from what was typed', () => {
    const { script } = compiled([ask, { id: 'next', if: { share: 'listed' }, ask: 'Type {share.windows}?' }]);
    const entries: Entry[] = [opened(1)];
    const words = 'pool `& del *` {share.path}';
    entries.push({ kind: 'answer', at: 2, question: 1, step: 'share', value: { id: 'pool' }, words });
    expect(openStep(script, fold(script, entries).state)?.text).toBe('Type `net use "\\\\files\\pool"`?');
  });

  it('go with the answer when it is taken back', () => {
    const { script } = compiled([ask, { id: 'next', ask: 'Which folder of {share.name}?' }]);
    const answer = (question: number, id: string): Entry => ({
      ...{ kind: 'answer', at: 2, question, step: 'share', words: id },
      value: { id },
    });
    const entries: Entry[] = [opened(1), answer(1, 'plans'), { kind: 'back', at: 3, to: 1, why: 'asked' }];
    entries.push(answer(3, 'pool'));
    expect(openStep(script, fold(script, entries).state)?.text).toBe('Which folder of the pool?');
  });

  it('stand in the script with their words, so that a later site.yaml changes nothing of a conversation', () => {
    expect(chose('pool', { id: 'next', ask: 'And?' }).script.shares?.listed.pool?.name).toBe('the pool');
  });

  it('cost a flow without them nothing', () => {
    expect(compiled([{ id: 'next', ask: 'And?' }]).script).not.toHaveProperty('shares');
  });
});

describe('mistakes are told with the place and what to do', () => {
  const problemsOf = (steps: object[], where = here) => compiled(steps, where).problems;

  it('a placeholder that there is not', () => {
    expect(problemsOf([{ id: 'x', ask: 'Open {share.pth}?' }])).toEqual([
      {
        unit: 'drive-slow',
        path: ['steps', 0, 'ask'],
        message: 'there is nothing called {share.pth} to put in',
        remedy: 'write "{share.path}" if that is meant',
      },
    ]);
  });

  it.each(['{share path}', '{ share.path }', '{SHARE.PATH}', '{share.path_}', '{}'])('also %s', text => {
    expect(problemsOf([{ id: 'x', ask: `Open ${text}?` }])).toHaveLength(1);
  });

  it('and a command with braces of its own is none', () => {
    expect(problemsOf([{ id: 'x', ask: "Run `Get-Item @{Log='System'}`, `{ $_.Id }`?" }])).toEqual([]);
  });

  it.each([
    ['say', { say: 'a {b}' }],
    ['help', { id: 'x', ask: 'And?', help: 'a {b}' }],
    ['works', { id: 'x', try: 'Do.', effect: 'none', minutes: 1, works: 'a {b}' }],
    ['because', { hand_over: { because: 'a {b}' } }],
  ])('also in %s', (part, step) => {
    const [problem] = problemsOf([step]);
    expect(problem?.path.at(-1)).toBe(part);
  });

  it('a place to fill in the words of a button', () => {
    expect(
      problemsOf([{ id: 'x', ask: 'And?', answers: { yes: 'Yes, {share.name}', no: 'No' } }]),
    ).toMatchObject([{ path: ['steps', 0, 'answers', 'yes'], remedy: 'put it into the question' }]);
  });

  it('a command where perhaps no share of the list was chosen', () => {
    const step = { id: 'x', ask: 'Type {share.windows}?' };
    const [problem] = problemsOf([ask, step]);
    expect(problem).toMatchObject({
      path: ['steps', 1, 'ask'],
      remedy: 'let the step stand only where { share: listed }',
    });
    const complaints = (when: object) => problemsOf([ask, { ...step, if: when }]).length;
    expect(complaints({ share: 'listed' })).toBe(0);
    expect(complaints({ all: [{ share: ['listed'] }] })).toBe(0);
    expect(complaints({ any: [{ share: 'listed', 'policy.firmware': 'locked' }, { share: 'listed' }] })).toBe(
      0,
    );
    expect(complaints({ share: ['listed', 'another'] })).toBe(1);
    expect(complaints({ any: [{ share: 'listed' }, { share: 'another' }] })).toBe(1);
    expect(complaints({ not: { share: ['another', 'not-sure'] } })).toBe(1);
  });

  it('words of the organisation that site.yaml does not give', () => {
    expect(
      problemsOf([{ id: 'x', ask: 'Is the VPN on? {site.vpn}' }], { ...here, connecting: undefined }),
    ).toMatchObject([{ remedy: 'add connecting.vpn to site.yaml' }]);
  });

  it('a share named in a flow', () => {
    expect(
      problemsOf([
        { ...ask, goes: { pool: 'end' } },
        { id: 'end', ask: 'And?' },
      ]),
    ).toMatchObject([
      { path: ['steps', 0, 'goes', 'pool'], remedy: 'use one of: listed, another, not-sure' },
    ]);
    expect(problemsOf([ask, { id: 'x', if: { share: 'pool' }, ask: 'And?' }])).toMatchObject([
      { remedy: 'use one of: listed, another, not-sure' },
    ]);
  });

  it('a question for the share under another name, or an answer that is a share as well', () => {
    expect(problemsOf([{ ...ask, id: 'which' }])).toMatchObject([{ remedy: 'add as: share' }]);
    expect(problemsOf([{ ...ask, answers: { pool: 'The pool' } }])).toMatchObject([
      { message: '"pool" is an answer here and a share of site.yaml' },
    ]);
  });
});
