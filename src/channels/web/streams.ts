/** Open pages, listening for news of their chat (server-sent events, WHATWG HTML 9.2). They are told that there is news and fetch it. */
import type { Response } from 'express';
import type { Told } from './send.ts';

export interface Streams extends Told {
  /** False when there is no room for one more. */
  add(chat: string, response: Response, newest: number, version: string): boolean;
  /** For chats whose news came from another process. */
  chats(): string[];
  /** Keeps connections from being taken for dead. */
  beat(): void;
  close(): void;
}

/** Tabs of one chat; the oldest goes when one more opens. */
const PER_CHAT = 8;
const MOST = 5000;

export function streams(): Streams {
  const open = new Map<string, { pages: Set<Response>; told: number }>();
  let count = 0;
  return {
    tell(chat, row) {
      const listening = open.get(chat);
      if (listening === undefined || row <= listening.told) return;
      listening.told = row;
      for (const page of listening.pages) page.write(`event: news\ndata: ${row}\n\n`);
    },
    add(chat, response, newest, version) {
      if (count >= MOST) return false;
      const listening = open.get(chat) ?? { pages: new Set<Response>(), told: 0 };
      listening.told = Math.max(listening.told, newest);
      open.set(chat, listening);
      if (listening.pages.size >= PER_CHAT) [...listening.pages][0]?.end();
      listening.pages.add(response);
      count += 1;
      response.once('close', () => {
        count -= 1;
        listening.pages.delete(response);
        if (listening.pages.size === 0 && open.get(chat) === listening) open.delete(chat);
      });
      response.writeHead(200, {
        'content-type': 'text/event-stream; charset=utf-8',
        'cache-control': 'no-store',
        // Proxies that gather a response before passing it on are asked not to.
        'x-accel-buffering': 'no',
      });
      const hello = JSON.stringify({ newest: listening.told, version });
      response.write(`retry: 1500\nevent: hello\ndata: ${hello}\n\n`);
      return true;
    },
    chats: () => [...open.keys()],
    beat() {
      for (const { pages } of open.values()) for (const page of pages) page.write(': here\n\n');
    },
    close() {
      for (const { pages } of open.values()) for (const page of pages) page.end();
    },
  };
}
