/** What is told of a machine: its firmware, its start list, and what is attached. */
import { z } from 'zod';
import { oneOf, whole } from '../working.ts';
import { SECTOR_ENDS } from './ends.ts';

/** `uefi-with-legacy`: UEFI that also starts the old way, often called legacy support. */
export const FIRMWARE = ['uefi', 'legacy', 'uefi-with-legacy'] as const;

/** File name where none is named, by machine. UEFI Specification, table "UEFI Image Types". */
export const DEFAULT_FILE = {
  x64: '\\EFI\\BOOT\\BOOTx64.EFI',
  ia32: '\\EFI\\BOOT\\BOOTIA32.EFI',
  arm: '\\EFI\\BOOT\\BOOTARM.EFI',
  aa64: '\\EFI\\BOOT\\BOOTAA64.EFI',
} as const;

/** All but the inside drive and the network can be taken out. */
const KINDS = ['internal', 'external', 'stick', 'card', 'disc', 'dock', 'network'] as const;

/** Waits for the person for ever. */
export const NO_TIMEOUT = 65_535;

const name = (what: string) =>
  z
    .string({ error: `give ${what}` })
    .trim()
    .min(1, `give ${what}`)
    .max(60, 'give at most 60 characters');
const file = z
  .string({ error: 'give a path such as \\EFI\\BOOT\\BOOTX64.EFI' })
  .trim()
  .min(1, 'give a path such as \\EFI\\BOOT\\BOOTX64.EFI')
  .max(200, 'give at most 200 characters');
const flag = z.boolean({ error: 'give true or false' });

/** "Boot" and a number has exactly four digits, in capitals: the firmware knows no other. */
const entryName = name('the name of an entry').refine(
  text => !/^boot(?=.*\d)[0-9a-f]+$/i.test(text) || /^Boot[0-9A-F]{4}$/.test(text),
  'give Boot and four digits 0-9 or A-F in capitals, such as Boot0A02, or a name of your own',
);

const entry = z.strictObject({
  name: entryName,
  /** Where it starts from; one of the three is named. A legacy entry names a device, and only that counts. */
  device: name('the name of a device').optional(),
  partition: name('the partition, as its identifier or a name').optional(),
  /** The default file name of the machine when not named. */
  file: file.optional(),
  active: flag.default(true),
  /** From the menu only: it is tried like any other. */
  hidden: flag.default(false),
  category: oneOf(['boot', 'app', 'reserved']).default('boot'),
  /** As the firmware when not said. */
  mode: oneOf(['uefi', 'legacy']).optional(),
});

const loader = z.strictObject({
  file,
  partition: name('the partition, as its identifier or a name').optional(),
  signed: flag.default(true),
  /** What comes of it. `returns`: it ends well and gives control back; `fails`: with an error. */
  leadsTo: oneOf(['starts', 'returns', 'fails', 'no-system', 'system-unreadable', 'asks-key']).default(
    'starts',
  ),
});

const device = z.strictObject({
  name: name('the name of a device'),
  kind: oneOf(KINDS),
  /** `disabled`: it or its port is switched off in the firmware setup. */
  state: oneOf(['works', 'unreadable', 'disabled']).default('works'),
  /** UEFI loaders on it, as paths or with more said of them; of the network, what a server hands out. */
  loaders: z
    .array(z.union([file, loader], { error: 'give a path, or file, partition, signed and leadsTo' }), {
      error: 'give a list of loaders',
    })
    .max(20, 'give at most 20')
    .default([]),
  /** What its first sector leads to in legacy start; `none`: it does not end in 55 AA. */
  firstSector: oneOf(SECTOR_ENDS).default('none'),
});

export const machine = z.strictObject({
  firmware: oneOf(FIRMWARE).default('uefi'),
  architecture: oneOf(['x64', 'ia32', 'arm', 'aa64']).default('x64'),
  /** Only signed loaders start. */
  secureStart: flag.default(false),
  entries: z
    .array(entry, { error: 'give a list of entries, each with name and device' })
    .max(50, 'give at most 50'),
  /** Names of entries, first tried first; as listed when not given, and none when empty. */
  order: z
    .array(name('the name of an entry'), { error: 'give a list of names of entries' })
    .max(50, 'give at most 50')
    .optional(),
  /** Tried once, before the list. */
  bootNext: name('the name of an entry').optional(),
  devices: z
    .array(device, { error: 'give a list of what is attached, each with name and kind' })
    .max(30, 'give at most 30'),
  /** The device that should start; the first inside drive when not given. */
  wanted: name('the name of a device').optional(),
  /** Does the firmware look for default files when its list is through, as the specification asks? */
  defaultSearch: flag.default(true),
  /** Does the firmware show its menu when a loader gives control back? */
  interactive: flag.default(false),
  timeoutSeconds: whole('seconds, from 0 to 65535, which is for ever', 0, NO_TIMEOUT).default(0),
  encryption: oneOf(['on', 'suspended', 'off', 'not-sure']).default('not-sure'),
});
export type Machine = z.infer<typeof machine>;
export type Entry = Machine['entries'][number];
export type Device = Machine['devices'][number];
export type Loader = z.infer<typeof loader>;

export const loadersOf = ({ loaders }: Device): Loader[] =>
  loaders.map(each =>
    typeof each === 'string' ? { file: each, signed: true, leadsTo: 'starts' as const } : each,
  );

export const modeOf = ({ mode }: Entry, { firmware }: Machine): 'uefi' | 'legacy' =>
  mode ?? (firmware === 'legacy' ? 'legacy' : 'uefi');

export const orderOf = ({ order, entries }: Machine): string[] => order ?? entries.map(entry => entry.name);

export const canTakeOut = ({ kind }: Device): boolean => kind !== 'internal' && kind !== 'network';

export const wantedOf = ({ wanted, devices }: Machine): string | null =>
  wanted ?? devices.find(({ kind }) => kind === 'internal')?.name ?? null;
