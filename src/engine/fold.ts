/** The state of a conversation is a fold of its entries over its script: same entries, same state, on any day and any machine. */
import {
  advance,
  follow,
  guard,
  handedOver,
  openStep,
  pendingWork,
  record,
  type Saying,
  wordsKnown,
} from './advance.ts';
import type {
  Answered,
  AnswerValue,
  Entry,
  Interrupted,
  Opened,
  Outcome,
  PictureRead,
  WorkedOut,
} from './entries.ts';
import { cautionOf, enter, mayInterrupt } from './interrupts.ts';
import type { OutageNotice } from './messages.ts';
import { isDeskTopic } from './schema.ts';
import { type Question, type Script, verdictOf } from './script.ts';
import { fresh, type State } from './state.ts';

export interface Folded {
  state: State;
  /** What the entries from `since` on brought to be said, oldest first. */
  said: (Saying | OutageNotice)[];
}

/** An entry with its place in the whole history; withdrawn ones are left out. */
interface Placed {
  entry: Entry;
  index: number;
}

/**
 * Folds the entries. `since`: index of the first entry whose sayings are wanted.
 * An answer that fits no open question is passed over, so that a history from an older script cannot break a newer one.
 */
export function fold(script: Script | null, entries: readonly Entry[], since = entries.length): Folded {
  const state = fresh(script?.start);
  const said: Folded['said'] = [];
  const forgotten = forgets(entries);
  const held = heldUp(standing(entries));
  // An alarm that is taken back lets out what it held up.
  const before = entries.slice(since).some(isWithdrawal) ? heldUp(standing(entries.slice(0, since))) : null;
  for (const { entry, index } of standing(entries)) {
    const sayings =
      entry.kind === 'opened' && index === held
        ? opened(script, state, entry, index, forgotten, true)
        : apply(script, state, entry, index, forgotten);
    if (index >= since || index === before) said.push(...sayings);
  }
  // After a withdrawal the open question is asked anew under a number of its own, so that older buttons stay dead.
  state.number = Math.max(state.number, entries.findLastIndex(isWithdrawal) + 1);
  return { state, said };
}

/** The opening whose own words ring an alarm: nothing of the flow is said before that is settled. */
function heldUp(counting: readonly Placed[]): number | null {
  const rung = counting.find(({ entry }, place) => {
    const next = counting[place + 1]?.entry;
    return entry.kind === 'opened' && next?.kind === 'interrupt' && next.at === entry.at;
  });
  return rung?.index ?? null;
}

const isWithdrawal = (entry: Entry) =>
  entry.kind === 'back' || (entry.kind === 'always' && entry.what === 'again');

/** The entries that still count. */
export function standing(entries: readonly Entry[]): Placed[] {
  let kept: Placed[] = [];
  entries.forEach((entry, index) => {
    if (entry.kind === 'back') {
      kept = kept.filter(({ entry: other }) => !withdrawnBy(other, entry.to));
    } else if (entry.kind === 'always' && entry.what === 'again') {
      kept = kept.filter(({ entry: other }) => survivesAgain(other));
    } else {
      kept.push({ entry, index });
    }
  });
  return kept;
}

function withdrawnBy(entry: Entry, to: number): boolean {
  switch (entry.kind) {
    case 'answer':
    case 'worked':
    case 'interrupt':
    case 'missed':
      return entry.question >= to;
    case 'opened':
      return to <= 0;
    default:
      return false;
  }
}

/** Starting again withdraws what the person said; what came from the desk, the site or the clock stands. */
const survivesAgain = (entry: Entry) =>
  entry.kind === 'outage' ||
  entry.kind === 'outage-over' ||
  entry.kind === 'desk-ask' ||
  entry.kind === 'attached' ||
  entry.kind === 'read' ||
  entry.kind === 'note';

/** Applies one entry to `state` in place and returns what is to be said because of it. */
export function apply(
  script: Script | null,
  state: State,
  entry: Entry,
  index: number,
  forgotten: ReadonlySet<string> = new Set(),
): Folded['said'] {
  switch (entry.kind) {
    case 'opened':
      return opened(script, state, entry, index, forgotten);
    case 'answer':
      return answered(script, state, entry, index, forgotten);
    case 'worked':
      return worked(script, state, entry, index);
    case 'interrupt':
      return interrupted(script, state, entry, index);
    case 'missed':
      if (entry.question === state.number && !entry.asked) state.misses += 1;
      return [];
    case 'always': {
      const how = entry.what === 'person' ? 'escalated' : 'left';
      const because = entry.what === 'person' ? 'asked-for-a-person' : 'stopped';
      return end(state, { ...BLANK, how, because }, index);
    }
    case 'timer':
      if (entry.what === 'left') return end(state, { ...BLANK, how: 'left', because: 'left' }, index);
      return entry.what === 'nudge' ? resume(state, '', index) : [];
    case 'returned':
      return resume(state, entry.words, index);
    case 'outage':
      if (state.outages.includes(entry.outage)) return [];
      state.outages.push(entry.outage);
      // Handed over already: the ticket is part of it, and there is nothing to ask.
      if (state.outcome !== null) return [];
      if (state.ticketDue) return [];
      state.standing.unshift({ step: '@outage', outage: entry.outage, text: entry.text });
      moved(state, index);
      return [{ kind: 'outage-notice', text: entry.text }];
    case 'outage-over':
      state.standing = state.standing.filter(
        other => other.step !== '@outage' || other.outage !== entry.outage,
      );
      return moved(state, index);
    case 'desk-ask': {
      const { ask, ticket, conversation, by, text } = entry;
      state.standing.push({ step: '@desk', ask, ticket, conversation, by, text });
      return moved(state, index);
    }
    case 'script-withdrawn':
      return end(state, { ...handedOver(null), because: 'withdrawn' }, index);
    case 'attached': {
      const { kind: _kind, ...attached } = entry;
      state.attachments.push(attached);
      return [];
    }
    case 'read':
      return seenOn(state, entry, index);
    case 'note':
    case 'back':
      return [];
  }
}

/** Not of what is said already, after the outcome, at the desk, nor while an alarm is asked about. */
export function asksAbout(state: State, seen: PictureRead['seen']): seen is NonNullable<typeof seen> {
  const known = state.screen?.id === seen?.id || state.standing.some(other => other.step === '@photo');
  const open = state.outcome === null && state.frames.length <= 1 && !isDeskTopic(state.symptom);
  return seen !== null && !known && open;
}

/** Was it read right? */
function seenOn(state: State, { id, seen, covered }: PictureRead, index: number): [] {
  if (covered !== null)
    state.attachments = state.attachments.map(each => (each.id === id ? { ...each, ...covered } : each));
  if (!asksAbout(state, seen)) return [];
  state.standing.push({ step: '@photo', ...seen });
  return moved(state, index);
}

/** Before anything else: is the old matter still the matter? */
function resume(state: State, words: string, index: number): [] {
  if (state.outcome?.how === 'left') state.outcome = null;
  if (state.frames.length === 0 || state.outcome !== null) return [];
  state.standing = state.standing.filter(other => other.step !== '@returned');
  state.standing.unshift({ step: '@returned', words });
  return moved(state, index);
}

export const BLANK: Outcome = { how: 'left', fault: null, because: null, text: null, keep: null };

function moved(state: State, index: number): [] {
  state.number = index + 1;
  state.misses = 0;
  return [];
}

export function end(state: State, outcome: Outcome, index: number): [] {
  if (state.outcome === null) {
    // A danger that is asked about and not answered is taken to be one.
    state.outcome = guard(state, outcome);
    if (state.outcome.how === 'escalated') state.ticketDue = true;
    state.standing = state.standing.filter(other => other.step === '@desk');
  }
  return moved(state, index);
}

/** Findings that a back has taken out of the opening since the last start. */
function forgets(entries: readonly Entry[]): Set<string> {
  const forgotten = new Set<string>();
  for (const entry of entries) {
    if (entry.kind === 'always' && entry.what === 'again') forgotten.clear();
    if (entry.kind === 'back') for (const finding of entry.forget ?? []) forgotten.add(finding);
  }
  return forgotten;
}

function opened(
  script: Script | null,
  state: State,
  entry: Opened,
  index: number,
  forgotten: ReadonlySet<string>,
  alarmed = false,
): Saying[] {
  state.opening = entry.words;
  state.screen = entry.screen ?? state.screen;
  state.candidates = entry.candidates;
  state.waiting = kept(entry.waiting, forgotten);
  moved(state, index);
  if (entry.script === null || script === null) return [];
  state.symptom = entry.symptom;
  state.findings = { ...script.start };
  state.frames = [{ segment: 'main', at: 0 }];
  return alarmed ? [] : advance(script, state);
}

function answered(
  script: Script | null,
  state: State,
  entry: Answered,
  index: number,
  forgotten: ReadonlySet<string>,
): Folded['said'] {
  if (entry.step.startsWith('@')) {
    const asked = state.standing.find(other => other.step === entry.step);
    if (asked === undefined) return [];
    state.standing = state.standing.filter(other => other !== asked);
    return answeredStanding(script, state, entry, index, asked);
  }
  if (script === null) return [];
  const step = openStep(script, state);
  if (step === null || step.id !== entry.step) return [];
  const key = answerKey(step, entry.value);
  if (key === null) return [];
  moved(state, index);
  const { question, value, words, at, also = {} } = entry;
  state.waiting = { ...state.waiting, ...kept(also, forgotten) };
  record(state, step, { question, value, shown: shown(step, value), words, at, fromOpening: false });
  return [...follow(script, state, step, key), ...advance(script, state)];
}

/** Without what was taken back. */
const kept = (waiting: State['waiting'], forgotten: ReadonlySet<string>): State['waiting'] =>
  Object.fromEntries(Object.entries(waiting).filter(([finding]) => !forgotten.has(finding)));

/** A verdict for the step that waits for it; any other is passed over. */
function worked(script: Script | null, state: State, entry: WorkedOut, index: number): Saying[] {
  if (script === null || pendingWork(script, state)?.id !== entry.step) return [];
  moved(state, index);
  const { kind: _, ...kept } = entry;
  state.worked.push(kept);
  state.findings[verdictOf(entry.step)] = entry.verdict;
  return advance(script, state);
}

function answeredStanding(
  script: Script | null,
  state: State,
  entry: Answered,
  index: number,
  asked: State['standing'][number],
): Folded['said'] {
  const answer = 'id' in entry.value ? entry.value.id : null;
  moved(state, index);
  switch (asked.step) {
    case '@outage':
      if (answer === 'same') end(state, { ...BLANK, how: 'known-outage', text: asked.outage }, index);
      return [];
    case '@returned':
      if (answer === 'solved') end(state, { ...BLANK, because: 'stopped' }, index);
      return [];
    case '@doubt':
      if (script === null) return [];
      if (answer !== 'no') return saidOnce(script, asked.interrupt, enter(script, state, asked.interrupt));
      // What the opening's alarm held up comes now.
      return state.standing.some(other => other.step === '@doubt') ? [] : advance(script, state);
    case '@desk':
      return [];
    case '@photo':
      return answer === 'yes' ? confirmed(script, state, asked, entry.also ?? {}) : [];
  }
}

/** The doubt was put right below the alarm's words: a frightened person need not read them twice. */
const saidOnce = (script: Script, interrupt: string, said: Saying[]): Saying[] =>
  said.filter(
    saying => saying.kind !== 'caution' || saying.id !== script.interrupts[interrupt]!.about.caution,
  );

/** What the screen showed is known, with the answers that it gives. The open question may be one of them. */
function confirmed(
  script: Script | null,
  state: State,
  { id, verbatim }: { id: string; verbatim: string },
  also: State['waiting'],
): Saying[] {
  state.screen = { id, verbatim };
  state.waiting = { ...state.waiting, ...also };
  const step = script === null ? null : openStep(script, state);
  const answered = step !== null && (step.finding in state.waiting || wordsKnown(step, state));
  return script !== null && answered ? advance(script, state) : [];
}

function interrupted(script: Script | null, state: State, entry: Interrupted, index: number): Saying[] {
  if (script === null || state.outcome !== null || !mayInterrupt(script, state, entry.interrupt)) return [];
  state.waiting = { ...state.waiting, ...entry.also };
  moved(state, index);
  if (entry.sure) {
    state.standing = state.standing.filter(other => other.step !== '@doubt');
    return enter(script, state, entry.interrupt);
  }
  state.standing.unshift({ step: '@doubt', interrupt: entry.interrupt, words: entry.words });
  const about = script.interrupts[entry.interrupt]!.about;
  return cautionOf(script, state, about.caution);
}

/** Which of the step's consequences the value calls for; null when it is none of the answers. */
export function answerKey(step: Question, value: AnswerValue): string | null {
  if ('id' in value) return step.answers.some(answer => answer.id === value.id) ? value.id : null;
  if (step.kind === 'try' || step.form === 'choice' || step.form === 'yes-no') return null;
  if ('skipped' in value) return step.optional ? 'skipped' : null;
  return 'given';
}

/** The answer as one reads it on a ticket. */
export function shown(step: Question, value: AnswerValue): string {
  if ('id' in value) return step.answers.find(answer => answer.id === value.id)?.label ?? value.id;
  if ('number' in value) return `${value.number}${step.kind === 'ask' && step.unit ? ` ${step.unit}` : ''}`;
  if ('text' in value) return value.text;
  return 'photo' in value ? 'photo' : 'skipped';
}
