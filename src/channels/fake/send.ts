/** A channel for tests that keeps what it was given, and fails as it is told to. */
import type { Card, Channel, Parcel, Sent } from '../channel.ts';

export interface FakeChannel extends Channel {
  parcels: Parcel[];
  /** Tickets shown to the desk. */
  cards: Card[];
  /** How the next sendings end, in order; afterwards all go well. A function may do something first. */
  next: (Sent | (() => Sent | Promise<Sent>))[];
}

export function fake(now: () => number, id = 'fake'): FakeChannel {
  const channel: FakeChannel = {
    id,
    parcels: [],
    cards: [],
    next: [],
    async send(parcel): Promise<Sent> {
      const planned = channel.next.shift();
      const ended = typeof planned === 'function' ? await planned() : planned;
      if (ended !== undefined && !ended.ok) return ended;
      channel.parcels.push(parcel);
      return ended ?? { ok: true, ref: String(channel.parcels.length), at: now() };
    },
    async show(card): Promise<Sent> {
      const planned = channel.next.shift();
      const ended = typeof planned === 'function' ? await planned() : planned;
      if (ended !== undefined && !ended.ok) return ended;
      channel.cards.push(card);
      return ended ?? { ok: true, ref: card.ref ?? `card-${channel.cards.length}`, at: now() };
    },
  };
  return channel;
}
