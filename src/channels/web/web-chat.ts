/** What the web chat is given: everything outside it by its interface. */
import type { Site } from '#engine/catalogue.ts';
import type { Store } from '#store/store.ts';
import type { FromPerson } from '#talk/inbound.ts';
import type { Streams } from './streams.ts';

export interface WebChat {
  store: Pick<
    Store,
    | 'history'
    | 'newestSent'
    | 'file'
    | 'script'
    | 'conversation'
    | 'currentOf'
    | 'isFull'
    | 'keepLink'
    | 'link'
    | 'newestLink'
    | 'withdrawLinks'
  >;
  take(inbound: FromPerson): Promise<unknown>;
  /** Resolves when what is committed by now has reached its channel. */
  delivered(): Promise<void>;
  streams: Streams;
  site(): Site;
  now(): number;
  id(): string;
  /** Milliseconds to wait before the next page or form of an address, or form of a chat; 0: go on. */
  wait: { page(address: string): number; form(address: string): number; chat(chat: string): number };
  log(event: string, details: Record<string, unknown>): void;
  /** The address people use is https: cookies are for TLS only. */
  secure: boolean;
  publicUrl: string | null;
}
