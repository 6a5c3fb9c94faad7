/** Teams as a channel: one message a turn, the question before it redrawn as answered. */
import type { Inbound } from '#talk/inbound.ts';
import type { Channel, Parcel, Sent } from '../channel.ts';
import type { Adapter, Posted } from './adapter.ts';
import type { DeskSide } from './desk-side.ts';
import { endingOf } from './ended.ts';
import { fetchFile } from './files.ts';
import { toOf } from './inbound.ts';
import { lookOf } from './look-of.ts';
import { drawn } from './render.ts';
import type { TeamsSettings } from './settings.ts';

export interface Sending {
  adapter: Adapter;
  settings: TeamsSettings;
  desk: DeskSide | null;
  take(inbound: Inbound): Promise<unknown>;
  now(): number;
  /** 0 to 1. */
  chance(): number;
  log(event: string, details: Record<string, unknown>): void;
}

/** Milliseconds for redrawing a question, which nobody waits for. */
const REDRAW = 4000;

/** `trouble`: what whoever runs Reseat should see to, as long as it lasts. */
export function teamsChannel(on: Sending): Channel & { trouble(): string | null } {
  let trouble: string | null = null;
  const bot = on.settings.appId;
  /** Refusals in a row, by lane. */
  const refused = new Map<string, number>();

  const guarded = async (
    lane: string,
    work: () => Promise<Posted>,
  ): Promise<Sent & { unreachable?: boolean }> => {
    try {
      const { id } = await work();
      refused.delete(lane);
      trouble = null;
      return { ok: true, ref: id, at: clockOf(id) ?? on.now() };
    } catch (error) {
      const tries = refused.get(lane) ?? 0;
      const ending = endingOf(error, tries, on.chance());
      if (ending === null) throw error;
      if (ending.sent.again) refused.set(lane, tries + 1);
      else refused.delete(lane);
      if (ending.operator !== null && trouble !== ending.operator)
        on.log('teams-needs-the-operator', { what: ending.operator });
      trouble = ending.operator ?? trouble;
      return { ...ending.sent, ...(ending.unreachable ? { unreachable: true } : {}) };
    }
  };

  const redraw = async ({ before, conversation, address }: Parcel, signal: AbortSignal): Promise<void> => {
    if (before === null) return;
    const to = toOf(address);
    const { question, chosen, messages, ref } = before;
    const look = lookOf(to, conversation, bot, on.now());
    try {
      await on.adapter.update(to.reference, ref, drawn(messages, look, { question, chosen }), signal);
    } catch (error) {
      // A press on it is answered kindly; the conversation goes on.
      on.log('teams-not-redrawn', { error: String(error) });
    }
  };

  return {
    id: 'teams',
    trouble: () => trouble,
    async send(parcel, signal) {
      const { address, conversation, messages, row } = parcel;
      const to = toOf(address);
      const redrawn = redraw(parcel, AbortSignal.any([signal, AbortSignal.timeout(REDRAW)]));
      const sent = await guarded(address.chat, () =>
        on.adapter.post(to.reference, drawn(messages, lookOf(to, conversation, bot, on.now())), signal),
      );
      await redrawn;
      if (!('unreachable' in sent)) return sent;
      const { unreachable: _unreachable, ...ended } = sent;
      await unreached(on, conversation, row);
      return ended as Sent;
    },
    fetch: (file, address, signal) => fetchFile(on, file, address, signal),
    ...(on.desk === null ? {} : { show: on.desk.show }),
  };
}

/** The desk has a ticket of theirs, perhaps, and nobody else would notice. */
async function unreached(on: Sending, conversation: string, row: number): Promise<void> {
  const text =
    'Teams does not take messages to this person any more: Reseat was blocked or removed there. Call them instead.';
  try {
    await on.take({
      kind: 'desk',
      identity: `teams:unreachable:${row}`,
      at: on.now(),
      conversation,
      by: 'Reseat',
      action: { do: 'note', text },
    });
  } catch (error) {
    on.log('teams-unreachable-not-noted', { error: String(error) });
  }
}

/** Teams names a message by the time at which it took it, in epoch milliseconds. */
const clockOf = (id: string | null): number | null =>
  id !== null && /^1\d{12}$/.test(id) ? Number(id) : null;
