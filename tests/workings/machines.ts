/** Machines for the tests of start order: told by hand, or any there may be. */
import fc from 'fast-check';
import { SECTOR_ENDS } from '#workings/boot-order/ends.ts';
import { type BootOrderOutput, bootOrder } from '#workings/boot-order/index.ts';
import { workOut } from '#workings/working.ts';

export const DEFAULT = '\\EFI\\BOOT\\BOOTX64.EFI';

export interface Device {
  name: string;
  kind: string;
  state?: string;
  loaders?: (string | { file: string; partition?: string; signed?: boolean; leadsTo?: string })[];
  firstSector?: string;
}
export interface Entry {
  name: string;
  device?: string;
  partition?: string;
  file?: string;
  active?: boolean;
  hidden?: boolean;
  category?: string;
  mode?: string;
}
export interface Machine {
  firmware?: string;
  secureStart?: boolean;
  entries: Entry[];
  order?: string[];
  bootNext?: string;
  devices: Device[];
  wanted?: string;
  defaultSearch?: boolean;
  interactive?: boolean;
  timeoutSeconds?: number;
  encryption?: string;
}

export const done = (machine: Machine) => {
  const worked = workOut(bootOrder, machine);
  if (!worked.ok) throw new Error(worked.why);
  return worked;
};
export const result = (machine: Machine): BootOrderOutput => done(machine).output;

const PATHS = [DEFAULT, '\\EFI\\a\\a.efi'];
const NAMES = ['drive', 'other', 'stick', 'disc', 'net'];
const loader = fc.record(
  {
    file: fc.constantFrom(...PATHS),
    partition: fc.constantFrom('p', 'q'),
    signed: fc.boolean(),
    leadsTo: fc.constantFrom(
      'starts',
      'starts',
      'starts',
      'returns',
      'fails',
      'no-system',
      'system-unreadable',
      'asks-key',
    ),
  },
  { requiredKeys: ['file'] },
);
const device = (name: string, kind: string) =>
  fc.record(
    {
      name: fc.constant(name),
      kind: fc.constant(kind),
      state: fc.constantFrom('works', 'works', 'works', 'unreadable', 'disabled'),
      loaders: fc.array(loader, { maxLength: 2 }),
      firstSector: fc.constantFrom(...SECTOR_ENDS, 'starts', 'none'),
    },
    { requiredKeys: ['name', 'kind'] },
  );
const entry = (name: string) =>
  fc
    .record(
      {
        name: fc.constant(name),
        device: fc.constantFrom(...NAMES, 'gone'),
        partition: fc.constantFrom('p', 'q'),
        file: fc.constantFrom(...PATHS),
        active: fc.boolean(),
        hidden: fc.boolean(),
        category: fc.constantFrom('boot', 'boot', 'app', 'reserved'),
        mode: fc.constantFrom('uefi', 'legacy'),
      },
      { requiredKeys: ['name'] },
    )
    .map(one => (one.mode === 'legacy' || Object.keys(one).length === 1 ? { device: 'drive', ...one } : one))
    .map(one => ('device' in one || 'partition' in one || 'file' in one ? one : { ...one, file: DEFAULT }));
export const someMachine: fc.Arbitrary<Machine> = fc
  .record(
    {
      firmware: fc.constantFrom('uefi', 'uefi', 'uefi-with-legacy', 'legacy'),
      secureStart: fc.boolean(),
      entries: fc.tuple(entry('Boot0000'), entry('Boot0001'), entry('Boot0A02')),
      order: fc.subarray(['Boot0A02', 'Boot0000', 'Boot0001', 'Boot00FF']),
      bootNext: fc.constantFrom('Boot0000', 'Boot0A02', 'Boot00FF'),
      devices: fc
        .tuple(
          device('drive', 'internal'),
          device('other', 'internal'),
          device('stick', 'stick'),
          device('disc', 'disc'),
          device('net', 'network'),
        )
        .chain(all => fc.shuffledSubarray(all, { minLength: 1 })),
      defaultSearch: fc.boolean(),
      interactive: fc.boolean(),
      timeoutSeconds: fc.constantFrom(0, 5, 5, 5, 65_535),
      encryption: fc.constantFrom('on', 'off', 'suspended', 'not-sure'),
    },
    { requiredKeys: ['entries', 'devices'] },
  )
  .map(({ bootNext, secureStart, ...rest }) =>
    rest.firmware === 'legacy'
      ? {
          ...rest,
          entries: rest.entries.map(each => ({ device: 'drive', ...each })),
        }
      : {
          ...rest,
          ...(bootNext === undefined ? {} : { bootNext }),
          ...(secureStart === undefined ? {} : { secureStart }),
        },
  );
export const always = (
  holds: (machine: Machine, output: BootOrderOutput) => void,
  numRuns = 1500,
  fixed: { seed?: number } = {},
) =>
  fc.assert(
    fc.property(someMachine, machine => holds(machine, result(machine))),
    { numRuns, ...fixed },
  );
