/** The alarms' phrases made ready, and where they stand in what was said. */
import type { Interrupts } from '#engine/catalogue.ts';
import { type Vocabulary, vocabulary } from './spelling.ts';
import { isFiller, type Place, type Spoken, spoken } from './spoken.ts';
import { listen } from './words.ts';

export interface Way {
  keys: readonly string[];
  /** The words must stand in this order, close together. */
  ordered: boolean;
  sure: boolean;
}

export interface Alarm {
  id: string;
  rank: number;
  notFor: readonly string[];
  ways: Way[];
  /** A phrase's most telling word to its phrases. */
  byKey: Map<string, Way[]>;
  /** Every word of its phrases. */
  keys: ReadonlySet<string>;
  /** First word to what only looks like the alarm, word for word. */
  unless: Map<string, string[][]>;
}

export interface Alarms {
  alarms: Alarm[];
  spelling: Vocabulary;
}

/** Shorter words are heard as they are typed. */
const SHORTEST = 4;
/** Words from the first to the last of a phrase in free order. */
const REACH = 9;
/** Other words between those of a phrase in order. */
const GAP = 1;
const BARE: Vocabulary = { words: new Set(), spared: new Set(), shortened: new Map() };
const ready = new WeakMap<Interrupts, Alarms>();

export function prepareAlarms(interrupts: Interrupts): Alarms {
  const had = ready.get(interrupts);
  if (had !== undefined) return had;
  const words = new Set<string>();
  const alarms = Object.entries(interrupts).map(
    ([id, { rank, sure, doubtful = [], unless = [], not_for = [] }]) => {
      const ways = [
        ...sure.flatMap(text => waysOf(text, true, words)),
        ...doubtful.flatMap(text => waysOf(text, false, words)),
      ];
      const keys = new Set(ways.flatMap(way => way.keys));
      return { id, rank, notFor: not_for, ways, byKey: indexed(ways), keys, unless: byFirst(unless) };
    },
  );
  const made = {
    alarms: alarms.sort((a, b) => b.rank - a.rank),
    // No word is spared for looking like a common one: "somke" is nearer to "some", and may be smoke.
    spelling: vocabulary([...words].filter(word => word.length >= SHORTEST)),
  };
  ready.set(interrupts, made);
  return made;
}

function waysOf(text: string, sure: boolean, words: Set<string>): Way[] {
  const several = text.includes('|');
  return spellOut(text).map(one => {
    const said = spoken(one, BARE);
    for (const { word } of said) words.add(word.text);
    return { keys: said.map(({ key }) => key), ordered: several || said.some(({ filler }) => filler), sure };
  });
}

/** "coffee|tea over laptop" is "coffee over laptop" and "tea over laptop". */
export function spellOut(text: string): string[] {
  return text
    .split(' ')
    .map(word => word.split('|'))
    .reduce<string[]>(
      (begun, words) => begun.flatMap(before => words.map(word => `${before} ${word}`.trim())),
      [''],
    );
}

/** Under the word that the fewest phrases share. */
function indexed(ways: readonly Way[]): Map<string, Way[]> {
  const shared = new Map<string, number>();
  for (const { keys } of ways) for (const key of keys) shared.set(key, (shared.get(key) ?? 0) + 1);
  const rarity = (key: string): number => shared.get(key)! + (isFiller(key) ? ways.length : 0);
  const byKey = new Map<string, Way[]>();
  for (const way of ways) {
    const rarest = way.keys.reduce((best, key) => (rarity(key) < rarity(best) ? key : best));
    byKey.set(rarest, [...(byKey.get(rarest) ?? []), way]);
  }
  return byKey;
}

function byFirst(phrases: readonly string[]): Map<string, string[][]> {
  const first = new Map<string, string[][]>();
  for (const text of phrases.flatMap(spellOut)) {
    const words = listen(text).map(word => word.text);
    const [start] = words;
    if (start !== undefined) first.set(start, [...(first.get(start) ?? []), words]);
  }
  return first;
}

/** A phrase as it was found: the places of its words. */
export interface Found extends Place {
  way: Way;
  at: readonly number[];
}

/** Every place where a phrase of the alarm stands; `spared` words do not count. */
export function* findWays(
  { byKey }: Alarm,
  said: readonly Spoken[],
  spared: ReadonlySet<number>,
): Generator<Found> {
  for (let anchor = 0; anchor < said.length; anchor++) {
    if (spared.has(anchor)) continue;
    for (const way of byKey.get(said[anchor]!.key) ?? []) {
      const at = way.ordered ? inOrder(way, said, anchor, spared) : anyOrder(way, said, anchor, spared);
      if (at !== null) yield { way, at, from: Math.min(...at), to: Math.max(...at) };
    }
  }
}

function inOrder(
  { keys }: Way,
  said: readonly Spoken[],
  anchor: number,
  spared: ReadonlySet<number>,
): number[] | null {
  const part = keys.indexOf(said[anchor]!.key);
  const at = [anchor];
  for (const step of [-1, 1]) {
    let place: number | null = anchor;
    for (let wanted = part + step; wanted >= 0 && wanted < keys.length; wanted += step) {
      place = nextOf(keys[wanted]!, said, place, step, spared);
      if (place === null) return null;
      at.push(place);
    }
  }
  return at;
}

/** The nearest place of a word on one side, past fillers and few others, in the same sentence. */
function nextOf(
  key: string,
  said: readonly Spoken[],
  from: number,
  step: number,
  spared: ReadonlySet<number>,
): number | null {
  const { sentence } = said[from]!.word;
  let others = 0;
  for (let place = from + step; others <= GAP && Math.abs(place - from) <= REACH; place += step) {
    const one = said[place];
    if (one === undefined || one.word.sentence !== sentence) return null;
    if (one.key === key && !spared.has(place)) return place;
    if (!one.filler) others++;
  }
  return null;
}

function anyOrder(
  { keys }: Way,
  said: readonly Spoken[],
  anchor: number,
  spared: ReadonlySet<number>,
): number[] | null {
  const at = [anchor];
  for (const key of keys) {
    if (key === said[anchor]!.key) continue;
    let nearest: number | null = null;
    for (let away = 1; away <= REACH && nearest === null; away++)
      for (const place of [anchor + away, anchor - away]) {
        const one = said[place];
        const here = one?.word.sentence === said[anchor]!.word.sentence;
        if (here && one?.key === key && !spared.has(place)) nearest = place;
      }
    if (nearest === null) return null;
    at.push(nearest);
  }
  return Math.max(...at) - Math.min(...at) <= REACH ? at : null;
}

/** Places of words that only look like the alarm, unless they are part of a phrase that leaves no doubt: "on fire up here". */
export function sparedWords(alarm: Alarm, said: readonly Spoken[]): Set<number> {
  const spared = new Set<number>();
  for (let from = 0; from < said.length; from++)
    for (const words of alarm.unless.get(said[from]!.word.text) ?? []) {
      const at = wordForWord(words, said, from);
      if (at !== null && !begunBefore(alarm, said, at)) for (const place of at) spared.add(place);
    }
  return spared;
}

function wordForWord(words: readonly string[], said: readonly Spoken[], from: number): number[] | null {
  const at: number[] = [];
  let part = 0;
  for (let place = from; part < words.length; place++) {
    const one = said[place];
    if (one === undefined || one.word.clause !== said[from]!.word.clause) return null;
    if (one.word.text === words[part]) {
      at.push(place);
      part++;
    } else if (!one.filler) return null;
  }
  return at;
}

function begunBefore({ ways }: Alarm, said: readonly Spoken[], at: readonly number[]): boolean {
  const before = at[0]! - 1;
  if (before < 0) return false;
  return ways.some(({ keys, sure }) => {
    if (!sure || keys.length < 2) return false;
    return keys.slice(0, -1).some((_key, part) => {
      const start = before - part;
      return start >= 0 && keys.every((key, index) => said[start + index]?.key === key);
    });
  });
}
