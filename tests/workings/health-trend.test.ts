/** Readings of one drive over time: what grows, what was reset, what began again. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { ataPage, hex, plain } from './health-pages.ts';
import { rank, refused, said, worked } from './health-worked.ts';

describe('readings over time', () => {
  const at = (day: number) => `2026-03-${String(day).padStart(2, '0')}`;
  const ata = (day: number, id: number, raw: number) => ({
    at: at(day),
    page: hex(ataPage([plain(9, 1000 + day), plain(id, raw)])),
  });

  test.each([5, 187, 197, 198, 10, 184])('in which attribute %i grows are acted on soon', id => {
    fc.assert(
      fc.property(fc.nat(9), fc.integer({ min: 1, max: 9 }), (first, more) => {
        const { verdict, drives } = worked({ readings: [ata(1, id, first), ata(11, id, first + more)] });
        expect(verdict).toBe('act-soon');
        expect(drives[0]!.reasons.map(({ why }) => why).join(' ')).toContain('Its errors are growing');
      }),
    );
  });

  test('are never judged better than the last of them alone', () => {
    fc.assert(
      fc.property(
        fc.array(fc.nat(30), { minLength: 1, maxLength: 6 }),
        fc.constantFrom(5, 187, 188, 197, 199),
        (raws, id) => {
          const readings = raws.map((raw, place) => ata(place + 1, id, raw));
          const { at: _, ...last } = readings.at(-1)!;
          expect(rank({ readings })).toBeGreaterThanOrEqual(rank(last));
        },
      ),
    );
  });

  test('come out alike in whatever order they are given', () => {
    const readings = [ata(1, 5, 0), ata(4, 5, 3), ata(9, 5, 3), ata(20, 5, 8)];
    fc.assert(
      fc.property(fc.shuffledSubarray(readings, { minLength: 4 }), shuffled => {
        expect(worked({ readings: shuffled })).toEqual(worked({ readings }));
      }),
    );
  });

  test.each([
    ['grew', [10, 14, 20], { grew: 10, resets: 0, wraps: 0 }],
    ['was reset', [10, 2, 5], { grew: 5, resets: 1, wraps: 0 }],
    ['began again after 16 bits', [65_530, 4], { grew: 10, resets: 0, wraps: 1 }],
    ['began again after 32 bits', [2 ** 32 - 6, 4], { grew: 10, resets: 0, wraps: 1 }],
    ['began again after 48 bits', [2 ** 48 - 6, 4], { grew: 10, resets: 0, wraps: 1 }],
  ])('in which a count %s say by how much', (_, raws, expected) => {
    const { trend } = worked({ readings: raws.map((raw, place) => ata(place + 1, 199, raw)) });
    expect(trend!.counters.find(({ figure }) => figure === 'link-errors')).toMatchObject(expected);
  });

  test('with old checksum errors that grow no more are not blamed again', () => {
    const { drives } = worked({ readings: [ata(1, 199, 40), ata(20, 199, 40)] });
    expect(drives[0]!.reasons).toHaveLength(1);
    expect(said({ readings: [ata(1, 199, 40), ata(20, 199, 41)] })).toContain('still growing');
  });

  test('whose hours do not fit the time between are told to be odd', () => {
    const reading = (day: number, hours: number) => ({ at: at(day), page: hex(ataPage([plain(9, hours)])) });
    expect(said({ readings: [reading(1, 9000), reading(2, 40)] })).toContain('Another drive');
    expect(said({ readings: [reading(1, 100), reading(2, 4000)] })).toContain('Another drive');
    expect(worked({ readings: [reading(1, 100), reading(2, 124)] }).verdict).toBe('nothing-reported');
  });

  test('of which the last is silent are told by the one before, and the silence is a sign', () => {
    const readings = [ata(1, 5, 0), { at: at(2), page: '00'.repeat(512) }];
    expect(worked({ readings }).verdict).toBe('nothing-reported');
    expect(said({ readings })).toContain('falls silent');
  });

  test('without times still say what grew, not how fast', () => {
    const [a, b] = [ata(1, 5, 0), ata(2, 5, 4)].map(({ page }) => ({ page }));
    const { trend, verdict } = worked({ readings: [a, b] });
    expect(verdict).toBe('act-soon');
    expect(trend).toMatchObject({ days: null, daysToRatedLife: null });
    expect(refused({ readings: [a, { ...b, at: at(2) }] })).toBe(
      'readings.0.at: give the time of every reading, or of none',
    );
  });

  test('with a time that is none, or beside a single reading, are refused', () => {
    expect(refused({ readings: [ata(1, 5, 0), { ...ata(2, 5, 0), at: 'last week' }] })).toMatch(
      /^readings\.1\.at: give a date or time/,
    );
    for (const at of ['2026-02-30', '2026-03-01T25:00', '1 March 2026', '2026-3-1'])
      expect(refused({ readings: [{ ...ata(1, 5, 0), at }] }), at).toMatch(
        /^readings\.0\.at: give a date or time/,
      );
    const zones = ['2026-03-01 10:00', '2026-03-01T12:00:00+02:00', '2026-03-01T10:00:00Z'];
    for (const at of zones)
      expect(
        refused({ readings: zones.filter(each => each !== at).map(each => ({ ...ata(1, 5, 0), at: each })) }),
      ).toMatch(/same time/);
    expect(refused({ readings: [ata(1, 5, 0)], status: 'passed' })).toMatch(/^status: put it into readings/);
    expect(refused({ readings: [{ at: at(1), page: '0011' }] })).toMatch(
      /^readings\.0\.page: there are 2 bytes/,
    );
  });
});
