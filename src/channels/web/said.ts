/** What the person said, read back out of a conversation's entries: one item per thing they did, in their own words. */
import type { Always, Entry } from '#engine/entries.ts';

export type Said = {
  at: number;
} /** `answers`: the question they were said to. `takenBack`: a back or a new start has withdrawn them. */ & (
  | { kind: 'words'; words: string; answers: number | null; takenBack: boolean }
  | { kind: 'picture'; id: string; name: string }
  | { kind: 'file'; id: string; name: string }
  | { kind: 'standing'; what: Always }
);

/** `labelOf`: the label of a symptom that was chosen from those offered. */
export function saidOf(entries: readonly Entry[], labelOf: (symptom: string) => string): Said[] {
  const said: Said[] = [];
  const seen = { opening: '', last: '', joined: false };
  for (const [index, entry] of entries.entries()) {
    // What one message brought about shares its time; its words are shown once.
    const same = entries[index - 1]?.at === entry.at ? said.findLast(({ at }) => at === entry.at) : undefined;
    if (entry.kind === 'back' && entry.why === 'asked') takeBack(said, entry.to);
    if (entry.kind === 'always' && entry.what === 'again') takeBack(said, 0);
    const item = itemOf(entry, seen, labelOf);
    if (item === null) continue;
    if (same !== undefined && repeats(same, item)) continue;
    said.push(item);
  }
  return said;
}

/** Everything said to question `to` or a later one. */
function takeBack(said: Said[], to: number): void {
  for (const item of said) {
    if (item.kind === 'words' && (item.answers ?? 0) >= to && (item.answers !== null || to === 0))
      item.takenBack = true;
  }
}

interface Seen {
  /** The opening words so far: later ones are kept with the earlier ones before them. */
  opening: string;
  /** The words of the last answer, which a message sent right behind it is joined to. */
  last: string;
  joined: boolean;
}

function itemOf(entry: Entry, seen: Seen, labelOf: (symptom: string) => string): Said | null {
  const { at } = entry;
  switch (entry.kind) {
    case 'opened': {
      const words = without(entry.words, seen.opening);
      seen.opening = entry.words;
      seen.last = entry.words;
      seen.joined = false;
      if (words !== '') return { kind: 'words', at, words, answers: null, takenBack: false };
      return entry.symptom === null
        ? null
        : { kind: 'words', at, words: labelOf(entry.symptom), answers: null, takenBack: false };
    }
    case 'answer': {
      const words = seen.joined ? without(entry.words, seen.last) : entry.words;
      seen.joined = false;
      seen.last = entry.words;
      if ('photo' in entry.value) return null;
      return { kind: 'words', at, words: words || entry.words, answers: entry.question, takenBack: false };
    }
    case 'missed': {
      const words = without(entry.words, seen.last);
      return { kind: 'words', at, words: words || entry.words, answers: null, takenBack: false };
    }
    case 'interrupt':
      return { kind: 'words', at, words: entry.words, answers: null, takenBack: false };
    case 'note':
    case 'returned':
      return entry.words === ''
        ? null
        : { kind: 'words', at, words: entry.words, answers: null, takenBack: false };
    case 'attached':
      return {
        kind: entry.type.startsWith('image/') ? 'picture' : 'file',
        at,
        id: entry.id,
        name: entry.name,
      };
    case 'back':
      seen.joined = entry.why === 'joined';
      if (!seen.joined) seen.last = '';
      return seen.joined ? null : { kind: 'standing', at, what: 'back' };
    case 'always':
      if (entry.what === 'again') seen.opening = '';
      return { kind: 'standing', at, what: entry.what };
    default:
      return null;
  }
}

/** Words behind those that were there before; all of them when they begin otherwise. */
function without(words: string, before: string): string {
  if (before === '') return words;
  if (words === before) return '';
  return words.startsWith(`${before}\n`) ? words.slice(before.length + 1) : words;
}

/** Does `item` say again what the same message has said already? */
function repeats(first: Said, item: Said): boolean {
  if (item.kind === 'standing') return item.what === 'again';
  if (first.kind === 'picture' || first.kind === 'file') return true;
  if (first.kind !== 'words' || item.kind !== 'words') return false;
  return item.words.includes(first.words) || first.words.includes(item.words);
}
