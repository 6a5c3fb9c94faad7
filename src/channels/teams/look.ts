/** Whom a card is for. */
import type { Words } from './words.ts';

export interface Look {
  words: Words;
  locale: string | null;
  zone: string | null;
  conversation: string;
  /** Where others read along: whom it is asked of, so that nobody else's press counts. Null in a chat of one's own. */
  owner: string | null;
  /** Shown there, because several people's questions may stand in one thread. */
  name: string | null;
  /** The bot's application id, for the way to one's own chat with it. */
  bot: string;
  /** Epoch milliseconds. */
  now: number;
}
