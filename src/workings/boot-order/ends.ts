/** How a try ends, what follows from it, and what people then report. Words are our own; firmware has its own. */

/**
 * Legacy ends: no 55 AA, or no partition active, and the boot code gives back (Plug and Play BIOS Specification 1.0A, 3.6); more
 * than one active, a boot record that cannot be read or that has no 55 AA, and the boot code says so and stops (Mueller, Upgrading
 * and Repairing PCs, "MBR Boot Error Messages").
 */
export const SECTOR_ENDS = [
  'none',
  'no-active',
  'data-disk',
  'two-active',
  'record-unreadable',
  'record-unsigned',
  'loader-missing',
  'no-system',
  'system-unreadable',
  'asks-key',
  'starts',
] as const;

export const SYMPTOMS = ['boot-no-device', 'boot-no-os', 'boot-read-error', 'boot-recovery-key'] as const;
type Symptom = (typeof SYMPTOMS)[number];

interface End {
  /** `skipped`: not even tried; `next`: the next one is tried. */
  goes: 'skipped' | 'next' | 'stops' | 'starts';
  says: string;
  /** Of a message that stands there. */
  symptom?: Symptom;
}

export const ENDS = {
  inactive: { goes: 'skipped', says: 'the entry is switched off' },
  app: { goes: 'skipped', says: 'a tool, which is started by hand only' },
  reserved: { goes: 'skipped', says: 'an entry of a reserved kind, which is ignored' },
  'other-mode': { goes: 'skipped', says: 'an entry for the other start mode' },
  'no-entry': { goes: 'skipped', says: 'the list names it, and there is no such entry' },
  'legacy-barred': { goes: 'skipped', says: 'secure start bars the legacy way' },
  'not-attached': { goes: 'next', says: 'its device is not attached, or not seen' },
  disabled: { goes: 'next', says: 'the device or its port is switched off in the firmware setup' },
  unreadable: { goes: 'next', says: 'the device cannot be read' },
  'no-partition': { goes: 'next', says: 'the partition that it names is not there' },
  'no-file': { goes: 'next', says: 'there is no loader of that name' },
  'no-answer': { goes: 'next', says: 'no server answers' },
  'not-signed': {
    goes: 'next',
    says: 'secure start refuses the loader, whose signature it does not trust; many firmwares say so first',
  },
  returns: { goes: 'next', says: 'the loader ends and gives control back' },
  fails: { goes: 'next', says: 'the loader gives up with an error' },
  none: { goes: 'next', says: 'the first sector does not end in 55 AA: nothing to start' },
  'no-active': { goes: 'next', says: 'no partition is active, so the boot code gives back' },
  'data-disk': {
    goes: 'stops',
    says: 'it is formatted for data: it only says that it is no system disk and waits for a key',
    symptom: 'boot-no-device',
  },
  'two-active': {
    goes: 'stops',
    says: 'more than one partition is active: the boot code calls the partition table invalid',
    symptom: 'boot-no-os',
  },
  'record-unreadable': {
    goes: 'stops',
    says: 'the boot record of the active partition cannot be read',
    symptom: 'boot-read-error',
  },
  'record-unsigned': {
    goes: 'stops',
    says: 'the boot record of the active partition does not end in 55 AA: the system is called missing',
    symptom: 'boot-no-os',
  },
  'loader-missing': {
    goes: 'stops',
    says: 'the boot record does not find the loader that it needs',
    symptom: 'boot-no-os',
  },
  'no-system': {
    goes: 'stops',
    says: 'the loader runs and finds no system, or no configuration that names one',
    symptom: 'boot-no-os',
  },
  'system-unreadable': {
    goes: 'stops',
    says: 'the loader runs and cannot read the system',
    symptom: 'boot-read-error',
  },
  'asks-key': { goes: 'stops', says: 'the recovery key is asked for', symptom: 'boot-recovery-key' },
  starts: { goes: 'starts', says: 'starts' },
} as const satisfies Record<string, End>;
export type EndName = keyof typeof ENDS;
export const endOf = (end: EndName): End => ENDS[end];
