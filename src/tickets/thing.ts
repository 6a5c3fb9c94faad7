/** Is the report about something that site.yaml marks shared or time-critical? */
import type { Site } from '#engine/catalogue.ts';

/** Symptoms that are about the place itself; a lost file on a shared drive is about the file. */
const ABOUT_THE_PLACE = [
  'share-missing',
  'share-denied',
  'disk-full',
  'drive-slow',
  'write-protected',
  'raid-alarm',
];

/**
 * What it is about, in the words of site.yaml, or null. `texts`: everything the person wrote; `chosen`: the share that they
 * picked from the list. A shared place that others reach is well; refused, it is one person's rights until others are
 * refused too. What cannot wait cannot wait for one person either.
 */
export function thingOf(
  site: Site,
  symptom: string | null,
  texts: readonly string[],
  { chosen = null, others = null }: { chosen?: string | null; others?: 'fine' | 'hit' | null } = {},
): string | null {
  if (symptom === null || !ABOUT_THE_PLACE.includes(symptom)) return null;
  const shares = site.shares ?? [];
  const picked = shares.filter(({ id }) => id === chosen);
  const meant =
    picked.length > 0
      ? picked
      : shares.filter(({ letter, path }) => texts.some(text => names(text, path, letter)));
  const everybodys = others === 'hit' || (others === null && symptom !== 'share-denied');
  return meant.find(share => share.time_critical || (share.shared && everybodys))?.about ?? null;
}

function names(text: string, path: string, letter: string | undefined): boolean {
  const plain = text.toLowerCase().replaceAll('/', '\\');
  if (plain.includes(path.toLowerCase().replaceAll('/', '\\'))) return true;
  const bare = letter?.replace(':', '').toLowerCase();
  // "S:", "S drive", "drive S"; a lone letter in a sentence says nothing.
  return (
    bare !== undefined &&
    /^[a-z]$/.test(bare) &&
    new RegExp(`(?<![\\w'’])(${bare}:|${bare}[ -]drive\\b|drive ${bare}\\b)`).test(plain)
  );
}
