/** A ticket's life: its entries folded into where it stands. */
import { type LifeEntry, PRIORITIES, type Priority, type TicketStatus } from './schema.ts';

export interface Life {
  status: TicketStatus;
  takenBy: string | null;
  /** Handed to somebody who has not taken it yet. */
  handedTo: string | null;
  /** Set by hand; `worked` is what the facts called for at that time. */
  setPriority: { priority: Priority; reason: string; by: string; at: number; worked: Priority } | null;
  /** Epoch milliseconds; null when it waits for nothing. */
  waitingUntil: number | null;
  confirmedFault: string | null;
  /** The last words it was closed with. */
  closedWith: string | null;
  mergedInto: number | null;
  questions: { ask: string; text: string; by: string; at: number }[];
  answers: { ask: string; text: string; by: string; at: number }[];
}

/** Folds a ticket's life. Same entries, same standing. */
export function foldLife(entries: readonly LifeEntry[]): Life {
  const life: Life = {
    status: 'open',
    takenBy: null,
    handedTo: null,
    setPriority: null,
    waitingUntil: null,
    confirmedFault: null,
    closedWith: null,
    mergedInto: null,
    questions: [],
    answers: [],
  };
  for (const entry of entries) apply(life, entry);
  return life;
}

function apply(life: Life, entry: LifeEntry): void {
  const { by, at } = entry;
  switch (entry.kind) {
    case 'opened':
    case 'note':
    case 'changed':
      return;
    case 'taken':
      hold(life, by, null);
      return;
    case 'handed':
      hold(life, null, entry.to);
      return;
    case 'asked':
      life.questions.push({ ask: entry.ask, text: entry.text, by, at });
      return;
    case 'answered':
      life.answers.push({ ask: entry.ask, text: entry.text, by, at });
      // What it waited for may have come; somebody has to look.
      if (life.status === 'waiting') hold(life, life.takenBy, life.handedTo);
      return;
    case 'priority': {
      const { priority, reason, worked } = entry;
      life.setPriority = { priority, reason, by, at, worked };
      return;
    }
    case 'waiting':
      life.status = 'waiting';
      life.waitingUntil = entry.until;
      return;
    case 'merged':
      life.status = 'merged';
      life.waitingUntil = null;
      life.mergedInto = entry.into;
      return;
    case 'closed':
      life.status = 'closed';
      life.waitingUntil = null;
      life.confirmedFault = entry.fault;
      life.closedWith = entry.words;
      return;
    case 'reopened':
      hold(life, null, null);
      life.confirmedFault = null;
      life.closedWith = null;
      life.mergedInto = null;
      return;
  }
}

/** Whose it is. Handing is not taking: until the other takes it, nobody has it. */
function hold(life: Life, takenBy: string | null, handedTo: string | null): void {
  life.takenBy = takenBy;
  life.handedTo = handedTo;
  life.waitingUntil = null;
  life.status = takenBy === null ? 'open' : 'taken';
}

/** Is `one` more urgent than `other`? */
export const above = (one: Priority, other: Priority): boolean =>
  PRIORITIES.indexOf(one) < PRIORITIES.indexOf(other);

/**
 * The priority that counts. What somebody set holds, until the facts themselves grow worse than they were then:
 * a ticket that was lowered must not stay low when a danger is reported afterwards.
 */
export function priorityNow({ setPriority: set }: Life, worked: Priority): Priority {
  if (set === null) return worked;
  return above(worked, set.worked) && above(worked, set.priority) ? worked : set.priority;
}
