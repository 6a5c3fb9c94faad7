/** Which of a question's answers a text means. */
import { placeOf } from './position.ts';
import { type Said, sayings } from './sayings.ts';
import { vocabulary } from './spelling.ts';
import { type Spoken, spoken } from './spoken.ts';
import { fold, listen } from './words.ts';
import { leading, type Reply, replyOf } from './yes-no.ts';

export interface Option {
  id: string;
  label: string;
  hears: readonly string[];
}

/** Its id, or null. */
export function hearChoice(options: readonly Option[], text: string): string | null {
  const whole = wholly(options, text);
  if (whole !== null) return whole;
  const place = placeOf(words(text), options.length, text);
  if (place !== null) return place === 'none' ? null : (options[place]?.id ?? null);
  const spelling = vocabulary(options.flatMap(option => waysOf(option).flatMap(words)));
  const said = spoken(text, spelling);
  const parts = corrected(said);
  for (const part of parts.toReversed()) {
    const heard = hearPart(options, part);
    if (heard !== null) return heard === 'unclear' ? null : heard;
  }
  return null;
}

const words = (text: string): string[] => listen(text).map(word => word.text);
const waysOf = ({ id, label, hears }: Option): string[] => [label, ...hears, id.replaceAll('-', ' ')];
const flat = (text: string): string => words(text).join(' ');

/** The text is an id, a label or a phrase as it stands. */
function wholly(options: readonly Option[], text: string): string | null {
  const bare = text.trim().toLowerCase();
  const byId = options.find(({ id }) => id === bare);
  if (byId !== undefined) return byId.id;
  const folded = flat(text);
  if (folded === '') return null;
  const same = options.filter(option => waysOf(option).some(way => flat(way) === folded));
  return same.length === 1 ? same[0]!.id : null;
}

const CORRECTION =
  /^(?:no wait|wait no|wait|sorry|actually|i mean|i meant|scratch that|correction|oops|my mistake|rather|nein doch|moment|quatsch|halt|doch nicht|ich meine|pardon|non attends|attends|enfin|je veux dire|perdon|espera|digo|quiero decir|mejor dicho|hang on|hold on|strike that|let me correct)(?: |$)/;

/** The text cut where someone corrects themselves. The last part that says something counts. */
function corrected(said: readonly Spoken[]): Spoken[][] {
  const parts: Spoken[][] = [[]];
  for (let at = 0; at < said.length; at++) {
    const ahead = said
      .slice(at, at + 3)
      .map(({ word }) => word.text)
      .join(' ');
    const mark = CORRECTION.exec(`${ahead} `)?.[0].trim();
    if (mark !== undefined && mark !== '') {
      parts.push([]);
      at += mark.split(' ').length - 1;
    } else parts.at(-1)!.push(said[at]!);
  }
  return parts.filter(part => part.length > 0);
}

/** `unclear`: it says something that fits more than one answer. */
function hearPart(options: readonly Option[], said: readonly Spoken[]): string | 'unclear' | null {
  const plain = said.map(({ word }) => word.text);
  const reply = replyOf(plain);
  if (reply !== null) return answering(options, reply);
  const first = leading(plain, count => said[count - 1]!.word.clause !== said[count]?.word.clause);
  const rest = first === null ? said : said.slice(first.count);
  const whole = sayings(options, said);
  const found = first === null || whole.kind === 'one' ? whole : sayings(options, rest);
  return first === null ? lone(options, found, said) : together(options, first.reply, found, rest);
}

function lone(options: readonly Option[], found: Said, said: readonly Spoken[]): string | 'unclear' | null {
  if (found.kind === 'one') return found.id;
  if (found.kind === 'several') return 'unclear';
  const short = said.length <= 5;
  if (found.kind === 'denied') return found.id === 'yes' && has(options, 'no') ? 'no' : null;
  const last = short ? trailing(said) : null;
  return last === null ? null : answering(options, last);
}

/** "Not clicking, no", "it is, yes". */
function trailing(said: readonly Spoken[]): Reply | null {
  const last = said.at(-1)!;
  const own = said.at(-2)?.word.clause !== last.word.clause;
  return own ? replyOf([last.word.text]) : null;
}

/** A yes or no, then more: both must agree, unless more says which kind of yes. */
function together(
  options: readonly Option[],
  reply: Reply,
  found: Said,
  rest: readonly Spoken[],
): string | 'unclear' | null {
  const own = answering(options, reply);
  if (found.kind === 'one' && found.strong) {
    if (own === null || own === found.id) return found.id;
    const against = (reply === 'yes' && found.id === 'no') || (reply === 'no' && found.id === 'yes');
    return against ? 'unclear' : found.id;
  }
  if (found.kind === 'several' && own === null) return 'unclear';
  if (own !== null) return own;
  if (found.kind === 'one') return found.id;
  const last = rest.length > 0 ? replyOf(rest.map(({ word }) => word.text)) : null;
  return last === null ? null : answering(options, last);
}

const has = (options: readonly Option[], id: string): boolean => options.some(option => option.id === id);

const NOT_SURE_LABEL = /not sure|don't know|can't (?:say|tell|describe)|unsure|no idea/i;
/** "None of these", "nothing". */
const NONE_ID = /^(?:none|nothing|neither)$/;

/** The answer that a bare yes, no or "not sure" means here: by id, then by its phrases, then by the label's first word. */
export function answering(options: readonly Option[], reply: Reply): string | null {
  if (reply === 'not-sure') {
    const unsure =
      options.find(({ id }) => /^(?:not-sure|unsure|unknown|dont-know|maybe)$/.test(id)) ??
      options.find(({ hears }) => hears.some(way => replyOf(words(way)) === 'not-sure')) ??
      options.find(({ label }) => NOT_SURE_LABEL.test(label));
    return unsure?.id ?? null;
  }
  const byId = options.find(({ id }) => id === reply);
  if (byId !== undefined) return byId.id;
  const spokenAs = options.filter(({ hears }) =>
    hears.some(way => replyOf(words(way)) === reply && words(way).length === 1),
  );
  if (spokenAs.length > 0) return spokenAs.length === 1 ? spokenAs[0]!.id : null;
  const labelled = options.filter(({ label }) => fold(label).split(/[^\p{L}]+/u)[0] === reply);
  if (labelled.length > 0) return labelled.length === 1 ? labelled[0]!.id : null;
  return reply === 'no' ? (options.find(({ id }) => NONE_ID.test(id))?.id ?? null) : null;
}
