/** The first words about a problem: which symptom, what else they already say, and whether they ring an alarm. */
import type { Opened } from '#engine/entries.ts';
import type { Say } from '#engine/messages.ts';
import { hearInterrupts } from '#hearing/interrupts.ts';
import { otherMatters } from '#hearing/matters.ts';
import { hearOpening, type Opening, OTHER } from '#hearing/opening.ts';
import { add, type Draft, notice } from './draft.ts';
import { hearAlso } from './hear-site.ts';
import { flowFor, titleOf } from './knowledge.ts';
import { inTheirLanguage } from './languages.ts';
import { quote } from './quote.ts';

/** Hears `words` as an opening and appends what follows from it. `symptom`: already chosen by the person, else it is heard. */
export function open(draft: Draft, words: string, chosen?: string): void {
  const { knowledge, now } = draft;
  const heard = hearOpening(knowledge.openings, words);
  const alarms = hearInterrupts(knowledge.catalogue.interrupts, words, chosen ?? heard.symptom);
  const sureOf =
    chosen ?? (heard.sure || coversAnAlarm(draft, words, heard.symptom) ? heard.symptom : nearlySure(heard));
  // An alarm does not wait until we know which drive it is about, and is never turned away as somebody else's matter.
  const named = alarms.length > 0 ? (chosen ?? storage(heard.symptom)) : sureOf;
  const flow = named !== null || alarms.length > 0 ? flowFor(knowledge, named) : null;
  // An alarm is told in several parts, and what it brings is no matter of its own.
  const also =
    named === null || alarms.length > 0 ? undefined : otherMatters(knowledge.openings, words, named)[0];
  const opened: Opened = {
    kind: 'opened',
    at: now,
    words,
    symptom: named,
    script: flow?.hash ?? null,
    candidates: flow === null ? offered(heard) : [],
    waiting: flow === null ? {} : hearAlso(flow.script, words),
    screen: heard.screen,
    ...(also === undefined ? {} : { also }),
  };
  const first = !draft.entries.some(entry => entry.kind === 'opened');
  inTheirLanguage(draft, words, { danger: alarms.some(({ interrupt }) => interrupt === 'danger'), first });
  add(draft, opened);
  if (also !== undefined) {
    const [first, second] = [titleOf(knowledge, named), titleOf(knowledge, also.symptom)];
    notice(draft, `I read two things in that: ${first}, and ${second}. We take the first one first.`);
  }
  for (const { interrupt, sure, words: said } of alarms) {
    add(draft, { kind: 'interrupt', at: now, question: draft.state.number, interrupt, sure, words: said });
  }
  tellOutages(draft);
  if (flow === null && opened.candidates.length === 0 && !heard.greeting) {
    notice(draft, 'I could not tell from that what is wrong with which drive, file or share.');
    const before = draft.entries.filter(entry => entry.kind === 'opened' && entry.script === null).length;
    if (before >= 2) notice(draft, 'If you would rather talk to somebody, say **person**.');
  }
}

/** What is put to the person. "Something else" alone is nothing to choose from. */
function offered({ candidates, symptom }: Opening): string[] {
  const all = candidates.length > 0 ? candidates : symptom === null ? [] : [symptom];
  return all.every(each => each === OTHER) ? [] : all;
}

/** From this share on the only storage matter that is likely is not asked about first. */
const LIKELY = 0.7;
/** And from here on whatever stands against it: right for 313 of the 320 openings that are so likely and not sure. */
const VERY_LIKELY = 0.9;

/**
 * What nobody could choose between is not put to them: matters of starting up begin with the same look and part by what is seen;
 * and where one matter of storage stands against "something else" alone, its own questions tell soon enough.
 * Of the openings that are not sure, this is right for 160 of 164.
 */
function nearlySure({ candidates, ranked }: Opening): string | null {
  const [first, ...others] = candidates;
  if (first === undefined || first === OTHER) return null;
  const share = ranked[0]?.score ?? 0;
  if (share >= VERY_LIKELY) return first;
  const storage = others.filter(symptom => symptom !== OTHER);
  if (first.startsWith('boot-') && storage.every(symptom => symptom.startsWith('boot-'))) return first;
  return storage.length === 0 && share >= LIKELY ? first : null;
}

/** A drive that may be dying is not first asked what its noise is closest to: the symptom's own questions warn at once. */
function coversAnAlarm({ knowledge }: Draft, words: string, symptom: string | null): boolean {
  const { interrupts } = knowledge.catalogue;
  return (
    symptom !== null &&
    hearInterrupts(interrupts, words, null).some(({ interrupt }) =>
      interrupts[interrupt]?.not_for?.includes(symptom),
    )
  );
}

const storage = (symptom: string | null) => (symptom === OTHER ? null : symptom);

/** A person who reports what is already known is told at once. */
export function tellOutages(draft: Draft): void {
  const { state, knowledge, now } = draft;
  if (state.symptom === null || state.outcome !== null) return;
  const place = state.findings.site ?? state.waiting.site?.answer;
  for (const outage of knowledge.outages) {
    const here = outage.site === null || place === undefined || place === outage.site;
    if (outage.symptom === state.symptom && here && !state.outages.includes(outage.id)) {
      add(draft, { kind: 'outage', at: now, outage: outage.id, text: outage.text });
    }
  }
}

/** The other matter of the first words, when the first has its outcome. Nobody in danger is kept with it. */
export function offerOther({ entries, state }: Draft): Say[] {
  const opened = entries.findLast(entry => entry.kind === 'opened');
  const open = state.outcome === null || state.outcome.how === 'left' || state.signs.includes('danger');
  if (opened?.also === undefined || open) return [];
  return [
    {
      kind: 'say',
      text: `At the start you also wrote: ${quote(opened.also.words)}. If that still needs help, send me those words again, and we begin with it.`,
    },
  ];
}

/** Words heard as an opening that name this symptom or, unsure, might. For deciding whether a new matter has begun. */
export function names(draft: Draft, words: string): string | null {
  const heard = hearOpening(draft.knowledge.openings, words);
  return heard.symptom ?? heard.candidates[0] ?? null;
}

/**
 * Of somebody who says, in the midst of one matter, that it is about another now: that one's title, and what they said of it, which
 * may all the same be an answer here.
 */
export function turnsTo(draft: Draft, words: string): { title: string; rest: string } | null {
  const { state, knowledge } = draft;
  if (!TURNS.test(words)) return null;
  const rest = words.replace(TURNS, ' ');
  const named = namesSurely(draft, rest);
  return named === null || named === state.symptom ? null : { title: titleOf(knowledge, named), rest };
}
const TURNS =
  /(?:^\W*(?:no|nein|non)\b\W*)?\b(?:(?:i|we)(?:'ve| have)? )?(?:changed my mind|forget (?:that|it|all that|what i (?:said|wrote)|(?:about )?(?:the|my) \w+)|never ?mind(?: that)?|(?:is|it's|about) something else|(?:another|a different|the other|a new) (?:problem|matter|question)|vergiss (?:es|das)|etwas anderes|(?:ein )?anderes problem|autre problème|otro problema)\b/i;

/** The same where there is no doubt about it. */
export function namesSurely(draft: Draft, words: string): string | null {
  const heard = hearOpening(draft.knowledge.openings, words);
  return heard.sure ? heard.symptom : null;
}
