/** A chat as a page shows it: what was said on both sides in its order, what is asked now, and what can be changed. Pure. */
import type { OutcomeHow } from '#engine/entries.ts';
import { fold } from '#engine/fold.ts';
import { type HandOver, isQuestion, type Message, type Question } from '#engine/messages.ts';
import { worded } from '#engine/placeholders.ts';
import type { Script } from '#engine/script.ts';
import type { Given, State } from '#engine/state.ts';
import type { Conversation, SentRow } from '#store/store.ts';
import { type Said, saidOf } from './said.ts';

/** "Change this": back to question `to`, which takes these answers back. */
export interface Change {
  to: number;
  /** Set for what was taken from the opening. */
  finding: string | null;
  undoes: string[];
}

export type Item = { key: string; at: number } & (
  | { by: 'bot'; message: Message }
  | { by: 'person'; said: Said; change: Change | null }
);

export interface Matter {
  conversation: string;
  number: number | null;
  ticket: boolean;
  outcome: OutcomeHow | null;
  openedAt: number;
  items: Item[];
}

export interface Open {
  conversation: string;
  question: Question;
  /** How many answers stand. */
  answered: number;
}

export interface Answer {
  asked: string;
  shown: string;
  change: Change | null;
}

export interface Thread {
  /** Oldest first; the last one is going on. Empty: nothing was said yet. */
  matters: Matter[];
  open: Open | null;
  /** What the desk was told so far. */
  answers: Answer[];
  handOver: HandOver | null;
  /** Id of the newest row; 0 before the first. */
  newest: number;
  /** The newest question sent, as `conversation:number`; empty before the first. */
  seen: string;
  /** Element where the newest begins: cautions before the question they came with. */
  news: string;
  /** Something was said and its reply is on its way. */
  waiting: boolean;
}

export interface Shown {
  conversations: Conversation[];
  sent: SentRow[];
  /** Of the last conversation. */
  script: Script | null;
}

export function threadOf({ conversations, sent, script }: Shown): Thread {
  const current = conversations.at(-1);
  const state = current === undefined ? null : fold(script, current.entries).state;
  const matters = conversations.map(conversation =>
    matterOf(
      conversation,
      sent.filter(row => row.conversation === conversation.id),
      conversation === current ? state : null,
    ),
  );
  const messages = sent.filter(row => row.conversation === current?.id).flatMap(row => row.messages);
  const question = openQuestion(messages, state);
  const last = matters.at(-1)?.items.at(-1);
  return {
    matters,
    open:
      current !== undefined && question !== null
        ? { conversation: current.id, question, answered: state?.answers.length ?? 0 }
        : null,
    answers: state === null ? [] : answersOf(state, script),
    handOver: messages.findLast(message => message.kind === 'hand-over') ?? null,
    newest: sent.at(-1)?.id ?? 0,
    seen: current === undefined ? '' : seenOf(current.id, messages),
    news: newsOf(sent.at(-1)),
    waiting: last?.by === 'person',
  };
}

function newsOf(row: SentRow | undefined): string {
  const first = row?.messages.findIndex(message => !isQuestion(message)) ?? -1;
  return row === undefined || first === -1 ? 'now' : keyOf(row, first);
}

const keyOf = (row: SentRow, index: number) => `b-${row.id}-${index}`;

const seenOf = (conversation: string, messages: Message[]): string => {
  const last = messages.findLast(isQuestion);
  return last === undefined ? '' : `${conversation}:${last.number}`;
};

/** The last question, unless something has ended the questions behind it or it is answered already. */
function openQuestion(messages: Message[], state: State | null): Question | null {
  const last = messages.findLast(
    message => isQuestion(message) || message.kind === 'ending' || message.kind === 'hand-over',
  );
  if (last === undefined || !isQuestion(last) || state === null) return null;
  const passed = state.number > last.number || (state.outcome !== null && state.standing.length === 0);
  return passed ? null : last;
}

function matterOf(conversation: Conversation, sent: SentRow[], state: State | null): Matter {
  const { id, entries, number, outcome, openedAt, ticket } = conversation;
  const messages = sent.flatMap(row => row.messages).filter(isQuestion);
  const labelOf = (symptom: string) =>
    messages.flatMap(({ answers }) => answers).findLast(answer => answer.id === symptom)?.label ?? symptom;
  const person = saidOf(entries, labelOf).map((said, index): Item => {
    const question = said.kind === 'words' ? said.answers : null;
    const given = state?.answers.find(answer => answer.question === question && !answer.fromOpening);
    const change = state !== null && given !== undefined ? changeTo(state, given) : null;
    return { by: 'person', key: `p-${id}-${index}`, at: said.at, said, change };
  });
  const bot = sent.flatMap(row =>
    row.messages.map((message, index): Item => ({ by: 'bot', key: keyOf(row, index), at: row.at, message })),
  );
  return { conversation: id, number, outcome, openedAt, ticket, items: merged(person, bot) };
}

/** Both in their own order; at the same time the person's words come before the reply to them. */
function merged(person: Item[], bot: Item[]): Item[] {
  const items: Item[] = [];
  let next = 0;
  for (const item of bot) {
    while (next < person.length && person[next]!.at <= item.at) items.push(person[next++]!);
    items.push(item);
  }
  return [...items, ...person.slice(next)];
}

/** What the opening told otherwise still stands, and is taken up again. */
function changeTo(state: State, given: Given): Change | null {
  const to = given.question;
  if (state.outcome !== null || to < state.floor) return null;
  const undone = state.answers.filter(
    answer => answer === given || (answer.question >= to && !answer.fromOpening),
  );
  return { to, finding: given.fromOpening ? given.finding : null, undoes: undone.map(each => each.shown) };
}

function answersOf(state: State, script: Script | null): Answer[] {
  const steps =
    script === null
      ? []
      : [...script.main, ...Object.values(script.interrupts).flatMap(interrupt => interrupt.steps)];
  return state.answers.map(given => {
    const { step, shown } = given;
    const asked = steps.find(each => each.id === step);
    const text = asked?.kind === 'ask' ? asked.text : asked?.kind === 'try' ? asked.works : step;
    const said = script === null ? text : worded(script, state, text);
    return { asked: said, shown, change: changeTo(state, given) };
  });
}
