/** Slack as a channel: each turn is one message, the question before is redrawn, and what is unclear is looked for before it is sent again. */
import { setTimeout as sleep } from 'node:timers/promises';
import { isQuestion, type Message } from '#engine/messages.ts';
import { accept } from '#reading/accept.ts';
import { LARGEST_FILE } from '#reading/pictures/clean.ts';
import type { Address, Lying } from '#talk/inbound.ts';
import type { Channel, Fetched, Parcel, Sent } from '../channel.ts';
import type { Body, Slack } from './client.ts';
import { timeOf } from './inbound.ts';
import { type Drawing, drawn, redrawn } from './render.ts';
import { escaped } from './text.ts';
import { type Words, wordsFor } from './words.ts';

/** Remembered rows: of these we know that an attempt ended unclearly, or that their thread was told. */
const MOST_REMEMBERED = 2000;
/** How often a message is redrawn that Slack was too busy for; it waits for nobody and holds nobody up. */
const REDRAWS = 4;
/** Milliseconds that our clock and Slack's may differ. */
const SKEW = 60_000;

export function slackChannel(slack: Slack, now: () => number): Required<Omit<Channel, 'show'>> {
  /** When the first unclear attempt of a row began. */
  const unclear = new Map<number, number>();
  const told = new Set<string>();

  const channelOf = ({ to }: Address) => to.channel ?? to.user!;

  async function send(parcel: Parcel, signal: AbortSignal): Promise<Sent> {
    const { address, messages, row, conversation } = parcel;
    const { team, thread } = address.to;
    const signed = slack.signedIn();
    if (signed.state === 'in' && signed.team !== team)
      return { ok: false, again: false, error: `our token is not for the workspace ${team}` };
    const words = wordsFor(address.to.locale);
    const channel = channelOf(address);
    const began = unclear.get(row);
    const there = began === undefined ? null : await find(channel, row, began, signal);
    if (there !== null) return there;
    const redrawing = redraw(parcel, words, signal);
    const telling = tellThread(parcel, words, signal);
    const { text, blocks } = drawn(messages, conversation, `r${row}`, words);
    const place = { channel, ...(thread === undefined ? {} : { thread_ts: thread }) };
    const called = await post(place, { text, blocks }, signal);
    await Promise.all([redrawing, telling]);
    if (called.ok) {
      unclear.delete(row);
      const { ts, channel: where } = called.body;
      return { ok: true, ref: `${where}:${ts}`, at: timeOf(String(ts)) };
    }
    if (called.again && called.unclear) {
      remember(unclear, row, began ?? now());
      throw new Error(called.error);
    }
    const { error } = called;
    return called.again
      ? { ok: false, again: true, after: called.after, error, ...(called.patient ? { patient: true } : {}) }
      : { ok: false, again: false, error };
  }

  /** Blocks that Slack refuses are no reason to say nothing: the text says it all. */
  async function post(place: Body, { text, blocks }: Drawing, signal: AbortSignal) {
    const message = { ...place, text, mrkdwn: false, unfurl_links: false, unfurl_media: false };
    const called = await slack.call('chat.postMessage', { ...message, blocks }, signal);
    const refused = !called.ok && !called.again && /^(invalid_blocks|msg_blocks_too_long)/.test(called.error);
    return refused ? slack.call('chat.postMessage', message, signal) : called;
  }

  /** The message of an attempt that ended unclearly, if it went after all. Only a direct message's channel can be looked into. */
  async function find(
    channel: string,
    row: number,
    since: number,
    signal: AbortSignal,
  ): Promise<Sent | null> {
    if (!channel.startsWith('D')) return null;
    const oldest = String((since - SKEW) / 1000);
    const called = await slack.call('conversations.history', { channel, oldest, limit: 50 }, signal);
    if (!called.ok) return null;
    const messages = called.body.messages as { ts: string; blocks?: { block_id?: string }[] }[];
    const found = messages.find(({ blocks = [] }) =>
      blocks.some(({ block_id }) => block_id?.startsWith(`r${row}:`)),
    );
    if (found === undefined) return null;
    unclear.delete(row);
    return { ok: true, ref: `${channel}:${found.ts}`, at: timeOf(found.ts) };
  }

  /** Old buttons say what was chosen. It fails where somebody deleted the message; nothing hangs on it. */
  async function redraw(parcel: Parcel, words: Words, signal?: AbortSignal, attempt = 1): Promise<void> {
    const { before, row } = parcel;
    if (before === null) return;
    const [channel, ts] = before.ref.split(':');
    const { text, blocks } = redrawn(before.messages, before.question, before.chosen, `u${row}`, words);
    const called = await slack.call('chat.update', { channel, ts, text, blocks }, signal);
    if (called.ok || !called.again || attempt === REDRAWS) return;
    void sleep(called.after, undefined, { ref: false }).then(() =>
      redraw(parcel, words, undefined, attempt + 1),
    );
  }

  /** Where a matter was raised in a channel, its thread hears where it goes on, and how it ended: nothing else. */
  async function tellThread(parcel: Parcel, words: Words, signal: AbortSignal): Promise<void> {
    const { raised, fresh, user } = parcel.address.to;
    if (raised === undefined) return;
    const [channel, thread_ts] = raised.split(':');
    const news = [
      ...(fresh === undefined ? [] : [{ what: 'raised', text: `<@${user}> ${escaped(words.raised)}` }]),
      ...endOf(parcel.messages, words).map(text => ({ what: 'end', text: escaped(text) })),
    ];
    for (const { what, text } of news) {
      const key = `${parcel.conversation}:${raised}:${what}`;
      if (told.has(key)) continue;
      const called = await slack.call('chat.postMessage', { channel, thread_ts, text }, signal);
      if (!called.ok && called.again) continue;
      told.add(key);
      if (told.size > MOST_REMEMBERED) told.delete(told.values().next().value!);
    }
  }

  async function fetch(file: Lying, address: Address, signal: AbortSignal): Promise<Fetched> {
    const words = wordsFor(address.to.locale);
    if (file.size > LARGEST_FILE) return { ok: false, refused: words.refused['too-large'] };
    const fetched = await slack.fetchFile(file.url, LARGEST_FILE, signal);
    if (!fetched.ok) {
      if ('why' in fetched) return { ok: false, refused: words.refused['too-large'] };
      if (!fetched.again) return { ok: false, refused: words.unfetched };
      return { ok: false, again: true, after: fetched.after, error: fetched.error };
    }
    const accepted = accept(fetched.content);
    return accepted.ok ? accepted : { ok: false, refused: words.refused[accepted.why] };
  }

  return { id: 'slack', send, fetch };
}

function remember(map: Map<number, number>, row: number, since: number): void {
  if (map.size >= MOST_REMEMBERED) map.delete(map.keys().next().value!);
  map.set(row, since);
}

/** How a matter ended, for others to read: nothing about whose it is or what it was. */
function endOf(messages: Message[], words: Words): string[] {
  if (messages.some(isQuestion)) return [];
  return messages.flatMap(message => {
    if (message.kind === 'hand-over') return [words.handed(message.ticket)];
    return message.kind === 'ending' && message.how === 'fixed' ? [words.solved] : [];
  });
}
