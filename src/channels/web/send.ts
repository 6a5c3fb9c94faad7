/** The web chat as a channel: what is sent is stored already, so sending it is telling the open pages of the chat. */
import type { Channel, Sent } from '../channel.ts';

/** Where open pages listen. */
export interface Told {
  tell(chat: string, row: number): void;
}

export const webChannel = (pages: Told, now: () => number): Channel => ({
  id: 'web',
  async send({ address, row }): Promise<Sent> {
    pages.tell(address.chat, row);
    return { ok: true, ref: null, at: now() };
  },
});
