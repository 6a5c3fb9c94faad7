import { describe, expect, it } from 'vitest';
import { SYMPTOMS } from '#engine/catalogue.ts';
import { realFaults } from './sample.ts';

const faults = realFaults();
const all = Object.entries(faults);
const checks = all.flatMap(([fault, { checks: own }]) =>
  own.map((check, place) => ({
    fault,
    ...check,
    open: check.open ?? false,
    before: own.slice(0, place).map(each => each.check),
  })),
);

describe('the catalogue of faults', () => {
  it.each(SYMPTOMS.filter(symptom => symptom !== 'not-storage'))(
    '%s has at least three faults that may be behind it',
    symptom =>
      expect(all.filter(([, { symptoms }]) => symptoms.includes(symptom)).length).toBeGreaterThanOrEqual(3),
  );

  it('names only symptoms that there are', () => {
    const named = new Set(all.flatMap(([, { symptoms }]) => symptoms));
    expect([...named].filter(symptom => !(SYMPTOMS as readonly string[]).includes(symptom))).toEqual([]);
  });

  it('says of every check what it does to the drive, and writes to none', () => {
    expect(checks.filter(({ effect }) => effect === undefined || effect === 'write')).toEqual([]);
  });

  it('opens the case last within each fault', () => {
    for (const [fault, { checks: own }] of all) {
      const firstOpen = own.findIndex(({ open }) => open);
      if (firstOpen !== -1)
        expect(
          own.slice(firstOpen).every(({ open }) => open),
          fault,
        ).toBe(true);
    }
  });

  it('a check that reads alike is the same check, in the same place, so that it is made once', () => {
    for (const one of checks) {
      const { fault: _, ...first } = checks.find(({ check }) => check === one.check)!;
      const { fault, ...same } = one;
      expect(same, fault).toEqual(first);
    }
  });

  it('says of every fault what keeps it from coming back, and of what is broken which part mends it', () => {
    expect(all.filter(([, { prevent }]) => prevent === undefined).map(([fault]) => fault)).toEqual([]);
    expect(all.filter(([, { hardware, parts }]) => hardware && !parts).map(([fault]) => fault)).toEqual([]);
  });

  it('calls only hardware failing', () => {
    expect(all.filter(([, { failing, hardware }]) => failing && !hardware)).toEqual([]);
  });

  it('never has anybody clear, initialise, format or repair before the data is settled', () => {
    for (const { check, fault } of checks) {
      if (/\b(initialis|format|clear|repair)/i.test(check)) {
        expect(check, fault).toMatch(
          /press Cancel|before anything|never|without repair|repair only an image/i,
        );
      }
    }
  });

  it('lets nobody pull, restart or import on an array before its standing is known', () => {
    for (const [fault, { checks: own, symptoms }] of all) {
      if (!symptoms.includes('raid-alarm')) continue;
      expect(own[0]!.check, fault).toContain('pull and restart nothing');
    }
  });
});
