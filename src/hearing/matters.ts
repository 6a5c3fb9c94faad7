/** Two matters in one message: "my drive clicks, and P: is gone". Only what is said surely, in a part of its own, counts. */
import { hearOpening, type Opening, type Openings, OTHER } from './opening.ts';
import { listen } from './words.ts';

export interface Matter {
  symptom: string;
  /** The part of the message that says it, as typed. */
  words: string;
}

/** Where people go on to something else. */
const JOINTS = new Set([
  'and',
  'also',
  'plus',
  'besides',
  'additionally',
  'und',
  'ausserdem',
  'et',
  'aussi',
  'y',
  'ademas',
]);
/** Parts that are looked at, and characters of a message. */
const MOST = 12;
const LONGEST = 2000;
const FEWEST_WORDS = 2;

/** One matter seen twice: "no boot device" and "no operating system", a share that is lost or refused, a drive that clicks and is slow. */
const FAMILIES = [
  ['boot-read-error', 'boot-no-device', 'boot-no-os', 'boot-recovery-key', 'new-hardware'],
  ['drive-noise', 'drive-slow', 'health-warning'],
  ['share-missing', 'share-denied'],
  ['drive-missing-usb', 'write-protected', 'files-corrupt'],
];
/** What one of them brings about by itself: a full drive makes slow, a drive that clicks loses files and comes and goes. */
const BRINGS: Readonly<Record<string, readonly string[]>> = {
  'drive-noise': ['files-corrupt', 'drive-missing-usb', 'drive-missing-internal', 'files-lost'],
  'health-warning': ['files-corrupt', 'drive-slow'],
  'disk-full': ['drive-slow'],
  overheating: ['drive-slow'],
  // A stick that was left in keeps it from starting.
  'boot-read-error': ['drive-missing-usb'],
  'boot-no-device': ['drive-missing-usb'],
  'boot-no-os': ['drive-missing-usb'],
};
const family = (symptom: string): string =>
  FAMILIES.find(members => members.includes(symptom))?.[0] ?? symptom;

/** What is surely said beside `first`, in the order it was said; nothing of the same family twice. */
export function otherMatters(openings: Openings, text: string, first: string): Matter[] {
  const found: Matter[] = [];
  const parts = partsOf(text.slice(0, LONGEST));
  if (parts.length < 2) return [];
  for (const words of parts.slice(0, MOST)) {
    const symptom = saidSurely(hearOpening(openings, words));
    if (symptom === null) continue;
    const known = [first, ...found.map(other => other.symptom)];
    if (!known.some(other => isOne(other, symptom))) found.push({ symptom, words });
  }
  return found;
}

const isOne = (one: string, other: string): boolean =>
  family(one) === family(other) ||
  BRINGS[one]?.includes(other) === true ||
  BRINGS[other]?.includes(one) === true;

/** From this share of one family on it does not matter which of the family it is. */
const FAMILY = 0.95;

/** The symptom that is surely meant, or the likeliest where its family is. */
function saidSurely({ symptom, sure, ranked }: Opening): string | null {
  if (symptom === null || symptom === OTHER) return null;
  const kin = ranked.filter(other => family(other.symptom) === family(symptom));
  return sure || kin.reduce((sum, { score }) => sum + score, 0) >= FAMILY ? symptom : null;
}

/** Sentences, clauses, and what is joined by "and" and the like. */
function partsOf(text: string): string[] {
  const words = listen(text);
  const parts: { from: number; to: number; words: number }[] = [];
  let last = { clause: -1, joint: true };
  for (const word of words) {
    const joint = JOINTS.has(word.text);
    if (joint) last = { ...last, joint: true };
    else {
      const part = parts.at(-1);
      if (part === undefined || last.joint || last.clause !== word.clause)
        parts.push({ from: word.start, to: word.end, words: 1 });
      else {
        part.to = word.end;
        part.words++;
      }
      last = { clause: word.clause, joint: false };
    }
  }
  return parts.filter(part => part.words >= FEWEST_WORDS).map(({ from, to }) => text.slice(from, to));
}
