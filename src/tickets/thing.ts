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

/** What it is about, in the words of site.yaml, or null. `texts`: everything the person wrote. */
export function thingOf(site: Site, symptom: string | null, texts: readonly string[]): string | null {
  if (symptom === null || !ABOUT_THE_PLACE.includes(symptom)) return null;
  const marked = (site.shares ?? []).filter(share => share.shared || share.time_critical);
  const share = marked.find(({ letter, path }) => texts.some(text => names(text, path, letter)));
  return share?.about ?? null;
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
