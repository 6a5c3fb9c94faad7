/** `reseat serve`: everything that is set up, on one port. `npm start` is this. */

import { webRoutes } from '#channels/web/routes.ts';
import { webChannel } from '#channels/web/send.ts';
import { streams } from '#channels/web/streams.ts';
import { app, isLoopback } from '#server/app.ts';
import { limit } from '#server/limit.ts';
import { listen } from '#server/listen.ts';
import { loop } from '#server/loop.ts';
import { mounted } from '#server/mounted.ts';
import { pump } from '#server/pump.ts';
import { warm } from '#talk/warm.ts';
import { UserError } from '../errors.ts';
import { type Platform, platforms } from './platforms.ts';
import type { Shell, Wired } from './wired.ts';

/** Milliseconds. What has begun may take so long when the process is asked to stop. */
const PATIENCE = 10_000;
/** How often open pages are asked about news from other processes, and are shown that the line is alive. */
const NEWS = 2000;
const BEAT = 20_000;

export async function serve(shell: Shell): Promise<void> {
  const { host, port, publicUrl, boards } = await shell.config();
  let serving: Serving | null = null;
  const http = app({
    host,
    publicUrl,
    router: () => serving?.router ?? null,
    ready: async () => (await serving?.ready()) ?? false,
    troubles: () => serving?.troubles() ?? [],
  });
  const listening = await listen(http, host, port);
  try {
    const wired = await shell.wire(true);
    const found = await platforms(wired);
    for (const _symptom of warm(wired.knowledge())) await wired.turning.sleep(0);
    serving = open(wired, found);
    for (const platform of found) await platform.start();
    if (!isLoopback(host) && publicUrl?.startsWith('https://') !== true) shell.errors.write(WARNING);
    for (const warning of unshown(boards, found)) shell.errors.write(warning);
    reloading(shell, wired);
    shell.output.write(`Reseat is ready: ${publicUrl ?? `http://${shown(host)}:${listening.port}`}\n`);
    await shell.stopped();
    serving.farewell();
    await listening.close(PATIENCE);
    await serving.stop();
    await wired.close();
  } catch (error) {
    await listening.close(0);
    throw error;
  }
}

/** A desk's place on a platform that this process has no secrets of: tickets wait for one that has. */
const unshown = (boards: readonly string[], found: readonly Platform[]): string[] =>
  boards
    .filter(lane => !found.some(({ channel }) => lane.startsWith(`${channel.id}:`)))
    .map(lane => {
      const [platform = ''] = lane.split(':');
      const place = lane.slice(`${platform}:desk:`.length);
      const name = platform === 'slack' ? 'SLACK_BOT_TOKEN' : 'MicrosoftAppId';
      return `Careful: tickets are to be shown in ${place} (${platform}), but ${name} is not set here. They wait until a process runs that has it.\n`;
    });

/** One at a time; whoever asks meanwhile asks for one more after it. */
function reloading(shell: Shell, { reload, log }: Wired): void {
  let last = Promise.resolve();
  shell.onReload(() => {
    last = last.then(reload).then(
      () => log('flows-reloaded', {}),
      error => log('flows-refused', { why: error instanceof UserError ? error.message : String(error) }),
    );
  });
}

const WARNING =
  'Careful: anybody on the network can read what is written here, because it goes out without TLS. ' +
  'Put a proxy with TLS in front and set RESEAT_PUBLIC_URL to its https:// address, or set HOST back to 127.0.0.1.\n';

const shown = (host: string) => (host.includes(':') ? `[${host}]` : host);

export type Opening = Pick<
  Wired,
  'config' | 'store' | 'knowledge' | 'take' | 'delivering' | 'onCommit' | 'refresh' | 'log' | 'now' | 'id'
> &
  Partial<Pick<Wired, 'look'>>;

export interface Serving {
  router: ReturnType<typeof mounted>;
  ready(): Promise<boolean>;
  troubles(): string[];
  /** Open pages are let go; they come back by themselves. */
  farewell(): void;
  stop(): Promise<void>;
}

/** Everything that answers requests, and what runs beside it. */
export function open(wired: Opening, found: Platform[] = []): Serving {
  const { store, now, id, log, config } = wired;
  const pages = streams();
  const running = loop(wired, [webChannel(pages, now), ...found.map(({ channel }) => channel)]);
  wired.onCommit(running.wake);
  const failed = (error: unknown) => log('news-failed', { error: String(error) });
  const news = pump(
    async () => {
      for (const [chat, newest] of await store.newestSent(pages.chats())) pages.tell(chat, newest);
    },
    NEWS,
    failed,
  );
  const beat = setInterval(() => pages.beat(), BEAT);
  // Generous for an address, which may be a whole building's; a person says no more than a few things a second.
  const [page, form, chat] = [limit(600, 30), limit(300, 10), limit(25, 1)];
  const web = webRoutes({
    store,
    take: wired.take,
    delivered: () => running.delivered('web'),
    streams: pages,
    site: () => wired.knowledge().site,
    now,
    id,
    wait: {
      page: address => page.ask(address, now()),
      form: address => form.ask(address, now()),
      chat: name => chat.ask(name, now()),
    },
    log,
    secure: config.publicUrl?.startsWith('https://') === true,
    publicUrl: config.publicUrl,
  });
  return {
    router: mounted(
      found.map(({ http }) => http),
      web,
    ),
    ready: async () => {
      await store.newestSent(['web:']);
      return true;
    },
    troubles: () => found.flatMap(platform => platform.trouble?.() ?? []),
    farewell: () => pages.close(),
    async stop() {
      clearInterval(beat);
      await Promise.all([running.stop(), news.stop(), ...found.map(platform => platform.stop())]);
    },
  };
}
