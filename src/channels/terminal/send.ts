/** The terminal as a channel: what is sent goes to whoever holds the screen. */
import type { Channel, Parcel, Sent } from '../channel.ts';

export function terminal(show: (parcel: Parcel) => void, now: () => number): Channel {
  return {
    id: 'terminal',
    async send(parcel): Promise<Sent> {
      show(parcel);
      return { ok: true, ref: null, at: now() };
    },
  };
}
