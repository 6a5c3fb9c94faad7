/** Reseat with Slack, in this process, over real HTTP; Slack's side is the stand-in. */
import { setTimeout as sleep } from 'node:timers/promises';
import { app } from '#server/app.ts';
import { listen } from '#server/listen.ts';
import type { Store } from '#store/store.ts';
import type { Inbound } from '#talk/inbound.ts';
import type { Turned } from '#talk/turn.ts';
import { platforms } from '../../../src/commands/platforms.ts';
import { open } from '../../../src/commands/serve.ts';
import { readConfig } from '../../../src/config.ts';
import { wiring } from '../wiring.ts';
import { type FakeSlack, fakeSlack } from './fake.ts';
import { person, poster, type SlackPerson } from './person.ts';

export interface SlackSite {
  base: string;
  slack: FakeSlack;
  store: Store;
  logged: { event: string; details: Record<string, unknown> }[];
  take(inbound: Inbound): Promise<Turned>;
  as(user: string): SlackPerson;
  later(milliseconds: number): void;
  close(): Promise<void>;
}

export interface SiteSettings {
  slack?: FakeSlack;
  env?: Record<string, string>;
  database?: string;
  flows?: string;
  /** Milliseconds that every turn takes longer. */
  slow?: number;
  /** No look whether the token works. */
  signIn?: boolean;
}

export async function slackSite(given: SiteSettings = {}): Promise<SlackSite> {
  const slack = given.slack ?? (await fakeSlack());
  const env = {
    SLACK_BOT_TOKEN: slack.token,
    SLACK_SIGNING_SECRET: slack.secret,
    SLACK_API_URL: slack.api,
    ...given.env,
  };
  const config = readConfig(env);
  let ahead = 0;
  let ids = 0;
  const run = Math.random().toString(36).slice(2, 7);
  const now = () => Date.now() + ahead;
  const id = () => `id${run}${ids++}`;
  const listeners: (() => void)[] = [];
  const wake = () => {
    for (const listener of listeners) listener();
  };
  const logged: SlackSite['logged'] = [];
  const log = (event: string, details: Record<string, unknown>) => logged.push({ event, details });
  const { database = ':memory:', flows, slow = 0 } = given;
  const wired = await wiring({ database, flows, channels: [], now, id, wake, log, boards: config.boards });
  const { store, gathering } = wired;
  const take = async (inbound: Inbound) => {
    if (slow > 0) await sleep(slow);
    return wired.take(inbound);
  };
  const { knowledge, refresh } = gathering;
  const found = await platforms({ config, store, turning: wired.turning, knowledge, take, log, now, id });
  const serving = open(
    {
      config,
      store,
      take,
      now,
      id,
      log,
      knowledge,
      refresh,
      delivering: channels => ({ store, channels, take, now, owner: `test-${run}`, log }),
      onCommit: listener => listeners.push(listener),
    },
    found,
  );
  const { host, publicUrl } = config;
  const http = app({
    host,
    publicUrl,
    router: () => serving.router,
    ready: serving.ready,
    troubles: serving.troubles,
  });
  const listening = await listen(http, '127.0.0.1', 0);
  if (given.signIn !== false) for (const platform of found) await platform.start();
  const base = `http://127.0.0.1:${listening.port}`;
  const post = poster(() => base, slack.secret);
  // Slack's clock goes with ours.
  const send: typeof post = (event, how = {}) =>
    post(event, { ...how, skew: (how.skew ?? 0) + Math.floor(ahead / 1000) });
  return {
    base,
    slack,
    store,
    logged,
    take,
    as: user => person(slack, user, send),
    later: milliseconds => {
      ahead += milliseconds;
    },
    async close() {
      serving.farewell();
      await listening.close(0);
      await serving.stop();
      await wired.close();
      if (given.slack === undefined) await slack.close();
    },
  };
}

/** Waits until `holds` does; for what happens behind an acknowledgement. Fails with what `holds` said last. */
export async function until<T>(holds: () => T | undefined | null | false, patience = 10_000): Promise<T> {
  const end = Date.now() + patience;
  for (;;) {
    const found = holds();
    if (found) return found;
    if (Date.now() > end) throw new Error(`it did not come to this: ${holds}`);
    await sleep(10);
  }
}
