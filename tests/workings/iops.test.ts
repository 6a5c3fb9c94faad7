/** Rates of one large file, whatever the drive and its connection. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { iops } from '#workings/iops/index.ts';
import { THROUGH } from '#workings/iops/sequential.ts';
import { workOut } from '#workings/working.ts';

const CLASSES = ['spinning', 'sata-solid-state', 'nvme-solid-state', 'usb-stick', 'unknown'] as const;
const WORSE: Record<string, number> = {
  'very-slow': 0,
  'like-usb-2': 1,
  slow: 1,
  'as-expected': 2,
  'faster-than-expected': 3,
};

const verdictOf = (input: unknown): string => {
  const done = workOut(iops, input);
  if (!done.ok) throw new Error(done.why);
  return done.verdict;
};
const drive = fc.record({
  class: fc.constantFrom(...CLASSES),
  link: fc.option(fc.constantFrom(...THROUGH), { nil: undefined }),
});
const rate = fc.oneof(
  fc.double({ min: 0, max: 100, noNaN: true }),
  fc.double({ min: 0, max: 20_000, noNaN: true }),
);

test('a slower copy is never judged better', () => {
  fc.assert(
    fc.property(drive, rate, rate, (given, one, other) => {
      const [slower, faster] = [one, other]
        .toSorted((a, b) => a - b)
        .map(measuredMBps => WORSE[verdictOf({ ...given, measuredMBps })]!);
      expect(slower).toBeLessThanOrEqual(faster!);
    }),
    { numRuns: 2000 },
  );
});

test('nothing that USB 2.0 would explain makes a drive on an unknown USB suspect', () => {
  fc.assert(
    fc.property(
      fc.constantFrom(...CLASSES),
      fc.double({ min: 20, max: 40, noNaN: true }),
      (kind, measuredMBps) => {
        expect(verdictOf({ class: kind, link: 'usb', measuredMBps })).toBe('like-usb-2');
      },
    ),
  );
});

test('whatever stores is suspect below two megabytes a second', () => {
  fc.assert(
    fc.property(
      drive.filter(({ link }) => link !== 'remote-access'),
      fc.double({ min: 0, max: 1.99, noNaN: true }),
      (given, measuredMBps) => {
        expect(verdictOf({ ...given, measuredMBps })).toBe('very-slow');
      },
    ),
  );
});
