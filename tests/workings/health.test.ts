/** Drive health against pages made a second way, and what must hold of every drive. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { health } from '#workings/health/index.ts';
import { workOut } from '#workings/working.ts';
import { anyAta, anyNvme, ataPage, hex, limitsPage, nvmePage, plain } from './health-pages.ts';
import { exact, figures, quiet, rank, refused, said, values, withCounter, worked } from './health-worked.ts';

describe('an NVMe health log', () => {
  const IDS = [
    'read-commands',
    'write-commands',
    'busy-minutes',
    'times-on',
    'hours-on',
    'unsafe-stops',
    'unmended-errors',
    'logged-errors',
  ];

  test('gives back every figure that a second encoder put in, to the last digit', () => {
    fc.assert(
      fc.property(anyNvme, page => {
        const read = values({ page: hex(nvmePage(page)), kind: 'nvme-log' });
        const [reads, writes, ...counters] = page.counters;
        expect(read['bytes-read']).toBe(exact(reads! * 512_000n));
        expect(read['bytes-written']).toBe(exact(writes! * 512_000n));
        IDS.forEach((id, place) => {
          expect(read[id]).toBe(exact(counters[place]!));
        });
        expect(read['life-used']).toBe(page.used);
        expect(read['spare-left']).toBe(page.spare);
        if (page.kelvin === 0) expect(read.temperature).toBe(null);
        else expect(read.temperature).toBeCloseTo(page.kelvin - 273.15, 9);
        page.sensors.forEach((kelvin, place) => {
          if (kelvin === 0) expect(read).not.toHaveProperty(`sensor-${place + 1}`);
          else expect(read[`sensor-${place + 1}`]).toBeCloseTo(kelvin - 273.15, 9);
        });
      }),
    );
  });

  test('is told from ATA data by itself', () => {
    fc.assert(
      fc.property(anyNvme, page => {
        expect(worked({ page: hex(nvmePage(page)) }).drives[0]!.kind).toBe('nvme-log');
      }),
    );
  });

  test.each([
    ['errors not mended', 8],
    ['unsafe stops', 7],
    ['log entries', 9],
  ])('with more %s is never judged better', (_, place) => {
    fc.assert(
      fc.property(fc.bigInt(0n, 1n << 127n), fc.bigInt(0n, 1n << 127n), (a, b) => {
        const [less, more] = a < b ? [a, b] : [b, a];
        expect(rank(withCounter(place, more))).toBeGreaterThanOrEqual(rank(withCounter(place, less)));
      }),
    );
  });

  test('with more wear, or less spare, or more warnings, is never judged better', () => {
    fc.assert(
      fc.property(fc.nat(255), fc.nat(255), fc.nat(63), fc.nat(63), (a, b, bits, more) => {
        const [low, high] = [Math.min(a, b), Math.max(a, b)];
        expect(rank(quiet({ used: high }))).toBeGreaterThanOrEqual(rank(quiet({ used: low })));
        const [spareLow, spareHigh] = [low % 101, high % 101].toSorted((x, y) => x - y);
        expect(rank(quiet({ spare: spareLow! }))).toBeGreaterThanOrEqual(rank(quiet({ spare: spareHigh! })));
        expect(rank(quiet({ warnings: bits | more }))).toBeGreaterThanOrEqual(
          rank(quiet({ warnings: bits })),
        );
      }),
    );
  });

  test('is watched when it is too cold as well as when it is too hot', () => {
    expect(worked(quiet({ kelvin: 310 })).verdict).toBe('nothing-reported');
    expect(worked(quiet({ kelvin: 263 })).drives[0]!.reasons[0]).toMatchObject({ points: 'heat' });
    expect(worked(quiet({ kelvin: 346 })).drives[0]!.reasons[0]).toMatchObject({ points: 'heat' });
    expect(worked({ ...quiet({ kelvin: 346 }), mostCelsius: 80 }).verdict).toBe('nothing-reported');
  });

  test('without a temperature, or with one that cannot be, is not called cold or hot', () => {
    expect(worked(quiet({ kelvin: 0 })).verdict).toBe('nothing-reported');
    expect(worked(quiet({ kelvin: 65_535 })).verdict).toBe('nothing-reported');
    expect(figures(quiet({ kelvin: 65_535 })).temperature).toMatchObject({ note: 'absurd' });
  });
});

describe('ATA data', () => {
  test('gives back every attribute that a second encoder put in', () => {
    fc.assert(
      fc.property(anyAta, attributes => {
        const { drives } = worked({ page: hex(ataPage(attributes)) });
        expect(drives[0]!.kind).toBe('ata-smart');
        const own = Object.values(drives[0]!.figures).map(({ own }) => own);
        expect(own).toEqual(attributes.map(({ now, worst }) => ({ now, worst, limit: null })));
        for (const { id, raw } of attributes.filter(each => ![9, 188, 190, 194].includes(each.id)))
          expect(
            Object.values(drives[0]!.figures).filter(({ value }) => value === raw).length,
            `${id}`,
          ).toBeGreaterThan(0);
      }),
    );
  });

  test('in which any byte changed is refused for its checksum, and named', () => {
    fc.assert(
      fc.property(anyAta, fc.nat(511), fc.integer({ min: 1, max: 255 }), (attributes, at, change) => {
        const bytes = ataPage(attributes);
        bytes[at] = (bytes[at]! + change) % 256;
        expect(refused({ page: hex(bytes), kind: 'ata-smart' })).toMatch(/^page: the checksum is wrong/);
      }),
    );
  });

  test('whose limits have a byte changed is refused for them', () => {
    const page = hex(ataPage([plain(5, 0)]));
    const limits = limitsPage([[5, 36]]);
    limits[3] = 10;
    expect(refused({ page, thresholds: hex(limits) })).toMatch(/^thresholds: the checksum is wrong/);
    expect(refused({ page, thresholds: page })).toMatch(/^thresholds: this is no page of limits/);
    expect(refused({ page: hex(limitsPage([[5, 36]])) })).toMatch(/^page: this is the page of limits/);
  });

  test.each([5, 10, 184, 187, 188, 196, 197, 198, 199, 174])(
    'with more in attribute %i is never judged better',
    id => {
      const page = (raw: number) => ({ page: hex(ataPage([plain(12, 40), plain(id, raw)])) });
      fc.assert(
        fc.property(
          fc.oneof(
            fc.nat(2 ** 17),
            fc.maxSafeNat().map(n => n % 2 ** 48),
          ),
          fc.oneof(
            fc.nat(20),
            fc.maxSafeNat().map(n => n % 2 ** 48),
          ),
          (a, b) => {
            expect(rank(page(Math.max(a, b)))).toBeGreaterThanOrEqual(rank(page(Math.min(a, b))));
          },
        ),
      );
    },
  );

  test('that falls on its own scale is never judged better', () => {
    const page = (now: number, flags: number) => ({
      page: hex(ataPage([{ id: 5, flags, now, worst: now, raw: 0 }])),
      thresholds: hex(limitsPage([[5, 36]])),
    });
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 253 }),
        fc.integer({ min: 1, max: 253 }),
        fc.nat(63),
        (a, b, flags) => {
          expect(rank(page(Math.min(a, b), flags))).toBeGreaterThanOrEqual(rank(page(Math.max(a, b), flags)));
        },
      ),
    );
  });

  test('that was past its limit once is not as good as new', () => {
    const page = hex(ataPage([{ id: 5, flags: 3, now: 90, worst: 30, raw: 0 }]));
    expect(worked({ page, thresholds: hex(limitsPage([[5, 36]])) }).verdict).toBe('act-soon');
    expect(worked({ page, thresholds: hex(limitsPage([[5, 0]])) }).verdict).toBe('nothing-reported');
  });

  test('that is only warm is not past its limit', () => {
    const page = hex(ataPage([{ id: 190, flags: 3, now: 40, worst: 40, raw: 60 }]));
    const { verdict, drives } = worked({ page, thresholds: hex(limitsPage([[190, 45]])) });
    expect(verdict).toBe('act-soon');
    expect(drives[0]!.reasons.map(({ points }) => points)).toEqual(['heat']);
  });

  test('keeps hours apart from what its maker packs above them', () => {
    const hours = (raw: number) => figures({ page: hex(ataPage([plain(9, raw)])) })['hours-on'];
    expect(hours(14_107 + 2 ** 32 * 3)).toMatchObject({ value: 14_107, note: 'packed' });
    expect(hours(14_107)).toMatchObject({ value: 14_107, note: null });
    expect(said({ page: hex(ataPage([plain(9, 254_189)])) })).toMatch(
      /254,189 hours.*cannot be: that is 29 years/,
    );
  });

  test('without a sensor is not frozen', () => {
    expect(figures({ page: hex(ataPage([plain(194, 0)])) }).temperature).toMatchObject({
      value: null,
      note: 'no-sensor',
    });
  });

  test('without attributes is no reading, unless it says something of itself', () => {
    expect(worked({ page: hex(ataPage([])) }).verdict).toBe('no-reading');
    expect(worked({ page: hex(ataPage([])), status: 'exceeded' }).verdict).toBe('past-its-limit');
    expect(worked({ page: hex(ataPage([], 7)) }).verdict).toBe('act-soon');
  });

  test('called by another kind is told what it is', () => {
    expect(refused({ page: hex(ataPage([plain(5, 0)])), kind: 'nvme-log' })).toBe(
      'kind: by its layout page is ata-smart; leave kind out',
    );
    expect(refused({ ...quiet({}), kind: 'ata-smart' })).toBe(
      'kind: by its layout page is nvme-log; leave kind out',
    );
    expect(refused({ ...quiet({}), thresholds: hex(limitsPage([[5, 1]])) })).toMatch(
      /^thresholds: an NVMe health log has none/,
    );
  });

  test('of which the bytes are swapped in pairs is refused: the sum alone would not notice', () => {
    const swapped = ataPage([plain(5, 0)]).map((_, place, all) => all[place ^ 1]!);
    expect(refused({ page: hex(swapped), kind: 'ata-smart' })).toMatch(/swapped in pairs/);
  });

  test.each([
    ['passed', 'nothing-reported'],
    ['0x4F 0xC2', 'nothing-reported'],
    ['c24f', 'nothing-reported'],
    ['LBA mid F4, LBA high 2C', 'past-its-limit'],
    ['exceeded', 'past-its-limit'],
    ['FF FF', 'no-reading'],
  ])('with the return status %s is judged %s', (status, verdict) => {
    expect(worked({ status }).verdict).toBe(verdict);
  });

  test('with a return status that is none is told which there are', () => {
    expect(refused({ status: '4F 2C' })).toMatch(/^status: give one of: passed, exceeded/);
  });
});

describe('what Windows counts', () => {
  const counters = {
    DeviceId: '0',
    Temperature: 35,
    TemperatureMax: 70,
    Wear: 1,
    ReadErrorsTotal: 4,
    ReadErrorsCorrected: 4,
    ReadErrorsUncorrected: 0,
    WriteErrorsTotal: null,
    PowerOnHours: 812,
  };
  const json = JSON.stringify([counters], null, 4);
  const list = Object.entries(counters)
    .map(([name, value]) => `${name.padEnd(24)}: ${value ?? ''}`)
    .join('\r\n');

  test.each([
    ['as it is', counters],
    ['in a list', [counters]],
    ['as counters', { counters }],
    ['wrapped by an older shell', { counters: { value: [counters], Count: 1 } }],
    ['as text', { page: json }],
    ['as text in counters', { counters: json }],
    ['as lines of a list', { page: list }],
    ['from a file of 16-bit letters', { counters: Buffer.from(`\ufeff${json}`, 'utf16le').toString('hex') }],
    ['from a file with a mark before it', { page: Buffer.from(`\ufeff${json}`).toString('hex') }],
  ])('is read alike %s', (_, input) => {
    expect(worked(input)).toEqual(worked({ counters }));
  });

  test('keeps null, empty and missing apart from zero', () => {
    fc.assert(
      fc.property(
        fc.constantFrom('Wear', 'ReadErrorsUncorrected', 'PowerOnHours', 'StartStopCycleCount'),
        fc.constantFrom(null, '', undefined),
        (name, nothing) => {
          const read = figures({ counters: { ...counters, [name]: nothing } });
          const zero = figures({ counters: { ...counters, [name]: 0 } });
          const of = (all: typeof read) => Object.values(all).filter(({ value }) => value === null).length;
          expect(of(read)).toBe(of(zero) + 1);
        },
      ),
    );
    expect(said({ counters: { ...counters, Wear: null } })).toContain('not reported');
  });

  test('with more errors is never judged better', () => {
    const names = [
      'ReadErrorsTotal',
      'ReadErrorsUncorrected',
      'WriteErrorsTotal',
      'WriteErrorsUncorrected',
      'Wear',
      'ReadLatencyMax',
      'LoadUnloadCycleCount',
    ];
    fc.assert(
      fc.property(
        fc.constantFrom(...names),
        fc.maxSafeNat(),
        fc.nat(300),
        fc.boolean(),
        (name, a, b, known) => {
          const of = (value: number) => ({
            counters: {
              Wear: 0,
              ReadErrorsUncorrected: known ? 0 : null,
              LoadUnloadCycleCountMax: 100,
              [name]: value,
            },
          });
          const most = name === 'Wear' ? 255 : Number.MAX_SAFE_INTEGER;
          const [less, more] = [Math.min(a % most, b % most), Math.max(a % most, b % most)];
          expect(rank(of(more))).toBeGreaterThanOrEqual(rank(of(less)));
        },
      ),
    );
  });

  test.each([
    [
      { ReadErrorsTotal: -1 },
      /^counters\.ReadErrorsTotal: -1 is below zero; give a whole number from 0, or null/,
    ],
    [{ Wear: 2.5 }, /^counters\.Wear: that is no whole number/],
    [{ Wear: 'much' }, /^counters\.Wear: that is no number/],
    [
      { ReadErrorsTotal: 2 ** 60 },
      /^counters\.ReadErrorsTotal: figures above 9007199254740991 are wanted in quotes/,
    ],
    [[counters, { ...counters, Wear: -3 }], /^counters\.1\.Wear: -3 is below zero/],
    [{ Health: 'good' }, /^counters: give what Get-StorageReliabilityCounter/],
    [[], /^counters: there is no drive in it/],
  ])('%j is refused, and the field is named', (given, why) => {
    expect(refused({ counters: given })).toMatch(why);
  });

  test('that says nothing of errors is no reading, whatever its temperature', () => {
    expect(worked({ counters: { Temperature: 30, PowerOnHours: 10 } }).verdict).toBe('no-reading');
    expect(worked({ counters: {} }).verdict).toBe('no-reading');
    expect(said({ counters: {} })).toContain('adapter');
  });
});

test('nothing reported is never called healthy, and no reading never nothing', () => {
  const everything = [quiet({}), { status: 'passed' }, { page: '00'.repeat(512) }, { counters: {} }];
  for (const input of everything) {
    expect(said(input)).not.toMatch(/\b(is|looks|seems) (healthy|fine|good|ok)\b/i);
    expect(said(input)).toMatch(/does not make it healthy|No reading/);
  }
});

test('a cable, a power cut or heat is not answered with a new drive', () => {
  const cable = said({ page: hex(ataPage([plain(5, 0), plain(199, 12)])) });
  expect(cable).toContain('not the drive');
  expect(cable).not.toMatch(/replace it|plan to replace/);
  const told = workOut(health, { page: hex(ataPage([plain(199, 12)])) });
  expect(told.ok && told.told.cautions?.join(' ')).toContain('whom your site allows it');
  expect(said(withCounter(7, 300n))).not.toMatch(/replace it/);
  expect(said(quiet({ warnings: 2 }))).not.toMatch(/replace it/);
});
