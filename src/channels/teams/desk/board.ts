/** Shows tickets in the desk's place: a card each, kept current, what happened below it. */
import { cardOf } from '#tickets/card.ts';
import { reference } from '#tickets/schema.ts';
import type { Card, Channel, Sent } from '../../channel.ts';
import { type Outgoing, type Posted, Refused } from '../adapter.ts';
import { endingOf } from '../ended.ts';
import { message } from '../render.ts';
import { actionSets, headOf, ticketCard } from './card.ts';
import type { Desking } from './desking.ts';
import { cardWith, line, run } from './draw.ts';
import { newsMessage } from './news.ts';

export interface Board {
  show: NonNullable<Channel['show']>;
  /** Why tickets cannot be shown, in one line; null: they can. */
  trouble(): string | null;
}

/** Milliseconds until a place that takes no messages is tried again. */
const PATIENCE = 60_000;
const MOST_REMEMBERED = 2000;

/** How far a row came in attempts that did not end well. */
interface Progress {
  /** Conversation and id of the message that shows it. */
  ref: string | null;
  /** An attempt ended without an answer. */
  unclear: boolean;
  told: boolean;
}

export function board(on: Desking): Board {
  const { adapter, knowledge, log, place, gate } = on;
  const going = new Map<number, Progress>();
  let trouble: string | null = null;
  let tries = 0;

  const known = () => ({ site: knowledge().site, faults: knowledge().catalogue.faults });

  /** A card that Teams refuses is no reason to show nothing. */
  async function put<T>(
    { ticket }: Card,
    doubt: boolean,
    send: (activity: Outgoing) => Promise<T>,
  ): Promise<T> {
    const card = cardOf(ticket, known());
    const head = headOf(card);
    try {
      return await send(message(ticketCard(card, ticket, doubt), head));
    } catch (error) {
      if (!(error instanceof Refused) || (error.status !== 400 && error.status !== 413)) throw error;
      log('teams-desk-card-refused', { error: String(error) });
      return send(message(cardWith([line([run(head)]), ...actionSets(card, ticket)], [], head), head));
    }
  }

  /** False when its message is gone. */
  async function redraw(card: Card, ref: string, signal: AbortSignal): Promise<boolean> {
    const [conversation, id] = partsOf(ref);
    const to = { ...place.reference(), conversation };
    try {
      await put(card, false, activity => adapter.update(to, id, activity, signal));
      return true;
    } catch (error) {
      if (error instanceof Refused && error.status === 404) return false;
      throw error;
    }
  }

  async function post(card: Card, progress: Progress, signal: AbortSignal): Promise<string> {
    const doubt = progress.unclear && card.ref === null;
    const to = place.reference();
    const posted = await put(
      card,
      doubt,
      (activity): Promise<Posted> =>
        place.threads ? adapter.thread(to, activity, signal) : adapter.post(to, activity, signal),
    );
    progress.ref = refOf(posted);
    return progress.ref;
  }

  async function shown(card: Card, progress: Progress, signal: AbortSignal): Promise<Sent> {
    const before = progress.ref ?? card.ref;
    const there = before !== null && (await redraw(card, before, signal));
    const ref = there ? before : await post(card, progress, signal);
    if (before !== null && !there) await note(card, before);
    const [conversation] = partsOf(ref);
    // That it was opened is what the card itself says.
    const fresh = card.fresh.filter(({ kind }) => kind !== 'opened');
    if (fresh.length > 0 && !progress.told) {
      const lead = place.threads ? '' : `${reference(card.ticket.number)}: `;
      const news = newsMessage(fresh, card.ticket.life, gate.userOf, lead);
      await adapter.post({ ...place.reference(), conversation }, news, signal);
      progress.told = true;
    }
    return { ok: true, ref, at: on.now() };
  }

  /** What was said below the old card is not below the new one. */
  async function note({ conversation }: Card, before: string): Promise<void> {
    const text =
      'The message that showed this ticket in Teams was deleted there; a new one shows it. What was said below the old one did not come along.';
    await on.take({
      kind: 'desk',
      identity: `teams:desk:deleted:${before}`,
      at: on.now(),
      conversation,
      by: 'Reseat',
      action: { do: 'note', text },
    });
  }

  function ended(error: unknown, card: Card, progress: Progress): Sent {
    const ending = endingOf(error, tries, on.chance());
    if (ending === null) {
      progress.unclear ||= progress.ref === null;
      throw error;
    }
    if (ending.sent.again) {
      tries += 1;
      return ending.sent;
    }
    if (ending.unreachable) {
      const why = `teams: tickets cannot be shown in the desk's place (${String(error)}). Is Reseat still added there?`;
      if (trouble !== why) log('teams-desk-closed', { error: String(error) });
      trouble = why;
      return { ...ending.sent, again: true, after: PATIENCE, patient: true };
    }
    const ref = progress.ref ?? card.ref;
    if (ref === null) return ending.sent;
    // What cannot be told below the card is no reason to forget the card.
    log('teams-desk-untold', { error: String(error) });
    return { ok: true, ref, at: on.now() };
  }

  return {
    trouble: () => trouble,
    async show(card, signal) {
      const progress = going.get(card.row) ?? { ref: null, unclear: card.again, told: false };
      if (going.size >= MOST_REMEMBERED) going.delete(going.keys().next().value!);
      going.set(card.row, progress);
      try {
        const sent = await shown(card, progress, signal);
        going.delete(card.row);
        trouble = null;
        tries = 0;
        return sent;
      } catch (error) {
        return ended(error, card, progress);
      }
    },
  };
}

/** Neither has a space in it. A thread's conversation bears the id of the message that begins it. */
const refOf = ({ conversation, id }: Posted): string =>
  `${conversation} ${id ?? /;messageid=(\d+)$/.exec(conversation)?.[1] ?? ''}`;
export const partsOf = (ref: string): [conversation: string, id: string] => {
  const [conversation = '', id = ''] = ref.split(' ');
  return [conversation, id];
};
