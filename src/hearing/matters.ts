/**
 * Two matters in one message: "my drive clicks, and P: is gone". Only what is said surely, in a part of its own and of a thing of
 * its own, counts: in doubt it is one matter, and the words are on the ticket anyway.
 */
import { conceptsOf, isThing } from './concepts.ts';
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
  // The key may be asked for by the stick.
  'boot-recovery-key': ['drive-missing-usb'],
  // A stick that was left in keeps it from starting.
  'boot-read-error': ['drive-missing-usb'],
  'boot-no-device': ['drive-missing-usb'],
  'boot-no-os': ['drive-missing-usb'],
};
const family = (symptom: string): string =>
  FAMILIES.find(members => members.includes(symptom))?.[0] ?? symptom;

/** What a matter can be about. Two words of one row may well be the same thing. */
const PLACES: readonly (readonly string[])[] = [
  ['#computer', '#system', '#os', '#bootdevice'],
  ['#usb'],
  ['#share'],
  ['#nas', '#array', '#server'],
];
/** Any drive: "it" in other words, where another part has named it. */
const ANY_DRIVE = new Set(['#drive', '#second', '#newdrive']);
/** Words of a part that hangs on another one, or that has good news. */
const DEPENDS = new Set(
  `when whenever since because if while after once until then so though although but it it's its them that which
  fine normal normally fast ok okay good perfectly works
  wenn weil seit dann nachdem es quand parce depuis puis si cuando porque desde entonces`.split(/\s+/),
);

interface Part {
  words: string;
  symptom: string | null;
  /** The likeliest symptom, sure or not. */
  likely: string | null;
  places: readonly number[];
  /** Says what befalls a thing of its own, and hangs on nothing else. */
  stands: boolean;
}

/** What is surely said beside `first`, in the order it was said; nothing of the same family twice, and nothing of the same thing. */
export function otherMatters(openings: Openings, text: string, first: string): Matter[] {
  const parts = partsOf(text.slice(0, LONGEST))
    .slice(0, MOST)
    .map(words => heardPart(openings, words));
  const taken = new Set(
    parts.flatMap(({ likely, places }) => (likely !== null && isOne(first, likely) ? places : [])),
  );
  // Nobody said what the first one is about: it may be any of the things.
  if (taken.size === 0) return [];
  const found: Matter[] = [];
  for (const { words, symptom, places, stands } of parts) {
    if (symptom === null || !stands || places.some(place => taken.has(place))) continue;
    const known = [first, ...found.map(other => other.symptom)];
    if (known.some(other => isOne(other, symptom))) continue;
    found.push({ symptom, words });
    for (const place of places) taken.add(place);
  }
  return found;
}

function heardPart(openings: Openings, words: string): Part {
  const heard = hearOpening(openings, words);
  const said = listen(words);
  const keys = conceptsOf(openings.ear, said).map(({ key }) => key.replace('!', ''));
  const places = PLACES.flatMap((row, at) => (row.some(key => keys.includes(key)) ? [at] : []));
  const hangs = said.some(word => DEPENDS.has(word.text)) || keys.some(key => ANY_DRIVE.has(key));
  return {
    words,
    symptom: saidSurely(heard),
    likely: heard.symptom,
    places,
    stands: places.length > 0 && !hangs && keys.some(key => key.startsWith('#') && !isThing(key)),
  };
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
