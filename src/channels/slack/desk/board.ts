/** Shows tickets in the desk's channel: one message each, kept current, what happened below it. */
import { createHash } from 'node:crypto';
import { cardOf } from '#tickets/card.ts';
import type { Card, Channel, Sent } from '../../channel.ts';
import type { Body, Called } from '../client.ts';
import { timeOf } from '../inbound.ts';
import { cardMessage, type Drawing, detailsMessage, newsMessage } from './card.ts';
import type { Desking } from './desking.ts';

export interface Board {
  show: Required<Channel>['show'];
  /** Why tickets cannot be shown, in one line; null: they can. */
  trouble(): string | null;
}

/** Somebody has to set it right; until then tickets wait. */
const CLOSED =
  /^(channel_not_found|not_in_channel|is_archived|missing_scope|restricted_action|not_allowed_token_type|ekm_access_denied|no_permission|access_denied)/;
/** The message is gone, or cannot be changed any more: there is a new one. */
const LOST = /^(message_not_found|cant_update_message|edit_window_closed)/;
const PATIENCE = 60_000;
const MOST_REMEMBERED = 2000;

/** How far a row came in attempts that did not end well. */
interface Progress {
  /** Channel, time stamp of the card, and of the details where they are there, joined with colons. */
  ref: string | null;
  /** An attempt ended without an answer. */
  unclear: boolean;
  told: boolean;
}

class Failed extends Error {
  readonly called: Extract<Called, { ok: false }>;
  constructor(called: Extract<Called, { ok: false }>) {
    super(called.error);
    this.called = called;
  }
}

/** @param userOf user id of somebody of the desk by the name they act under */
export function board(on: Desking, userOf: (name: string) => string | null): Board {
  const { slack, knowledge, log } = on;
  const going = new Map<number, Progress>();
  /** What our messages show, by channel and time stamp, as a hash. */
  const looking = new Map<string, string>();
  let trouble: string | null = null;

  async function call(method: string, args: Body, signal: AbortSignal): Promise<string> {
    const called = await slack.call(method, args, signal);
    if (!called.ok) throw new Failed(called);
    return String(called.body.ts);
  }

  /** Blocks that Slack refuses are no reason to show nothing: the text says it all. */
  async function put(method: string, place: Body, { text, blocks }: Drawing, signal: AbortSignal) {
    const message = { ...place, text, unfurl_links: false, unfurl_media: false };
    try {
      return await call(method, { ...message, blocks }, signal);
    } catch (error) {
      if (!(error instanceof Failed) || !/^(invalid_blocks|msg_blocks_too_long)/.test(error.called.error))
        throw error;
      return call(method, message, signal);
    }
  }

  /**
   * Brings a message up to date. False when it is gone. Of several changes that wait the first brings all of them, so that
   * what looks the same already is left alone.
   */
  async function redraw(place: string, draw: (key: string) => Drawing, key: string, signal: AbortSignal) {
    const looks = looksOf(draw('same'));
    if (looks === looking.get(place)) return true;
    const [channel, ts] = place.split(':');
    try {
      await put('chat.update', { channel, ts }, draw(key), signal);
      look(place, looks);
      return true;
    } catch (error) {
      if (error instanceof Failed && LOST.test(error.called.error)) return false;
      throw error;
    }
  }

  function look(place: string, looks: string): void {
    if (looking.size >= MOST_REMEMBERED) looking.delete(looking.keys().next().value!);
    looking.set(place, looks);
  }

  async function post(
    place: Body,
    draw: (key: string) => Drawing,
    key: string,
    signal: AbortSignal,
  ): Promise<string> {
    const ts = await put('chat.postMessage', place, draw(key), signal);
    look(`${place.channel}:${ts}`, looksOf(draw('same')));
    return ts;
  }

  async function shown(card: Card, progress: Progress, signal: AbortSignal): Promise<Sent> {
    const { ticket, row } = card;
    const known = { site: knowledge().site, faults: knowledge().catalogue.faults };
    const onCard = (doubt: boolean) => (key: string) =>
      cardMessage(cardOf(ticket, known), ticket, key, doubt);
    const below = (key: string) => detailsMessage(ticket, key);

    progress.ref ??= card.ref;
    let [channel = '', ts = '', details] = progress.ref?.split(':') ?? [];
    if (progress.ref === null || !(await redraw(`${channel}:${ts}`, onCard(false), `t${row}`, signal))) {
      channel = placeOf(card.lane);
      ts = await post({ channel }, onCard(progress.unclear && progress.ref === null), `t${row}`, signal);
      details = undefined;
      progress.ref = `${channel}:${ts}`;
    }
    if (details === undefined || !(await redraw(`${channel}:${details}`, below, `d${row}`, signal))) {
      details = await post({ channel, thread_ts: ts }, below, `d${row}`, signal);
      progress.ref = `${channel}:${ts}:${details}`;
    }
    // That it was opened is what the card itself says.
    const fresh = card.fresh.filter(({ kind }) => kind !== 'opened');
    if (fresh.length > 0 && !progress.told) {
      await put(
        'chat.postMessage',
        { channel, thread_ts: ts },
        newsMessage(fresh, ticket.life, userOf),
        signal,
      );
      progress.told = true;
    }
    return { ok: true, ref: progress.ref, at: timeOf(ts) };
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
        return sent;
      } catch (error) {
        if (!(error instanceof Failed)) throw error;
        const { called } = error;
        if (called.again && called.unclear) {
          progress.unclear ||= progress.ref === null;
          throw error;
        }
        if (called.again)
          return {
            ok: false,
            again: true,
            after: called.after,
            error: called.error,
            ...(called.patient ? { patient: true } : {}),
          };
        if (!CLOSED.test(called.error)) {
          const { ref } = progress;
          // What cannot be told below the card is no reason to forget the card.
          if (ref === null) return { ok: false, again: false, error: called.error };
          log('slack-desk-untold', { error: called.error });
          return { ok: true, ref, at: timeOf(ref.split(':')[1]!) };
        }
        const why = `slack: tickets cannot be shown in the desk's channel ${placeOf(card.lane)} (${called.error})`;
        if (trouble !== why) log('slack-desk-closed', { channel: placeOf(card.lane), error: called.error });
        trouble = why;
        return { ok: false, again: true, after: PATIENCE, error: called.error, patient: true };
      }
    },
  };
}

const looksOf = (drawing: Drawing): string =>
  createHash('sha256').update(JSON.stringify(drawing)).digest('base64');

/** `slack:desk:C0123` */
const placeOf = (lane: string): string => lane.slice(lane.lastIndexOf(':') + 1);
