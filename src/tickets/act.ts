/** What a technician does to a ticket, turned into an entry of its life; or one clear line why it makes no sense now. */
import { distance } from 'fastest-levenshtein';
import type { DeskAction } from '#talk/inbound.ts';
import { above, foldLife, type Life, priorityNow } from './life.ts';
import { type LifeEntry, PRIORITIES, type Priority, reference } from './schema.ts';

export interface Refused {
  refused: string;
}

/** What the action is judged against. */
export interface Acting {
  by: string;
  /** Epoch milliseconds. */
  at: number;
  /** The ticket's own number. */
  number: number;
  /** Id for a question to the person, should it be one. */
  ask: string;
  /** The priority that the facts on the ticket call for. */
  worked: Priority;
  /** Ids of the catalogue's faults. */
  faults: readonly string[];
}

/** The last moment that a date can name, in epoch milliseconds (ECMAScript, time values). */
const LATEST = 8.64e15;
/** Longest question or note that the desk may write. */
export const LONGEST = 1500;

export function act(life: readonly LifeEntry[], action: DeskAction, on: Acting): LifeEntry | Refused {
  const now = foldLife(life);
  const { by, at } = on;
  const refused = over(now, action, on.number) ?? sense(now, action, on);
  if (refused !== null) return { refused };
  switch (action.do) {
    case 'take':
      return { kind: 'taken', at, by };
    case 'hand':
      return { kind: 'handed', at, by, to: action.to.trim() };
    case 'ask':
      return { kind: 'asked', at, by, ask: on.ask, text: action.text.trim() };
    case 'note':
      return { kind: 'note', at, by, text: action.text.trim() };
    case 'priority':
      return {
        kind: 'priority',
        at,
        by,
        priority: action.priority,
        reason: action.reason.trim(),
        worked: on.worked,
      };
    case 'wait':
      return { kind: 'waiting', at, by, until: action.until, reason: action.reason.trim() };
    case 'merge':
      return { kind: 'merged', at, by, into: action.into };
    case 'close':
      return { kind: 'closed', at, by, fault: action.fault, words: action.words.trim() };
    case 'reopen':
      return { kind: 'reopened', at, by, reason: action.reason.trim() };
  }
}

/** A ticket that is over takes notes, and can be opened again; nothing else. */
function over(now: Life, action: DeskAction, number: number): string | null {
  if (now.status !== 'closed' && now.status !== 'merged') {
    return action.do === 'reopen' ? `${reference(number)} is open already.` : null;
  }
  if (action.do === 'note' || action.do === 'reopen') return null;
  return now.mergedInto === null
    ? `${reference(number)} is closed. Reopen it first.`
    : `${reference(number)} was merged into ${reference(now.mergedInto)}. Use that one.`;
}

function sense(now: Life, action: DeskAction, on: Acting): string | null {
  const name = reference(on.number);
  switch (action.do) {
    case 'take':
      if (now.takenBy === null) return null;
      if (now.takenBy !== on.by) return `${now.takenBy} has ${name} already. Ask them to hand it to you.`;
      return now.status === 'waiting' ? null : `You have ${name} already.`;
    case 'hand': {
      const to = action.to.trim();
      if (to === '') return 'Say whom to hand it to.';
      return to === (now.takenBy ?? now.handedTo) ? `${to} has ${name} already.` : null;
    }
    case 'ask':
      return words(action.text, 'Write the question that the person should be asked.');
    case 'note':
      return words(action.text, 'Write what the note should say.');
    case 'priority': {
      if (!PRIORITIES.includes(action.priority)) return `Choose a priority: ${PRIORITIES.join(', ')}.`;
      const current = priorityNow(now, on.worked);
      if (action.priority === current) return `${name} is ${current} already.`;
      if (above(action.priority, current)) return null;
      return words(action.reason, `Lowering a priority needs a reason: say why ${name} can wait.`);
    }
    case 'wait':
      return action.until > on.at && action.until <= LATEST
        ? null
        : 'Say until when it waits: a time that is still to come.';
    case 'merge':
      if (action.into === on.number) return `${name} cannot be merged into itself.`;
      return Number.isSafeInteger(action.into) && action.into > 0
        ? null
        : 'Say which ticket to merge it into, such as R-1001.';
    case 'close':
      if (action.fault === null) {
        return words(action.words, 'Say what it was: a fault of the catalogue, or in words when it is none.');
      }
      return on.faults.includes(action.fault) ? null : unknownFault(action.fault, on.faults);
    case 'reopen':
      return words(action.reason, `Say why ${name} is to be opened again.`);
  }
}

function words(text: string, remedy: string): string | null {
  if (text.trim() === '') return remedy;
  return text.length > LONGEST ? `That is too long: at most ${LONGEST} characters.` : null;
}

function unknownFault(fault: string, faults: readonly string[]): string {
  const nearest = faults.toSorted((a, b) => distance(a, fault) - distance(b, fault)).slice(0, 3);
  return `There is no fault "${fault.slice(0, 60)}" in the catalogue. Near it: ${nearest.join(', ')}.`;
}
