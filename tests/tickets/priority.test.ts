import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { above } from '#tickets/life.ts';
import { byUrgency } from '#tickets/order.ts';
import { GRAVER, type PriorityInput, priorityOf } from '#tickets/priority.ts';
import type { Priority, Ticket } from '#tickets/schema.ts';

type Findings = Record<string, string>;
/** Everything well: one person, working, nothing missed, no hurry. */
const WELL: Findings = {
  'impact-who': 'me',
  'impact-work': 'fine',
  deadline: 'no-hurry',
  missed: 'something',
  copy: 'seen',
  power: 'off',
};
const input = (findings: Findings, change: Partial<PriorityInput> = {}): PriorityInput => ({
  symptom: 'drive-slow',
  findings: { ...WELL, ...findings },
  thing: null,
  needsDesk: false,
  ...change,
});
const of = (findings: Findings, change: Partial<PriorityInput> = {}) => priorityOf(input(findings, change));
const raid = { symptom: 'raid-alarm' };

describe('each line of the priority, with the words the person and the technician read', () => {
  it.each<[Priority, string, Findings, Partial<PriorityInput>?]>([
    ['critical', 'Somebody may be in danger.', { danger: 'yes' }],
    ['critical', 'It may be an attack.', { attack: 'yes' }],
    ['critical', 'Many people cannot work.', { 'impact-who': 'many', 'impact-work': 'stopped' }],
    [
      'critical',
      'Many people are held up, and it is needed today.',
      { 'impact-who': 'many', 'impact-work': 'workaround', deadline: 'today' },
    ],
    [
      'critical',
      'It is about the accounts folder, which many depend on or which cannot wait.',
      {},
      { thing: 'the accounts folder' },
    ],
    [
      'critical',
      'The only copy of something needed is on a device that may be failing and is still running.',
      { suspect: 'yes', copy: 'nowhere', power: 'on' },
    ],
    ['critical', 'A drive array is lost, or may be.', { standing: 'lost' }, raid],
    ['critical', 'A drive array did not start.', { standing: 'did-not-start' }, raid],
    [
      'critical',
      'A drive array survives no further failure, and a second drive is suspect.',
      { standing: 'no-margin', suspect: 'yes' },
      raid,
    ],
    [
      'critical',
      'A drive array survives no further failure, and no recent backup has been seen.',
      { standing: 'no-margin', copy: 'believed' },
      raid,
    ],
    ['high', 'Somebody cannot work and has no way around it.', { 'impact-work': 'stopped' }],
    [
      'high',
      'A few people cannot work and have no way around it.',
      { 'impact-who': 'few', 'impact-work': 'stopped' },
    ],
    [
      'high',
      'Somebody is held up, and it is needed today.',
      { 'impact-work': 'workaround', deadline: 'today' },
    ],
    [
      'high',
      'The only copy of something needed is on a device that may be failing; it is safely off.',
      { mechanical: 'yes', copy: 'nowhere' },
    ],
    [
      'high',
      'A device may be failing. What is on it has been seen elsewhere, or would not be missed.',
      { 'hardware-failure': 'yes' },
    ],
    [
      'high',
      'A drive array survives no further failure; nothing is known against its other drives.',
      { standing: 'no-margin' },
      raid,
    ],
    ['medium', 'Somebody works on with difficulty.', { 'impact-work': 'workaround' }],
    ['medium', 'People work on with difficulty.', { 'impact-who': 'many', 'impact-work': 'workaround' }],
    ['medium', 'Work goes on, but it is needed today.', { deadline: 'today' }],
    ['medium', 'Something would be missed, and no other copy of it has been seen.', { copy: 'believed' }],
    ['medium', 'It needs hands or rights that the person does not have.', {}, { needsDesk: true }],
    [
      'medium',
      'A drive array runs with a drive missing and can still survive a failure.',
      { standing: 'degraded' },
      raid,
    ],
    ['low', 'Work goes on, and nothing is at risk.', {}],
    ['low', 'Work goes on, and nothing is at risk.', { missed: 'nothing', copy: 'nowhere' }],
  ])('%s: %s', (priority, why, findings, change) => {
    expect(of(findings, change)).toMatchObject({ priority, why });
  });

  it('nobody asked whether they can work: medium, and it says so', () => {
    expect(priorityOf({ symptom: 'drive-slow', findings: {}, thing: null, needsDesk: false })).toMatchObject({
      priority: 'medium',
      why: 'Nobody could ask whether they can work.',
    });
  });

  it('a machine that does not start is not one to work on, asked or not', () => {
    const unasked = { symptom: 'boot-no-device', findings: {}, thing: null, needsDesk: false };
    expect(priorityOf(unasked).why).toBe('Somebody cannot work and has no way around it.');
  });

  it('an array in alarm of which nobody knows more may have no margin left', () => {
    expect(of({}, raid).priority).toBe('high');
    expect(of({ copy: 'nowhere' }, raid).priority).toBe('critical');
  });

  it('a failing member of an array that can spare it is judged by the array', () => {
    expect(of({ standing: 'degraded', 'hardware-failure': 'yes' }, raid).priority).toBe('medium');
  });
});

describe('the first line that holds decides', () => {
  it('danger before attack before many', () => {
    const all = { danger: 'yes', attack: 'yes', 'impact-who': 'many', 'impact-work': 'stopped' };
    expect(of(all).why).toBe('Somebody may be in danger.');
    expect(of({ ...all, danger: 'no' }).why).toBe('It may be an attack.');
    expect(of({ ...all, danger: 'no', attack: 'no' }).why).toBe('Many people cannot work.');
  });
  it('stopped work before a failing device', () => {
    expect(of({ 'impact-work': 'stopped', mechanical: 'yes' }).why).toContain('cannot work');
  });
});

describe('not sure counts as the worse', () => {
  it.each([
    ['copy', { suspect: 'yes', power: 'on' }, 'critical'],
    ['power', { suspect: 'yes', copy: 'nowhere' }, 'critical'],
    ['impact-work', {}, 'high'],
    ['deadline', {}, 'medium'],
    ['missed', { copy: 'nowhere' }, 'medium'],
  ] as const)('%s', (finding, others, priority) => {
    const worked = of({ ...others, [finding]: 'not-sure' });
    expect(worked.priority).toBe(priority);
    expect(worked.priority).toBe(of({ ...others, [finding]: GRAVER[finding]!.at(-1)! }).priority);
  });
  it('but for how many: a few where they share it, many on a server, one where it is their own', () => {
    const unsure = { 'impact-who': 'not-sure', 'impact-work': 'stopped' };
    expect(of(unsure)).toMatchObject({ priority: 'high', impact: 'one' });
    expect(of({ ...unsure, device: 'share' })).toMatchObject({ priority: 'high', impact: 'few' });
    expect(of({ ...unsure, device: 'server' })).toMatchObject({ priority: 'critical', impact: 'many' });
    expect(of({ ...unsure, device: 'server' }).why).toContain('many may depend on it');
  });
  it('is said where it made a difference, and only there', () => {
    const note = 'What nobody is sure of is taken as the worse.';
    expect(of({ deadline: 'not-sure' }).why).toContain(note);
    expect(of({ danger: 'yes', deadline: 'not-sure' }).why).not.toContain(note);
  });
  it('only seen counts as a copy; nothing to be missed needs none', () => {
    expect(of({ suspect: 'yes', power: 'on', copy: 'believed' }).priority).toBe('critical');
    expect(of({ suspect: 'yes', power: 'on', copy: 'nowhere', missed: 'nothing' }).priority).toBe('high');
  });
});

describe('impact and urgency on the ticket', () => {
  it.each([
    ['me', 'fine', 'no-hurry', 'one', 'low'],
    ['few', 'fine', 'today', 'few', 'medium'],
    ['many', 'workaround', 'this-week', 'many', 'medium'],
    ['me', 'workaround', 'today', 'one', 'high'],
    ['me', 'stopped', 'today', 'one', 'high'],
  ] as const)('%s, %s, %s', (who, work, deadline, impact, urgency) => {
    expect(of({ 'impact-who': who, 'impact-work': work, deadline })).toMatchObject({ impact, urgency });
  });
});

const SIGNS = ['danger', 'attack', 'mechanical', 'suspect', 'hardware-failure', 'only-copy'];
const finding = fc.constantFrom(...Object.keys(GRAVER).filter(name => name !== 'standing'));
const findings = fc.record({
  ...Object.fromEntries(
    Object.entries(GRAVER)
      .filter(([name]) => name !== 'standing')
      .map(([name, values]) => [name, fc.constantFrom(...values, 'not-sure')]),
  ),
  ...Object.fromEntries(SIGNS.map(sign => [sign, fc.constantFrom('no', 'yes')])),
});
const standing = fc.option(fc.constantFrom(...GRAVER.standing!), { nil: undefined });
const anything = fc
  .record({
    findings,
    standing,
    symptom: fc.constantFrom('drive-slow', 'boot-no-os', 'raid-alarm'),
    thing: fc.constantFrom(null, 'the accounts folder'),
    needsDesk: fc.boolean(),
  })
  .map(
    ({ standing: value, ...rest }): PriorityInput => ({
      ...rest,
      findings: value === undefined ? rest.findings : { ...rest.findings, standing: value },
    }),
  );
function notLower(before: PriorityInput, after: PriorityInput): void {
  expect(above(priorityOf(before).priority, priorityOf(after).priority)).toBe(false);
}

describe('whatever grows worse, the priority never falls', () => {
  it('a worse answer, or one that nobody is sure of', () => {
    fc.assert(
      fc.property(anything, finding, (before, name) => {
        const values = GRAVER[name]!;
        const now = before.findings[name]!;
        const unsure = name === 'impact-who' ? [] : ['not-sure'];
        if (now === 'not-sure' && unsure.length === 0) return;
        for (const value of [...values.slice(Math.max(0, values.indexOf(now))), ...unsure]) {
          if (now === 'not-sure' && value !== values.at(-1)) continue;
          notLower(before, { ...before, findings: { ...before.findings, [name]: value } });
        }
      }),
      { numRuns: 1000 },
    );
  });
  it('one sign more', () => {
    fc.assert(
      fc.property(anything, fc.constantFrom(...SIGNS), (before, sign) => {
        notLower(before, { ...before, findings: { ...before.findings, [sign]: 'yes' } });
      }),
      { numRuns: 1000 },
    );
  });
  it('an array that stands worse', () => {
    const steps = GRAVER.standing!;
    fc.assert(
      fc.property(anything, fc.nat(steps.length - 1), fc.nat(steps.length - 1), (before, one, other) => {
        const at = (step: number) => ({
          ...before,
          findings: { ...before.findings, standing: steps[step]! },
        });
        notLower(at(Math.min(one, other)), at(Math.max(one, other)));
      }),
      { numRuns: 1000 },
    );
  });
  it('a shared place, and work for the desk', () => {
    fc.assert(
      fc.property(anything, before => {
        notLower(before, { ...before, thing: 'the accounts folder' });
        notLower({ ...before, needsDesk: false }, { ...before, needsDesk: true });
      }),
    );
  });
});

describe('the order of a list', () => {
  const row = (number: number, priority: Priority, signs: Ticket['signs'] = [], power = 'on') => ({
    number,
    priority,
    ticket: { signs, findings: { power } },
  });
  it('critical by danger, attack, still running, the rest, safely off; then high to low; then the older', () => {
    const rows = [
      row(9, 'low'),
      row(8, 'medium'),
      row(7, 'high'),
      row(2, 'high'),
      row(6, 'critical', ['mechanical'], 'off'),
      row(5, 'critical'),
      row(4, 'critical', ['suspect']),
      row(3, 'critical', ['attack']),
      row(1, 'critical', ['danger']),
    ];
    expect(rows.toSorted(byUrgency).map(({ number }) => number)).toEqual([1, 3, 4, 5, 6, 2, 7, 8, 9]);
  });
});
