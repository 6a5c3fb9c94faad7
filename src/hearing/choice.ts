/** Which of a question's answers a text means. */

import { FORMS, formsOf } from './forms.ts';
import { placeOf } from './position.ts';
import { prepareSayables, type Said, type Sayable, type Sayables, sayings } from './sayings.ts';
import { type Spoken, spoken } from './spoken.ts';
import { fold, listen } from './words.ts';
import { leading, type Reply, replyOf } from './yes-no.ts';

type Options = readonly Sayable[];

/** Its id, or null. */
export function hearChoice(options: Options, text: string): string | null {
  const whole = wholly(options, text);
  if (whole !== null) return whole;
  const place = placeOf(words(text), options.length, text);
  if (place !== null) return place === 'none' ? null : (options[place]?.id ?? null);
  if (asksBack(text)) return null;
  if (PASSED.test(fold(text.trim()))) return answering(options, 'not-sure');
  const ways = prepareSayables(options);
  const parts = corrected(spoken(text, ways.spelling));
  for (const part of parts.toReversed()) {
    const heard = hearPart(options, ways, part);
    if (heard !== null) return heard === 'unclear' ? null : heard;
  }
  return null;
}

/** Where nothing can be skipped, whoever says so does not know. */
const PASSED =
  /^(?:skip|skip (?:it|this|that)|pass|next|uberspringen|weiter|passer|suivant|saltar|siguiente)[.!]?$/;

const words = (text: string): string[] => listen(text).map(word => word.text);

/** The text is an id, a label or a phrase as it stands; else so without the hedges; else so without the fillers. */
function wholly(options: Options, text: string): string | null {
  const bare = text.trim().toLowerCase();
  const byId = options.find(({ id }) => id === bare);
  if (byId !== undefined) return byId.id;
  const { ways } = prepareSayables(options);
  const said = formsOf(text);
  for (const form of FORMS) {
    const found =
      said[form] === '' ? [] : ways.filter(way => way.forms.some(each => each[form] === said[form]));
    if (found.length === 1) return found[0]!.id;
  }
  return null;
}

/** "What is a dock?" asks for help, and answers nothing. */
const asksBack = (text: string): boolean => text.trim().endsWith('?') && QUESTION.test(fold(text.trim()));
const QUESTION =
  /^(?:and |but |so |sorry |um |hm )?(?:what|how|where|why|which|who|when|can you|could you|do you|should|shall|can i|do i|must i|is that|is it|are you|does it|what's|wie|was|wo|warum|welche|soll|comment|pourquoi|quoi|quel|quelle|ou est|est-ce|que es|como|donde|por que|cual)(?![\p{L}\p{N}])/u;

const CORRECTION =
  /^(?:no wait|wait|sorry|actually|i mean|i meant|scratch that|correction|oops|my mistake|rather|nein doch|moment|quatsch|halt|doch nicht|ich meine|pardon|non attends|attends|enfin|je veux dire|perdon|espera|digo|quiero decir|mejor dicho|hang on|hold on|strike that|let me correct)(?: |$)/;

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
function hearPart(options: Options, ways: Sayables, said: readonly Spoken[]): string | 'unclear' | null {
  const plain = said.map(({ word }) => word.text);
  if (NONE_OF_THEM.test(plain.join(' '))) return options.find(({ id }) => NONE_ID.test(id))?.id ?? null;
  const reply = replyOf(plain);
  if (reply !== null) return answering(options, reply);
  const first = leading(plain, count => said[count - 1]!.word.clause !== said[count]?.word.clause);
  const rest = first === null ? said : said.slice(first.count);
  const whole = sayings(ways, said);
  const found = first === null || whole.kind === 'one' ? whole : sayings(ways, rest);
  return first === null ? lone(options, found, said) : together(options, first.reply, found, rest);
}

function lone(options: Options, found: Said, said: readonly Spoken[]): string | 'unclear' | null {
  if (found.kind === 'one') return found.id;
  if (found.kind === 'several') return 'unclear';
  const short = said.length <= 5;
  if (found.kind === 'denied') {
    // "No works fine": the no answers, and takes back nothing of what it goes on to say.
    const answered = replyOf([said[0]!.word.text]) === 'no' && answering(options, 'no') === found.id;
    return answered ? found.id : otherThan(options, found.id);
  }
  const last = short ? trailing(said) : null;
  return last === null ? null : answering(options, last);
}

/** "Not clicking, no", "it is, yes". */
function trailing(said: readonly Spoken[]): Reply | null {
  const last = said.at(-1)!;
  const own = said.at(-2)?.word.clause !== last.word.clause;
  return own ? replyOf([last.word.text]) : null;
}

const WHETHER = new Set(
  'if whether what which how where when why who about of ob was welche wie si ce que quel cual como'.split(
    ' ',
  ),
);

/** A yes or no, then more: both must agree, unless more says which kind of yes. */
function together(
  options: Options,
  reply: Reply,
  found: Said,
  rest: readonly Spoken[],
): string | 'unclear' | null {
  const own = answering(options, reply);
  // "I don't know if it's off" says nothing of off.
  if (reply === 'not-sure' && WHETHER.has(rest[0]?.word.text ?? '')) return own;
  if (found.kind === 'one' && found.strong) {
    if (own === null || own === found.id) return found.id;
    const against = (reply === 'yes' && found.id === 'no') || (reply === 'no' && found.id === 'yes');
    return against ? 'unclear' : found.id;
  }
  if (found.kind === 'several' && own === null) return 'unclear';
  // "No, I took it out" is not "No, only on a Mac": more was said, and not what that answer goes on to say.
  const more = reply === 'no' && rest.some(({ filler, denier }) => !filler && !denier);
  if (own !== null && !(more && saysMore(options, own))) return own;
  if (found.kind === 'one') return found.id;
  const last = rest.length > 0 ? replyOf(rest.map(({ word }) => word.text)) : null;
  return last === null ? null : answering(options, last);
}

/** Does the answer's label go on after its no? A step that did not help did not, whatever else is told. */
const saysMore = (options: Options, id: string): boolean =>
  !/^(?:no|none|nothing|neither|not-sure|no-change|could-not)$/.test(id) &&
  /^no\P{L}+\p{L}/iu.test(options.find(option => option.id === id)?.label ?? '');

/** Of two answers, what is not the one is the other. */
function otherThan(options: Options, id: string): string | null {
  const firm = options.filter(option => !UNSURE_ID.test(option.id));
  return firm.length === 2 ? (firm.find(option => option.id !== id)?.id ?? null) : null;
}

const UNSURE_ID = /^(?:not-sure|unsure|unknown|dont-know|maybe)$/;
const NOT_SURE_LABEL = /not sure|don't know|can't (?:say|tell|describe)|unsure|no idea/i;
const NONE_OF_THEM =
  /^(?:no )?(?:none|neither|nothing|nichts|keine?s?|aucune?|ninguna?) (?:of|von|de) (?:these|those|them|the above|that|diesen|denen|ceux la|ces|estos|estas)$|^(?:neither|weder noch|none of it)$/;
/** Answers that say that no other fits. */
const NONE_ID = /^(?:none|neither|other|elsewhere|something-else)$/;

/** The answer that a bare yes, no or "not sure" means here: by id, then by its phrases, then by the label's first word. */
export function answering(options: Options, reply: Reply): string | null {
  if (reply === 'not-sure') {
    const unsure =
      options.find(({ id }) => UNSURE_ID.test(id)) ??
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
  return reply === 'no'
    ? (options.find(({ id }) => /^(?:none|nothing|neither)$/.test(id))?.id ?? null)
    : null;
}
