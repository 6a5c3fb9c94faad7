/** The words that work at every question: back, start again, a person, stop. */
import type { Always } from '#engine/entries.ts';
import { standing } from '#engine/fold.ts';
import { isDeskTopic } from '#engine/schema.ts';
import { add, type Draft, notice } from './draft.ts';
import { quote } from './quote.ts';

/** Takes back the last answer, or every answer from question `to` on. `finding`: the one taken from the opening there. */
export function back(draft: Draft, to?: number, finding?: string): void {
  const { state, now } = draft;
  draft.askAgain = true;
  if (state.outcome !== null) return notice(draft, 'That matter is closed; there is nothing to take back.');
  const place = to === undefined ? lastAnswer(draft) : placeOf(draft, to, finding);
  if (place === null) {
    if (state.opening === '') return notice(draft, 'There is nothing to take back yet.');
    if (to !== undefined) return notice(draft, 'That answer has been taken back already.');
    return again(draft);
  }
  if (place.to < state.floor) {
    return notice(
      draft,
      'That cannot be taken back here. If it was a mistake, tell the person who calls you.',
    );
  }
  // What the opening told otherwise still stands, and is taken up again when its question comes.
  const undone = state.answers.filter(
    answer => answer.question >= place.to && (!answer.fromOpening || place.forget?.includes(answer.finding)),
  );
  add(draft, {
    kind: 'back',
    at: now,
    to: place.to,
    why: 'asked',
    ...(place.forget ? { forget: place.forget } : {}),
  });
  const words = undone.map(answer => quote(answer.shown, 40)).join(', ');
  notice(draft, words === '' ? 'Taken back.' : `Taken back: ${words}.`);
}

interface Place {
  to: number;
  forget?: string[];
}

function lastAnswer(draft: Draft): Place | null {
  const said = standing(draft.entries).findLast(
    ({ entry }) => entry.kind === 'answer' || entry.kind === 'interrupt',
  );
  const last = draft.state.answers.at(-1);
  if (last?.fromOpening && last.question > (said?.index ?? -1))
    return { to: last.question, forget: [last.finding] };
  const entry = said?.entry;
  return entry?.kind === 'answer' || entry?.kind === 'interrupt' ? { to: entry.question } : null;
}

/** Answers taken from the opening share the number of the question that was asked next. */
function placeOf(draft: Draft, to: number, finding?: string): Place | null {
  const there = draft.state.answers.filter(answer => answer.question === to);
  const meant =
    finding === undefined
      ? (there.find(answer => !answer.fromOpening) ?? there[0])
      : there.find(answer => answer.fromOpening && answer.finding === finding);
  if (meant === undefined) return null;
  return meant.fromOpening ? { to, forget: [meant.finding] } : { to };
}

/** Somebody came back to a matter that is open. */
export function resumed(draft: Draft, words = ''): void {
  notice(draft, words === '' ? 'Good to see you again.' : `I have kept ${quote(words)}.`);
  add(draft, { kind: 'returned', at: draft.now, words });
}

/** From the beginning. What was said stays in the history. */
export function again(draft: Draft): void {
  add(draft, { kind: 'always', at: draft.now, what: 'again', words: 'start again' });
  draft.askAgain = true;
}

/** A person is asked for, or the questions are to stop. */
export function leave(draft: Draft, what: Exclude<Always, 'back' | 'again'>, words: string): void {
  if (draft.state.outcome !== null) {
    draft.askAgain = true;
    return notice(draft, 'There are no questions open. Write what is wrong, and we begin.');
  }
  // Whoever works at the desk is the person that others ask for.
  const how = isDeskTopic(draft.state.symptom) ? 'stop' : what;
  add(draft, { kind: 'always', at: draft.now, what: how, words });
}
