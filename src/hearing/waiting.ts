/** Answers that the opening already gives. A wrong guess is worse than a question: precision before recall. */
import type { Script } from '#engine/script.ts';
import { COMMON_WORDS } from './common-words.ts';
import { type Vocabulary, vocabulary } from './spelling.ts';
import { type Phrase, type Place, phrase, places, type Spoken, spoken, typed } from './spoken.ts';
import { stem } from './stem.ts';
import { answersIn } from './tokens.ts';
import { hearTold } from './told.ts';
import { listen } from './words.ts';

interface Way {
  finding: string;
  answer: string;
  phrase: Phrase;
}
interface Prepared {
  ways: Way[];
  spelling: Vocabulary;
}
interface Hit extends Place {
  answer: string;
}

/** Of a long opening, such as a pasted log with words before and behind it, so many characters of its beginning and end are read. */
const HEAD = 5000;
const TAIL = 2000;
/** Other words that may stand between those of a phrase. */
const GAP = 1;
/** Places that are looked at of one finding: who says the same again and again has said it. */
const MOST = 20;
/** By so many words a phrase must be longer than one inside it, to be meant instead. */
const MORE = 2;
/** Words back from a phrase that can change whose it is, or whether it is so. */
const BEFORE = 3;
/** "My other laptop", "I booted from a usb stick", "it used to click", "if it clicks": not what the trouble is about, or not so. */
const NOT_THIS = new Set(
  `other another different pulling pulled removing removed used if whether normally usually supposed unlike except
  anderen andere autre otro otra wenn`.split(/\s+/),
);
const STARTED = new Set(['boot', 'start']);
/** "Not found at power on" says when, and nothing of a machine that does not power on. */
const MOMENTS = new Set(['boot', 'start', 'startup', 'power']);
const ORIGIN = new Set('from von depuis desde'.split(' '));
/** A place said after one of these is theirs: "the server in Tolmarsh", "I was in Tolmarsh". */
const PLACES = new Set(['in', 'at']);
const ELSEWHERE = new Set(
  `server servers nas share shares folder folders file files rack array was were went been back trip visit visiting
  travel travelling going driving moving moved until yesterday meeting customer supplier call called ring not`.split(
    /\s+/,
  ),
);
const prepared = new WeakMap<Script, Prepared>();

/** By finding: the answer and the person's own words for it. Where the words fit two answers, neither is taken. */
export function hearWaiting(script: Script, text: string): Record<string, { answer: string; words: string }> {
  const { ways, spelling } = prepare(script);
  const read = text.length > HEAD + TAIL ? `${text.slice(0, HEAD)}\n${text.slice(-TAIL)}` : text;
  const said = spoken(read, spelling);
  const hits = new Map<string, Hit[]>();
  const shut = new Map<string, Hit[]>();
  for (const { finding, answer, phrase: way } of ways) {
    for (const place of places(way, said, GAP))
      if (isMeant(said, place, way)) add(hits, finding, { ...place, answer });
    for (const place of places(way, said, GAP, false)) add(shut, finding, { ...place, answer });
  }
  const waiting: Record<string, { answer: string; words: string }> = {};
  for (const [finding, found] of hits) {
    const others = [...hits].flatMap(([other, all]) => (other === finding ? [] : all));
    // "I left a usb stick in" says what is plugged in, and not what the trouble is about.
    const all = found.filter(
      hit => !others.some(other => within(hit, other) && size(other) >= size(hit) + MORE),
    );
    const [first, ...rest] = all.filter(
      hit => !all.some(other => other.answer !== hit.answer && holds(other, hit)),
    );
    if (first === undefined) continue;
    // "My laptop does not see the stick": which of the two has the problem is asked.
    const denied = (shut.get(finding) ?? []).filter(hit => !all.some(other => within(hit, other)));
    if ([...rest, ...denied].some(({ answer }) => answer !== first.answer)) continue;
    waiting[finding] = { answer: first.answer, words: typed(read, said, first) };
  }
  return { ...hearTold(script, read), ...withTokens(script, read, waiting) };
}

/** Whether the phrase is said of the thing in trouble, and of now. */
function isMeant(said: readonly Spoken[], { from, to }: Place, { words }: Phrase): boolean {
  const first = said[from]!;
  // "Since this morning my computer" is not "this computer".
  if (first.key === 'this' && to - from >= words.length) return false;
  // "My other laptop" is not "my laptop".
  if (
    said
      .slice(from, to + 1)
      .some(({ text }) => NOT_THIS.has(text) && !words.some(({ key }) => key === stem(text)))
  )
    return false;
  const moment = said
    .slice(from, to)
    .some(({ text }, at) => text === 'at' && MOMENTS.has(said[from + at + 1]!.key));
  if (moment && !words.some(({ key }) => key === 'at')) return false;
  const place = PLACES.has(first.word.text);
  for (let at = from - 1; at >= from - BEFORE && said[at]?.word.clause === first.word.clause; at--) {
    const { text, key } = said[at]!;
    if (NOT_THIS.has(text) || (place && ELSEWHERE.has(text))) return false;
    if (ORIGIN.has(text) && STARTED.has(said[at - 1]?.key ?? '')) return false;
    if (ORIGIN.has(first.word.text) && STARTED.has(key)) return false;
  }
  return true;
}

/** Exact things weigh more than words: what the screen's own number says is what the screen says. */
function withTokens(
  script: Script,
  text: string,
  waiting: Record<string, { answer: string; words: string }>,
): Record<string, { answer: string; words: string }> {
  for (const step of script.main) {
    if (step.kind !== 'ask' || step.tokens === undefined) continue;
    const given = answersIn(step.tokens, text);
    if (given !== null) waiting[step.finding] = given;
  }
  return waiting;
}

const within = (inner: Place, outer: Place): boolean => outer.from <= inner.from && outer.to >= inner.to;

const size = ({ from, to }: Place): number => to - from;

function add(hits: Map<string, Hit[]>, finding: string, hit: Hit): void {
  const had = hits.get(finding);
  if (had === undefined) hits.set(finding, [hit]);
  else if (had.length < MOST) had.push(hit);
}

/** "External USB drive" is not also a "USB drive". */
const holds = (outer: Place, inner: Place): boolean => within(inner, outer) && size(outer) > size(inner);

function prepare(script: Script): Prepared {
  const had = prepared.get(script);
  if (had !== undefined) return had;
  const ways: Way[] = [];
  const words = new Set<string>();
  for (const step of [script.main, ...Object.values(script.interrupts).map(({ steps }) => steps)].flat()) {
    if (step.kind !== 'ask') continue;
    for (const [answer, phrases] of Object.entries(step.opening))
      for (const text of phrases) {
        ways.push({ finding: step.finding, answer, phrase: phrase(text) });
        for (const word of listen(text)) words.add(word.text);
      }
  }
  const made = { ways, spelling: vocabulary(words, COMMON_WORDS) };
  prepared.set(script, made);
  return made;
}
