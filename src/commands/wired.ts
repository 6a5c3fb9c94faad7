/** What a command may use: everything opened and joined by wiring.ts. */
import type { Channel } from '#channels/channel.ts';
import type { Loaded } from '#library/load.ts';
import type { Store } from '#store/store.ts';
import type { Delivering, Look } from '#talk/deliver.ts';
import type { Inbound } from '#talk/inbound.ts';
import type { Knowledge } from '#talk/knowledge.ts';
import type { Turned, Turning } from '#talk/turn.ts';
import type { Config } from '../config.ts';

export interface Wired {
  config: Config;
  store: Store;
  turning: Turning;
  knowledge(): Knowledge;
  take(inbound: Inbound): Promise<Turned>;
  /** What delivery needs, for these channels and, unless all of theirs, these lanes. */
  delivering(channels: Channel[], lanes?: string[]): Delivering;
  /** Called after every commit of this process. */
  onCommit(listener: () => void): void;
  /** Reads the figures of closed tickets, and outages, anew. */
  refresh(): Promise<void>;
  /** Reads, proves and uses the flows as they are now. Rejects with a UserError when they are refused; then the old ones stay. */
  reload(): Promise<void>;
  /** Looks at pictures; the reader begins with the first. */
  look: Look;
  log(event: string, details: Record<string, unknown>): void;
  now(): number;
  id(): string;
  close(): Promise<void>;
}

export interface Shell {
  input: NodeJS.ReadableStream & { isTTY?: boolean };
  output: NodeJS.WritableStream & { isTTY?: boolean; columns?: number };
  errors: NodeJS.WritableStream;
  /** Login name of whoever runs the command. */
  user: string;
  colour: boolean;
  /** Opens database and flows; the first call does it. `starts`: conversations go on from here, so the flows are proven first. */
  wire(starts: boolean): Promise<Wired>;
  config(): Promise<Config>;
  /** Resolves when the process is asked to end; a second time it ends at once. */
  stopped(): Promise<void>;
  /** Called when the process is asked to read the flows anew. */
  onReload(listener: () => void): void;
  /** Only the flows. */
  load(): Promise<Loaded>;
  now(): number;
  /** Sets the exit status. */
  exit(status: number): void;
}
