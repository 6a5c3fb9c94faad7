/** Answers that the opening already gives. A wrong guess is worse than a question: precision before recall. */
import type { Script } from '#engine/script.ts';
import { COMMON_WORDS } from './common-words.ts';
import { type Vocabulary, vocabulary } from './spelling.ts';
import { type Phrase, type Place, phrase, places, spoken, typed } from './spoken.ts';
import { answersIn } from './tokens.ts';
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

/** Words of a long opening that are read. */
const LONGEST = 20_000;
/** Other words that may stand between those of a phrase. */
const GAP = 1;
const prepared = new WeakMap<Script, Prepared>();

/** By finding: the answer and the person's own words for it. Where the words fit two answers, neither is taken. */
export function hearWaiting(script: Script, text: string): Record<string, { answer: string; words: string }> {
  const { ways, spelling } = prepare(script);
  const read = text.slice(0, LONGEST);
  const said = spoken(read, spelling);
  const hits = new Map<string, Hit[]>();
  const shut = new Map<string, Hit[]>();
  for (const { finding, answer, phrase: way } of ways) {
    for (const place of places(way, said, GAP)) add(hits, finding, { ...place, answer });
    for (const place of places(way, said, GAP, false)) add(shut, finding, { ...place, answer });
  }
  const waiting: Record<string, { answer: string; words: string }> = {};
  for (const [finding, all] of hits) {
    const [first, ...others] = all.filter(
      hit => !all.some(other => other.answer !== hit.answer && holds(other, hit)),
    );
    if (first === undefined) continue;
    // "My laptop does not see the stick": which of the two has the problem is asked.
    const denied = (shut.get(finding) ?? []).filter(hit => !all.some(other => within(hit, other)));
    if ([...others, ...denied].some(({ answer }) => answer !== first.answer)) continue;
    waiting[finding] = { answer: first.answer, words: typed(read, said, first) };
  }
  return withTokens(script, read, waiting);
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

function add(hits: Map<string, Hit[]>, finding: string, hit: Hit): void {
  const had = hits.get(finding);
  if (had === undefined) hits.set(finding, [hit]);
  else had.push(hit);
}

/** "External USB drive" is not also a "USB drive". */
const holds = (outer: Place, inner: Place): boolean =>
  within(inner, outer) && outer.to - outer.from > inner.to - inner.from;

function prepare(script: Script): Prepared {
  const had = prepared.get(script);
  if (had !== undefined) return had;
  const ways: Way[] = [];
  const words = new Set<string>();
  for (const step of script.main) {
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
