/**
 * What a sign is worth: likelihoods from published field studies. Each study saw its own drives, in computing centres; none
 * saw yours. Ratios of one study are taken once, never multiplied: the counts depend on each other.
 */
import type { Figure, Worth } from './reading.ts';

/** Shares of spinning drives with any of the five counts above zero, on the day they failed and while at work. */
const FAILED = 0.767;
const AT_WORK = 0.042;
export const FLAGGED_RATIO = FAILED / AT_WORK;
export const UNFLAGGED_RATIO = (1 - FAILED) / (1 - AT_WORK);

export const FIVE = [
  'sectors-replaced',
  'unmended-errors',
  'late-commands',
  'sectors-waiting',
  'sectors-unreadable',
] as const;

export const FLAGGED: Worth = {
  says: 'Of 67,814 spinning drives in one study, 76.7% of those that failed had a count like this, and 4.2% of those at work.',
  ratio: FLAGGED_RATIO,
  source: "a backup provider's drive statistics, 6 October 2016, read in copies",
};

export const SCANNED: Worth = {
  says: 'In a study of over 100,000 spinning drives, the first error that a scan found made failure within 60 days 39 times as likely.',
  ratio: 39,
  source: 'Pinheiro, Weber and Barroso, FAST 2007',
};

export const FLASH: Worth = {
  says: 'In a study of flash drives, three in ten that had such an error in one month had another in the next.',
  ratio: null,
  source: 'Schroeder, Lagisetty and Merchant, FAST 2016, read in a summary',
};

export const LINKS: Worth = {
  says: 'In 39,000 storage systems the connections caused 27 to 68% of all failures, the drives 20 to 55%.',
  ratio: null,
  source: 'Jiang, Hu, Zhou and Kanevsky, FAST 2008',
};

export const WEAR: Worth = {
  says: 'In a study of solid-state drives failures did not simply rise with wear.',
  ratio: null,
  source: 'Meza, Wu, Kumar and Mutlu, SIGMETRICS 2015',
};

export const SILENT =
  'In one study of over 100,000 spinning drives 56% of those that failed had none of the four strong signs (Pinheiro and others 2007, in a summary); in another 23% had none of five (drive statistics of 2016).';

/** Chance that follows from a chance before and a likelihood ratio (Bayes), all in percent. */
export const after = (priorPercent: number, ratio: number): number => {
  const odds = (priorPercent / (100 - priorPercent)) * ratio;
  return (100 * odds) / (1 + odds);
};

/** The ratio for this drive by the five counts; null where they do not say: none is above zero, and some are not reported. */
export function ratioOf(figures: ReadonlyMap<string, Figure>): number | null {
  const values = FIVE.map(id => figures.get(id)?.value ?? null);
  if (values.some(value => value !== null && value > 0)) return FLAGGED_RATIO;
  return values.includes(null) ? null : UNFLAGGED_RATIO;
}
