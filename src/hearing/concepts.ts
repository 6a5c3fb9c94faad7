/** What words stand for: each run of words becomes a concept, a thing or a happening, or stays the word it is. */
import { COMMON_WORDS } from './common-words.ts';
import { deny, type Said } from './negation.ts';
import { spell, type Vocabulary, vocabulary } from './spelling.ts';
import { stem } from './stem.ts';
import { HAPPENINGS, THINGS } from './synonyms.ts';
import { isLetter, listen, type Word } from './words.ts';

export interface Concept {
  /** `#drive` for a concept of the tables, else the word's stem; `!` before it where it is denied. */
  key: string;
  word: Word;
}

/** Say nothing, and stand between words that belong together. */
const FILLERS = new Set(
  `the a an is are was were be been being am has have had having do does did done will would can could should may might shall
  i me my mine we us our ours you your he she his her they them their it its it's i'm i've that that's this these those there's
  of to at from for with by into onto and or so very really just please also any some all anymore any more again still even
  here's when if then which who whom whose as than too both own my our im ive id
  der die das den dem des ein eine einen einem einer mein meine meinen meinem meiner mir mich ich wir uns unser unsere ist sind
  wird werden wurde war hat haben habe und im am an auf bei zum zur mehr sich es er sie beim
  le la les un une des du de mon ma mes notre nos je il elle me se est sont a ai au aux et que qui sur dans ce cette
  el los las una unos unas mi mis nuestro del al se y que es son esta estan ha he lo su sus por para en`.split(
    /\s+/,
  ),
);
/** Matter inside a fixed expression ("turn on", "shut down") and say nothing alone. */
const SMALL = new Set('on up out in inside back over en plus'.split(' '));
const MOST_WORDS = 6;

interface Tables {
  things: Map<string, string>;
  happenings: Map<string, string>;
  /** Words that spelling may mend to. */
  words: Set<string>;
}

/** A drive, a machine, a file and the like, and not what befalls it. */
export const isThing = (key: string): boolean => THING_KEYS.has(key);
const THING_KEYS: ReadonlySet<string> = new Set(
  Object.keys(THINGS).flatMap(name => [`#${name}`, `!#${name}`]),
);

const asIs = (word: string): string => word;
const key = (said: Said): string => (said.not ? `!${stem(said.text)}` : stem(said.text));
const weighty = (said: Said[]): Said[] => said.filter(one => !FILLERS.has(one.text));

function buildTables(): Tables {
  const tables: Tables = { things: new Map(), happenings: new Map(), words: new Set() };
  const add = (table: Map<string, string>, name: string, ways: string): void => {
    for (const text of ways.split(/[|\n]/)) {
      if (text.trim() === '') continue;
      const said = weighty(deny(listen(text), asIs));
      if (said.length === 0) throw new Error(`a way to say ${name} has no word of weight: ${text}`);
      for (const one of said) tables.words.add(one.text);
      const way = said.map(key).join(' ');
      const had = tables.things.get(way) ?? tables.happenings.get(way) ?? name;
      if (had !== name) throw new Error(`"${text}" is said both for ${had} and for ${name}`);
      table.set(way, name);
    }
  };
  for (const [name, ways] of Object.entries(THINGS)) add(tables.things, `#${name}`, ways);
  for (const [name, ways] of Object.entries(HAPPENINGS)) add(tables.happenings, `#${name}`, ways);
  return tables;
}
const TABLES = buildTables();

export interface Ear {
  spelling: Vocabulary;
}

/** An ear for the tables' words and those of the phrases it will be asked about. */
export function ear(phrases: Iterable<string>): Ear {
  const words = new Set(TABLES.words);
  for (const phrase of phrases) for (const word of listen(phrase)) words.add(word.text);
  return { spelling: vocabulary(words, COMMON_WORDS) };
}

/** The concepts of a run of words in their order. */
export function conceptsOf({ spelling }: Ear, words: readonly Word[]): Concept[] {
  const said = objectsEnd(weighty(deny(words, word => spell(spelling, word))));
  const stems = said.map(one => stem(one.text));
  const concepts: Concept[] = [];
  for (let at = 0; at < said.length; ) {
    const found = longest(said, stems, at);
    const first = said[at]!;
    if (found !== null) {
      concepts.push({ key: found.key, word: first.word });
      if (found.none) concepts.push({ key: '#absent', word: first.word });
      at += found.length;
    } else {
      if (!SMALL.has(first.text)) concepts.push({ key: key(first), word: first.word });
      at++;
    }
  }
  return concepts;
}

/** "Cannot open the files stored on it": what is denied is the opening, not the storing. A denial ends behind the thing it is about. */
function objectsEnd(said: Said[]): Said[] {
  let verb = false;
  let thing = false;
  return said.map((one, at) => {
    const before = said[at - 1];
    if (!one.not || before?.not !== true || before.word.clause !== one.word.clause) verb = thing = false;
    if (!one.not) return one;
    const isThing = TABLES.things.has(stem(one.text));
    if (verb && thing && !isThing) return { ...one, not: false };
    if (isThing) thing = verb;
    else verb = true;
    return one;
  });
}

interface Found {
  key: string;
  length: number;
  none: boolean;
}

function longest(said: readonly Said[], stems: readonly string[], at: number): Found | null {
  const first = said[at]!;
  const letter = drive(said, stems, at);
  for (let length = Math.min(MOST_WORDS, said.length - at); length >= 1; length--) {
    if (said[at + length - 1]!.word.sentence !== first.word.sentence) continue;
    if (letter !== null && letter.length >= length) return letter;
    const bare = stems.slice(at, at + length).join(' ');
    const thing = TABLES.things.get(bare);
    if (thing !== undefined) return { key: thing, length, none: first.none };
    const marked = said
      .slice(at, at + length)
      .map(key)
      .join(' ');
    const exactly = TABLES.happenings.get(marked);
    if (exactly !== undefined) return { key: exactly, length, none: false };
    const happening = TABLES.happenings.get(bare);
    if (happening !== undefined && first.not) return { key: `!${happening}`, length, none: false };
  }
  return null;
}

/** "S:", "the S drive", "drive S": which drive a letter means is a matter of habit, and common practice. */
function drive(said: readonly Said[], stems: readonly string[], at: number): Found | null {
  const none = said[at]!.none;
  const one = stems[at]!;
  if (isLetter(one)) return { key: lettered(one[0]!), length: isDrive(stems[at + 1]) ? 2 : 1, none };
  const other = stems[at + 1];
  if (other === undefined) return null;
  const joined = said[at + 1]!.word.clause === said[at]!.word.clause;
  if (joined && /^[b-hj-z]$/.test(one) && isDrive(other)) return { key: lettered(one), length: 2, none };
  if (joined && isDrive(one) && (isLetter(other) || /^[b-hj-xz]$/.test(other)))
    return { key: lettered(other[0]!), length: 2, none };
  return null;
}

const isDrive = (stemmed: string | undefined): boolean =>
  stemmed !== undefined && TABLES.things.get(stemmed) === '#drive';

function lettered(letter: string): string {
  if (letter === 'c') return '#system';
  if (letter === 'd' || letter === 'e') return '#second';
  return letter < 'g' ? '#drive' : '#share';
}
