/**
 * What the firmware tries, in order, and how each try ends. UEFI Specification, chapter 3 "Boot Manager": BootNext first and once,
 * then BootOrder; only active options of the boot category; a default file name where none is named; a partition is looked for on
 * every drive; a file alone on removable media first, then on fixed ones; the same for the default file when nothing has started.
 */
import { type EndName, endOf } from './ends.ts';
import {
  canTakeOut,
  DEFAULT_FILE,
  type Device,
  type Entry,
  type Loader,
  loadersOf,
  type Machine,
  modeOf,
  NO_TIMEOUT,
  orderOf,
} from './machine.ts';

export interface Try {
  /** `once`: by BootNext; `list`: by the start list; `default`: by looking for the default file. */
  by: 'once' | 'list' | 'default';
  entry: string | null;
  device: string | null;
  end: EndName;
  /** More than one drive holds the partition that is named; which one is taken is not defined, here it is the first. */
  ambiguous: boolean;
}

export interface Tries {
  tries: Try[];
  /** The try with which it came to an end, by starting something or with a message. */
  last: Try | null;
  /** The firmware's own menu is shown. */
  menu: boolean;
}

/** One place to look, and how that ends. */
interface Place {
  device: string | null;
  end: EndName;
  ambiguous?: boolean;
}

export function triesOf(machine: Machine): Tries {
  const tries: Try[] = [];
  if (machine.timeoutSeconds === NO_TIMEOUT) return { tries, last: null, menu: true };
  for (const { by, entry, places } of plannedTries(machine)) {
    for (const { device, end, ambiguous = false } of places) {
      const one: Try = { by, entry, device, end, ambiguous };
      tries.push(one);
      const { goes } = endOf(end);
      if (goes === 'starts' || goes === 'stops') return { tries, last: one, menu: false };
      if (end === 'returns' && machine.interactive) return { tries, last: null, menu: true };
    }
  }
  return { tries, last: null, menu: false };
}

function plannedTries(machine: Machine): { by: Try['by']; entry: string | null; places: Place[] }[] {
  const listed = (entry: string, by: 'once' | 'list') => ({
    by,
    entry,
    places: placesFor(entry, by, machine),
  });
  return [
    ...(machine.bootNext === undefined ? [] : [listed(machine.bootNext, 'once')]),
    ...orderOf(machine).map(entry => listed(entry, 'list')),
    ...(machine.firmware === 'legacy' || !machine.defaultSearch
      ? []
      : [{ by: 'default' as const, entry: null, places: everywhere(undefined, machine) }]),
  ];
}

function placesFor(entryName: string, by: 'once' | 'list', machine: Machine): Place[] {
  const entry = machine.entries.find(({ name }) => name === entryName);
  const skipped = entry === undefined ? 'no-entry' : skippedAs(entry, by, machine);
  if (entry === undefined || skipped !== null) return [{ device: entry?.device ?? null, end: skipped! }];
  if (modeOf(entry, machine) === 'legacy') return [legacyPlace(entry.device!, machine)];
  if (entry.device !== undefined) return [namedPlace(entry, entry.device, machine)];
  if (entry.partition !== undefined) return [partitionPlace(entry, machine)];
  const places = everywhere(entry.file, machine);
  // Nowhere to look is a try, too.
  return places.length > 0 ? places : [{ device: null, end: 'no-file' }];
}

function skippedAs(entry: Entry, by: 'once' | 'list', machine: Machine): EndName | null {
  const mode = modeOf(entry, machine);
  if (!entry.active) return 'inactive';
  if (entry.category === 'reserved') return 'reserved';
  // Who asks for it once has chosen it; the list is for systems.
  if (entry.category === 'app' && by === 'list') return 'app';
  if (machine.firmware !== 'uefi-with-legacy' && mode !== machine.firmware) return 'other-mode';
  return mode === 'legacy' && machine.secureStart ? 'legacy-barred' : null;
}

function legacyPlace(name: string, { devices }: Machine): Place {
  const device = devices.find(each => each.name === name);
  if (device === undefined) return { device: name, end: 'not-attached' };
  if (device.state !== 'works') return { device: name, end: device.state };
  const silent = device.kind === 'network' && device.firstSector === 'none';
  return { device: name, end: silent ? 'no-answer' : device.firstSector };
}

function namedPlace({ partition, file }: Entry, name: string, machine: Machine): Place {
  const device = machine.devices.find(each => each.name === name);
  if (device === undefined) return { device: name, end: 'not-attached' };
  if (device.state !== 'works') return { device: name, end: device.state };
  const loaders = loadersOf(device);
  // A server hands out what it has; the entry names no file of it.
  if (device.kind === 'network') return { device: name, end: endWith(loaders[0], 'no-answer', machine) };
  const there = loaders.filter(each => partition === undefined || each.partition === partition);
  if (there.length === 0 && partition !== undefined) return { device: name, end: 'no-partition' };
  return { device: name, end: endWith(named(file, there, machine), 'no-file', machine) };
}

function partitionPlace({ partition, file }: Entry, machine: Machine): Place {
  const holding = machine.devices.flatMap(device => {
    const there = readable(device) ? loadersOf(device).filter(each => each.partition === partition) : [];
    return there.length > 0 ? [{ device: device.name, there }] : [];
  });
  const first = holding[0];
  if (first === undefined) return { device: null, end: 'no-partition' };
  const end = endWith(named(file, first.there, machine), 'no-file', machine);
  return { device: first.device, end, ambiguous: holding.length > 1 };
}

/** Removable media, then fixed ones; within each the order is not defined, here it is as listed. */
function everywhere(file: string | undefined, machine: Machine): Place[] {
  const media = machine.devices.filter(readable);
  return [...media.filter(canTakeOut), ...media.filter(device => !canTakeOut(device))].map(device => ({
    device: device.name,
    end: endWith(named(file, loadersOf(device), machine), 'no-file', machine),
  }));
}

const readable = ({ kind, state }: Device): boolean => kind !== 'network' && state === 'works';

function named(
  file: string | undefined,
  loaders: readonly Loader[],
  { architecture }: Machine,
): Loader | undefined {
  const wanted = samePath(file ?? DEFAULT_FILE[architecture]);
  return loaders.find(each => samePath(each.file) === wanted);
}

/** The file system of a start partition knows no capitals. */
const samePath = (file: string): string =>
  `\\${file.replace(/[/\\]+/g, '\\').replace(/^\\/, '')}`.toUpperCase();

function endWith(loader: Loader | undefined, otherwise: EndName, { secureStart }: Machine): EndName {
  if (loader === undefined) return otherwise;
  return secureStart && !loader.signed ? 'not-signed' : loader.leadsTo;
}
