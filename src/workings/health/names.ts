/** What the figures are called, in the trade's plain words, and which of them only ever rise. */

interface Named {
  name: string;
  unit?: string;
  /** Goes up and down; the others count. */
  level?: true;
}

const NAMES: Record<string, Named> = {
  'hours-on': { name: 'Time switched on', unit: 'hours' },
  'times-on': { name: 'Times switched on' },
  'unsafe-stops': { name: 'Power losses without warning' },
  'power-parkings': { name: 'Head parkings when the power went' },
  temperature: { name: 'Temperature', unit: '°C', level: true },
  'temperature-limit': { name: 'Warmest it may run', unit: '°C', level: true },
  'life-used': { name: 'Rated life used', unit: '%', level: true },
  'spare-left': { name: 'Spare blocks left', unit: '%', level: true },
  'spare-limit': { name: 'Least spare blocks allowed', unit: '%', level: true },
  'unmended-errors': { name: 'Data errors it could not mend' },
  'logged-errors': { name: 'Entries in its error log' },
  'bytes-read': { name: 'Read from it', unit: 'bytes' },
  'bytes-written': { name: 'Written to it', unit: 'bytes' },
  'read-commands': { name: 'Read commands' },
  'write-commands': { name: 'Write commands' },
  'busy-minutes': { name: 'Busy', unit: 'minutes' },
  'minutes-hot': { name: 'Above its warning temperature', unit: 'minutes' },
  'minutes-critical': { name: 'Above its critical temperature', unit: 'minutes' },
  'slowed-lightly': { name: 'Slowed down lightly for heat', unit: 'times' },
  'slowed-heavily': { name: 'Slowed down heavily for heat', unit: 'times' },
  'seconds-slowed-lightly': { name: 'Slowed down lightly, in all', unit: 'seconds' },
  'seconds-slowed-heavily': { name: 'Slowed down heavily, in all', unit: 'seconds' },
  'sectors-replaced': { name: 'Sectors replaced by spares' },
  'replacing-sectors': { name: 'Times sectors were replaced' },
  'sectors-waiting': { name: 'Doubtful sectors, not replaced yet', level: true },
  'sectors-unreadable': { name: 'Unreadable sectors found by its scan' },
  'late-commands': { name: 'Commands not done in time' },
  'inner-mismatch': { name: 'Data changed inside the drive' },
  'spin-retries': { name: 'Spin-ups that needed another try' },
  'link-errors': { name: 'Checksum errors on the link' },
  knocks: { name: 'Knocks felt while working' },
  'start-stops': { name: 'Spindle starts and stops' },
  'start-stops-limit': { name: 'Starts and stops it is made for', level: true },
  'head-parkings': { name: 'Head parkings' },
  'head-parkings-limit': { name: 'Head parkings it is made for', level: true },
  'unmended-read-errors': { name: 'Read errors it could not mend' },
  'unmended-write-errors': { name: 'Write errors it could not mend' },
  'unmended-check-errors': { name: 'Errors in checking that it could not mend' },
  'mended-read-errors': { name: 'Read errors it mended' },
  'mended-write-errors': { name: 'Write errors it mended' },
  'mended-check-errors': { name: 'Errors in checking that it mended' },
  'all-read-errors': { name: 'Read errors, mended or not' },
  'all-write-errors': { name: 'Write errors, mended or not' },
  'slowest-read': { name: 'Slowest read', unit: 'ms', level: true },
  'slowest-write': { name: 'Slowest write', unit: 'ms', level: true },
  'slowest-flush': { name: 'Slowest emptying of its cache', unit: 'ms', level: true },
  'other-errors': { name: 'Errors that were not of the medium' },
};

const named = (id: string): Named => {
  const known = NAMES[id];
  if (known !== undefined) return known;
  const sensor = /^sensor-(\d)$/.exec(id);
  if (sensor) return { name: `Temperature, sensor ${sensor[1]}`, unit: '°C', level: true };
  return { name: `Attribute ${id.replace('attribute-', '')}, which makers use differently`, level: true };
};

export const nameOf = (id: string): string => named(id).name;
export const unitOf = (id: string): string => named(id).unit ?? '';
export const counts = (id: string): boolean => named(id).level !== true;
