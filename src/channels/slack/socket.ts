/** Slack over a connection that we open (Socket Mode): for machines that cannot be reached from outside. */
import { setTimeout as sleep } from 'node:timers/promises';
import { type App as SlackApp, SocketModeReceiver } from '@slack/bolt';
import { boltLog, type Log } from './log.ts';
import { type Held, isSlowedDown, type Process, take } from './receiver.ts';

export interface SocketSettings {
  appToken: string;
  apiUrl: string | null;
  log: Log;
  /** Milliseconds before the first new connection after one has ended; it doubles up to a minute while none holds. */
  pause?: number;
}

/** Milliseconds. Slack greets a new connection at once. */
const GREETING = 20_000;
const LONGEST_PAUSE = 60_000;
/** A connection that lived so long was a good one. */
const GOOD = 10_000;

/** What the client has inside and does not tell its types. */
interface Inside {
  listeners(event: 'ws_message'): ((data: unknown, isBinary: boolean) => void)[];
  send(envelope: string, body?: unknown): Promise<void>;
}

/**
 * Bolt's receiver with three changes: the acknowledgement waits for the commit, an envelope that the client would stumble over is
 * answered here, and a connection that ended is opened again by ourselves, because the client lets a failed attempt end the process.
 */
export class SocketReceiver extends SocketModeReceiver implements Held {
  readonly #begun = new Set<Promise<unknown>>();
  readonly #log: Log;
  readonly #pause: number;
  #stopping = false;
  #connected = false;
  #running: Promise<void> = Promise.resolve();
  #wake: AbortController = new AbortController();

  constructor({ appToken, apiUrl, log, pause = 300 }: SocketSettings) {
    super({
      appToken,
      logger: boltLog(log),
      autoReconnectEnabled: false,
      installerOptions: {
        clientOptions: {
          ...(apiUrl === null ? {} : { slackApiUrl: apiUrl }),
          retryConfig: { retries: 0 },
          timeout: 10_000,
        },
      },
      processEventErrorHandler: async () => false,
    });
    this.#log = log;
    this.#pause = pause;
    const inside = this.client as unknown as Inside;
    const usual = inside.listeners('ws_message');
    this.client.removeAllListeners('ws_message');
    this.client.on('ws_message', (data: unknown, isBinary: boolean) => {
      if (this.#answered(data, inside)) return;
      for (const listener of usual) listener(data, isBinary);
    });
  }

  override init(app: SlackApp): void {
    const held: Process = {
      processEvent: async event => {
        const work = take(app, event.body).then(({ answer }) => event.ack(answer));
        this.#begun.add(work);
        try {
          await work;
        } finally {
          this.#begun.delete(work);
        }
      },
    };
    super.init(held as SlackApp);
  }

  /** Returns at once; the connection comes up, and comes up again, beside it. */
  override async start(): Promise<never> {
    this.#running = this.#keepConnected();
    return undefined as never;
  }

  override async stop(): Promise<void> {
    this.#stopping = true;
    this.#wake.abort();
    await Promise.allSettled(this.#begun);
    await Promise.race([this.client.disconnect(), sleep(2000)]);
    await this.#running;
  }

  connected(): boolean {
    return this.#connected;
  }

  async #keepConnected(): Promise<void> {
    let pause = this.#pause;
    while (!this.#stopping) {
      const began = Date.now();
      try {
        await this.#connection();
        this.#log('slack-connection-ended', {});
      } catch (error) {
        this.#log('slack-connection-failed', { error: String(error) });
      }
      this.#connected = false;
      pause = Date.now() - began > GOOD ? this.#pause : Math.min(LONGEST_PAUSE, pause * 2);
      await sleep(pause, undefined, { signal: this.#wake.signal }).catch(() => undefined);
    }
  }

  /** Resolves when the connection has ended. */
  async #connection(): Promise<void> {
    let over = () => {};
    const ended = new Promise<void>(resolve => {
      over = resolve;
    });
    this.client.once('disconnected', over);
    const greeting = AbortSignal.timeout(GREETING);
    const silent = () => void this.client.disconnect();
    greeting.addEventListener('abort', silent);
    try {
      await this.client.start();
    } catch (error) {
      this.client.off('disconnected', over);
      throw error;
    } finally {
      greeting.removeEventListener('abort', silent);
    }
    if (this.#stopping) await this.client.disconnect();
    this.#connected = true;
    await ended;
  }

  /** Envelopes that are for us and not for the listeners. */
  #answered(data: unknown, inside: Inside): boolean {
    let envelope: { type?: string; reason?: string; envelope_id?: string; payload?: Record<string, unknown> };
    try {
      envelope = JSON.parse(String(data));
    } catch {
      return true;
    }
    if (envelope.type === 'disconnect') this.#log('slack-asks-to-reconnect', { reason: envelope.reason });
    if (envelope.type !== 'events_api') return false;
    const { payload = {}, envelope_id: id } = envelope;
    if (!isSlowedDown(payload) && typeof payload.event === 'object') return false;
    this.#log('slack-slowed-down', { team: payload.team_id });
    if (id !== undefined) void inside.send(id).catch(() => undefined);
    return true;
  }
}
