/** What the tests' screens show: messages of the catalogue as a screen words them, and screens that show none. */

export type Style = 'firmware' | 'console' | 'blue' | 'dialog';

export interface Shown {
  /** Of the catalogue, or null where nothing is to be recognised. */
  id: string | null;
  style: Style;
  /** What it may be taken for as well: other words of the same screen. */
  same?: string[];
  /** Lines as they stand; dialogs and blue screens break them anew. */
  lines: string[];
}

const of =
  (style: Style) =>
  (id: string | null, ...lines: string[]): Shown => ({ id, style, lines });
const [firmware, text, blue, dialog] = [of('firmware'), of('console'), of('blue'), of('dialog')];

/** What stands above a message on a start-up screen. */
const MEMORY = ['System firmware 2.14, built 08/19', 'Memory test: 16384 MB OK', ''];
const DEVICES = ['Detecting devices ...', '  Port 0: none', '  Port 1: optical unit', ''];
const TIMES = (line: string) => `[    4.${line.length}1320] ${line}`;

export const SHOWN: readonly Shown[] = [
  firmware('disk-read-error', ...MEMORY, 'A disk read error occurred', 'Press Ctrl+Alt+Del to restart'),
  firmware('no-boot-device', ...MEMORY, 'No bootable device -- insert boot disk and press any key'),
  firmware(
    'select-boot-device',
    ...MEMORY,
    'Reboot and Select proper Boot device',
    'or Insert Boot Media in selected Boot device and press a key',
  ),
  firmware('disk-boot-failure', ...DEVICES, 'DISK BOOT FAILURE, INSERT SYSTEM DISK AND PRESS ENTER'),
  firmware('hard-disk-error', ...DEVICES, '3rd Master Hard Disk Error', 'Press F1 to Resume'),
  firmware('no-operating-system', ...MEMORY, 'Missing operating system'),
  firmware(
    'smart-bad',
    ...DEVICES,
    'Port 2: S.M.A.R.T. Status Bad, Backup and Replace',
    'Press F1 to Resume',
  ),
  firmware(
    'network-boot',
    ...DEVICES,
    'PXE-E61: Media test failure, check cable',
    'PXE-M0F: Exiting PXE ROM.',
  ),
  firmware('bootmgr-missing', ...MEMORY, 'BOOTMGR is missing', 'Press Ctrl+Alt+Del to restart'),
  firmware(
    'array-offline',
    ...DEVICES,
    'Virtual disk 1: offline',
    'Virtual disk is offline. Press C to continue',
  ),
  text('grub', 'error: no such partition.', 'Entering rescue mode...', 'grub rescue> _'),
  text(
    'linux-io-error',
    ...[
      'ata2: EH complete',
      'Buffer I/O error on dev sdb1, logical block 2, async page read',
      'audit: backlog limit 64',
    ].map(TIMES),
  ),
  text('error-53', 'C:\\Users\\ada>net use S:', 'System error 53 has occurred.', '', 'C:\\Users\\ada>_'),
  blue(
    'inaccessible-boot-device',
    'Your PC ran into a problem and needs to restart.',
    "We're just collecting some error info, and then we'll restart for you.",
    '20% complete',
    'Stop code: INACCESSIBLE_BOOT_DEVICE',
  ),
  blue(
    'inpage-error',
    'Your PC ran into a problem and needs to restart.',
    'If you call a support person, give them this info:',
    'Stop code: KERNEL_DATA_INPAGE_ERROR',
  ),
  blue(
    'required-device-missing',
    'Recovery',
    "Your PC couldn't start properly",
    "A required device isn't connected or can't be accessed.",
    'Error code: 0xc000000e',
  ),
  blue(
    'recovery-key',
    'BitLocker recovery',
    'Enter the recovery key for this drive',
    'Recovery key ID (to identify your key): 5B2C9F4E-77D1-4A60-9C3B-0E8812AF6D01',
  ),
  dialog(
    'needs-format',
    'You need to format the disk in drive E: before you can use it.',
    'Do you want to format it?',
  ),
  dialog(
    'write-protected',
    'The disk is write-protected.',
    'Remove the write-protection or use another disk.',
  ),
  dialog(
    'network-path',
    'Windows cannot access \\\\files01\\projects',
    'Error code: 0x80070035',
    'The network path was not found.',
  ),
  dialog('no-space', 'There is not enough space on the disk. 412 MB are needed to copy these items.'),
  dialog(
    'usb-not-recognised',
    'USB device not recognized',
    'The last USB device you connected to this computer malfunctioned, and Windows does not recognize it.',
  ),
];

/** Pictures that are sent all the same. Nothing is to be read into them. */
export const NOTHING: readonly Shown[] = [
  firmware(null, ...MEMORY, ...DEVICES, 'Starting ...'),
  dialog(null, 'The update is ready. Restart now or tonight?'),
  text(null, 'MODEL 4K-220 16 TB', 'S/N 8WD0K2Z1', '5V 0.7A  12V 0.9A', 'Made in 2021'),
  dialog(null, 'Meeting moved to 14:30, room 2.11. The drive there takes about 20 minutes.'),
  blue(null, 'Working on updates', '64% complete', "Don't turn off your computer"),
];
