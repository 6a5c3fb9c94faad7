/**
 * What ATA attributes are used for. The standard leaves them to makers; these are the uses that most share (common practice,
 * no source). All others keep their number.
 */
export const ATTRIBUTES: Record<number, string> = {
  4: 'start-stops',
  5: 'sectors-replaced',
  9: 'hours-on',
  10: 'spin-retries',
  12: 'times-on',
  174: 'unsafe-stops',
  184: 'inner-mismatch',
  187: 'unmended-errors',
  188: 'late-commands',
  191: 'knocks',
  192: 'power-parkings',
  193: 'head-parkings',
  194: 'temperature',
  196: 'replacing-sectors',
  197: 'sectors-waiting',
  198: 'sectors-unreadable',
  199: 'link-errors',
};

/** Stands in where the usual one is absent. */
export const SECOND_CHOICE: Record<number, string> = { 190: 'temperature' };

/** On many solid-state drives the own scale of these falls from 100 to 0 with wear. */
export const WEARS = [173, 177, 231, 233] as const;
