/**
 * The one change that mends a start. Every change is tried on the machine as it was told, the gentlest first, and the first one
 * after which the right device starts is named. What no change can show is judged by the state of that device.
 */
import {
  canTakeOut,
  type Device,
  type Entry,
  FIRMWARE,
  loadersOf,
  type Machine,
  NO_TIMEOUT,
  orderOf,
  wantedOf,
} from './machine.ts';
import { triesOf } from './tries.ts';

export const CHANGES = [
  'none',
  'take-out',
  'take-out-all',
  'start-again',
  'enable-entry',
  'put-first',
  'add-entry',
  'set-timeout',
  'switch-on',
  'change-mode',
  'secure-start-off',
  'find-drive',
  'save-data',
  'find-key',
  'mark-active',
  'mend-loader',
] as const;
export type Change = (typeof CHANGES)[number];

export interface Mend {
  change: Change;
  /** The entry, the device or the mode that it is about. */
  target: string | null;
  /** Was it tried here, and did the right device start? */
  tried: boolean;
}

export function mendOf(machine: Machine): Mend {
  const wanted = wantedOf(machine);
  if (startsOf(machine) === wanted && wanted !== null) return { change: 'none', target: null, tried: true };
  const device = machine.devices.find(({ name }) => name === wanted);
  if (device === undefined) return { change: 'find-drive', target: wanted, tried: false };
  for (const { change, target, after, by } of changes(machine, device))
    if (startsOf(after, by) === wanted) return { change, target, tried: true };
  return { ...judged(machine, device), target: device.name, tried: false };
}

/** The device that starts, if one does, and by that entry, if one is asked for. */
function startsOf(machine: Machine, by?: string): string | null {
  const { last } = triesOf(machine);
  return last?.end === 'starts' && (by === undefined || last.entry === by) ? last.device : null;
}

interface Changed {
  change: Change;
  target: string | null;
  after: Machine;
  /** The entry that must do it, so that no change is praised for what a side effect of it does. */
  by?: string;
}

/** The gentlest first: hands off the settings, then settings, then what weakens or rebuilds the start. */
function* changes(machine: Machine, wanted: Device): Generator<Changed> {
  const { devices, entries } = machine;
  const inTheWay = devices.filter(device => canTakeOut(device) && device !== wanted);
  const without = (out: readonly Device[]) => ({
    ...machine,
    devices: devices.filter(each => !out.includes(each)),
  });
  for (const device of inTheWay) yield { change: 'take-out', target: device.name, after: without([device]) };
  yield { change: 'take-out-all', target: null, after: without(inTheWay) };
  const { bootNext: _used, ...again } = machine;
  yield { change: 'start-again', target: null, after: again };
  for (const { name, active } of entries)
    if (!active) {
      const after = entries.map(each => (each.name === name ? { ...each, active: true } : each));
      yield { change: 'enable-entry', target: name, after: { ...machine, entries: after } };
    }
  for (const { name } of entries) yield { change: 'put-first', target: name, after: first(machine, name) };
  for (const entry of entriesFor(wanted, machine.firmware))
    yield { change: 'add-entry', target: wanted.name, after: withEntry(machine, entry), by: entry.name };
  if (machine.timeoutSeconds === NO_TIMEOUT)
    yield { change: 'set-timeout', target: null, after: { ...machine, timeoutSeconds: 5 } };
  if (wanted.state === 'disabled') {
    const after = devices.map(each => (each === wanted ? { ...each, state: 'works' as const } : each));
    yield { change: 'switch-on', target: wanted.name, after: { ...machine, devices: after } };
  }
  for (const firmware of FIRMWARE.toSorted(legacyLast)) {
    const secureStart = machine.secureStart && firmware === 'uefi';
    const other = machine.firmware === 'legacy' ? 'uefi' : 'legacy';
    if (machine.firmware === 'uefi-with-legacy' || firmware === machine.firmware) continue;
    for (const entry of entriesFor(wanted, firmware).filter(({ mode }) => mode === other))
      yield {
        change: 'change-mode',
        target: firmware,
        after: withEntry({ ...again, firmware, secureStart }, entry),
        by: entry.name,
      };
  }
  if (machine.secureStart)
    yield {
      change: 'secure-start-off',
      target: wanted.name,
      after: { ...machine, secureStart: false },
    };
}

const legacyLast = (one: string, other: string): number =>
  Number(one === 'legacy') - Number(other === 'legacy');

const first = (machine: Machine, name: string): Machine => ({
  ...machine,
  order: [name, ...orderOf(machine).filter(each => each !== name)],
});

/** Entries that would name what the device holds, in the modes that the firmware knows. */
function entriesFor(device: Device, firmware: Machine['firmware']): Entry[] {
  const made = { device: device.name, active: true, hidden: false, category: 'boot' as const };
  const uefi = loadersOf(device).map(({ file, partition }) => ({
    ...made,
    name: `new entry for ${file}`,
    file,
    partition,
    mode: 'uefi' as const,
  }));
  const legacy = { ...made, name: `new entry for ${device.name}`, mode: 'legacy' as const };
  return [...(firmware === 'legacy' ? [] : uefi), ...(firmware === 'uefi' ? [] : [legacy])];
}

const withEntry = (machine: Machine, entry: Entry): Machine => ({
  ...first(machine, entry.name),
  entries: [entry, ...machine.entries],
});

/** No change here makes it start: what is it about the device? */
function judged({ firmware }: Machine, device: Device): { change: Change } {
  const led = loadersOf(device).map(({ leadsTo }) => leadsTo);
  const ends = [...(firmware === 'legacy' ? [] : led), ...(firmware === 'uefi' ? [] : [device.firstSector])];
  if (device.state === 'disabled') return { change: 'switch-on' };
  if (
    device.state === 'unreadable' ||
    ends.some(end => end === 'system-unreadable' || end === 'record-unreadable')
  )
    return { change: 'save-data' };
  if (ends.includes('asks-key')) return { change: 'find-key' };
  return { change: ends.includes('no-active') && led.length === 0 ? 'mark-active' : 'mend-loader' };
}
