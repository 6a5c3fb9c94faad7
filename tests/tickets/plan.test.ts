import { describe, expect, it } from 'vitest';
import type { Faults } from '#engine/catalogue.ts';
import { type PlanInput, partsOf, planOf } from '#tickets/plan.ts';
import type { Suspect } from '#tickets/schema.ts';
import { realFaults } from './sample.ts';

type Check = Faults[string]['checks'][number];
const fault = (checks: Check[], change: Partial<Faults[string]> = {}): Faults[string] => ({
  name: 'Something',
  means: 'It is so.',
  hardware: true,
  symptoms: ['drive-slow'],
  checks,
  ...change,
});
const look = (check: string, minutes: number): Check => ({ check, minutes, effect: 'none' });

const faults: Faults = {
  lead: fault([look('look', 2), { check: 'seat', minutes: 10, open: true, effect: 'none' }], {
    parts: ['lead'],
  }),
  port: fault([look('look', 2), { check: 'other port', minutes: 3, effect: 'start' }]),
  fan: fault([look('fan', 1)], { parts: ['fan'] }),
  drive: fault([{ check: 'counters', minutes: 5, effect: 'read' }], {
    failing: true,
    parts: ['drive', 'lead'],
  }),
  unsaid: fault([{ check: 'unsaid', minutes: 5 }]),
};
const suspects = (shares: Record<string, number>): Suspect[] =>
  Object.entries(shares).map(([id, share]) => ({
    fault: id,
    name: id,
    share,
    hardware: true,
    for: [],
    against: [],
  }));
const plan = (shares: Record<string, number>, change: Partial<PlanInput> = {}) =>
  planOf({ suspects: suspects(shares), faults, signs: [], onlyCopy: false, ...change });
const texts = (checks: { check: string }[]) => checks.map(({ check }) => check);

describe('the bench plan', () => {
  it('begins with the best chance per minute', () => {
    expect(texts(plan({ drive: 0.6, fan: 0.4 }).checks)).toEqual(['fan', 'counters']);
    expect(texts(plan({ drive: 0.9, fan: 0.1 }).checks)).toEqual(['counters', 'fan']);
  });

  it('asks once for a check that two faults begin with, and says which faults it looks for', () => {
    const { checks } = plan({ lead: 0.5, port: 0.5 });
    expect(checks[0]).toEqual({
      check: 'look',
      minutes: 2,
      open: false,
      effect: 'none',
      looksFor: [
        { fault: 'lead', name: 'lead' },
        { fault: 'port', name: 'port' },
      ],
    });
    expect(checks.filter(({ check }) => check === 'look')).toHaveLength(1);
  });

  it('opens no case before everything with a closed one is done, and says first what makes it safe', () => {
    const { checks } = plan({ lead: 0.98, drive: 0.01, fan: 0.01 });
    expect(texts(checks)).toEqual([
      'look',
      'fan',
      'counters',
      expect.stringContaining('Before the case is opened'),
      'seat',
    ]);
    expect(checks[3]!.check).toMatch(/unplug.*battery.*static.*Never open a power supply/);
  });

  it('makes a check that follows an open one with the case open, too', () => {
    const inside = {
      inside: fault([{ check: 'seat', minutes: 10, open: true, effect: 'none' }, look('then', 1)]),
    };
    const { checks } = planOf({
      suspects: suspects({ inside: 1 }),
      faults: inside,
      signs: [],
      onlyCopy: false,
    });
    expect(checks.map(({ check, open }) => [check, open]).slice(1)).toEqual([
      ['seat', true],
      ['then', true],
    ]);
  });

  it('spreads the chance of a fault over its checks', () => {
    const two = { two: fault([look('first', 4), look('second', 4)]), one: fault([look('only', 4)]) };
    // 0.54 / 2 / 4 minutes is less than 0.46 / 4 minutes.
    const { checks } = planOf({
      suspects: suspects({ two: 0.54, one: 0.46 }),
      faults: two,
      signs: [],
      onlyCopy: false,
    });
    expect(texts(checks)).toEqual(['only', 'first', 'second']);
  });

  it('tells the average minutes until the fault is found', () => {
    // look 2 min finds 0.5 x 0.5; then 5 min of opening and 10 min find the other half of it.
    expect(plan({ lead: 1 }).expectedMinutes).toBeCloseTo(0.5 * 2 + 0.5 * 17, 12);
    expect(plan({}).expectedMinutes).toBeNull();
  });

  it('leaves out what is hardly possible', () => {
    expect(texts(plan({ fan: 0.995, drive: 0.005 }).checks)).toEqual(['fan']);
  });
});

describe('data first', () => {
  const first = (change: Partial<PlanInput>, shares: Record<string, number> = { fan: 0.5, drive: 0.5 }) =>
    plan(shares, change).checks[0]!;

  it('saving the data comes before every check when there may be no other copy and the drive may fail', () => {
    expect(first({ onlyCopy: true })).toMatchObject({
      check: expect.stringContaining('First save the data'),
      looksFor: [],
    });
    expect(first({ onlyCopy: true, signs: ['suspect'] }, { fan: 1 }).check).toContain('First save the data');
    expect(first({ onlyCopy: true, signs: ['hardware-failure'] }, { fan: 1 }).check).toContain(
      'save the data',
    );
  });
  it('not when another copy was seen, nor when no drive is failing', () => {
    expect(first({ onlyCopy: false }).check).toBe('fan');
    expect(first({ onlyCopy: true }, { fan: 1 }).check).toBe('fan');
  });
});

describe('when the drive must not be touched', () => {
  it.each([
    ['danger', 'First make it safe', 'Not before it is safe.'],
    ['attack', 'First hand it to the security contact', 'Not before the security contact releases it.'],
    ['mechanical', 'First decide with the owner of the data', 'Starting the drive again may end it.'],
  ] as const)(
    '%s: only looking is planned, the rest is kept back with its reason',
    (sign, words, because) => {
      const { checks, held, heldBecause } = plan(
        { port: 0.4, drive: 0.4, fan: 0.2 },
        { signs: [sign], onlyCopy: true },
      );
      expect(checks[0]!.check).toContain(words);
      expect(checks.every(({ effect }) => effect === 'none')).toBe(true);
      expect(texts(held).toSorted()).toEqual(['counters', 'other port']);
      expect(heldBecause).toBe(because);
    },
  );

  it('a check that does not say what it does to the drive is kept back too', () => {
    expect(texts(plan({ unsaid: 1 }, { signs: ['mechanical'] }).held)).toEqual(['unsaid']);
  });

  it('so is a check that comes after one that is kept back', () => {
    const chain = {
      chain: fault([{ check: 'start it', minutes: 1, effect: 'start' }, look('then look', 1)]),
    };
    const { held } = planOf({
      suspects: suspects({ chain: 1 }),
      faults: chain,
      signs: ['mechanical'],
      onlyCopy: false,
    });
    expect(texts(held)).toEqual(['start it', 'then look']);
  });

  it('danger outranks attack, and attack a noise', () => {
    const all = plan({ fan: 1 }, { signs: ['mechanical', 'attack', 'danger'] });
    expect(all.checks[0]!.check).toContain('make it safe');
    expect(plan({ fan: 1 }, { signs: ['mechanical', 'attack'] }).checks[0]!.check).toContain(
      'security contact',
    );
  });
});

describe('with the real catalogue', () => {
  const real = realFaults();
  const all = Object.entries(real);
  it.each(['boot-no-device', 'drive-noise', 'drive-missing-internal', 'raid-alarm'])(
    '%s: every check once, closed before open, in the order of each fault',
    symptom => {
      const fitting = all.filter(([, { symptoms }]) => symptoms.includes(symptom));
      const share = 1 / fitting.length;
      const listed = suspects(Object.fromEntries(fitting.map(([id]) => [id, share])));
      const { checks } = planOf({ suspects: listed, faults: real, signs: [], onlyCopy: false });
      expect(new Set(texts(checks)).size).toBe(checks.length);
      const firstOpen = checks.findIndex(({ open }) => open);
      if (firstOpen !== -1) expect(checks.slice(firstOpen).every(({ open }) => open)).toBe(true);
      for (const [, { checks: own }] of fitting) {
        const places = own.map(({ check }) => texts(checks).indexOf(check));
        expect(places).not.toContain(-1);
        expect(places).toEqual(places.toSorted((one, other) => one - other));
      }
    },
  );
});

describe('parts worth having at hand', () => {
  it('of the likely faults, likeliest first, each once', () => {
    expect(partsOf(suspects({ drive: 0.6, lead: 0.3, fan: 0.05 }), faults)).toEqual(['drive', 'lead']);
  });
});
