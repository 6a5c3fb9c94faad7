/** Slack, put together: what comes in, what goes out, and how it stands with our token. */
import { setTimeout as sleep } from 'node:timers/promises';
import type { Router } from 'express';
import type { Store } from '#store/store.ts';
import type { Channel } from '../channel.ts';
import { boltApp, type Part } from './app.ts';
import { type Slack, slackClient } from './client.ts';
import { desk } from './desk/desk.ts';
import type { Desking } from './desk/desking.ts';
import { homes, homeView } from './home.ts';
import { httpReceiver, PATH } from './http.ts';
import { chatOf } from './inbound.ts';
import { profiles } from './profile.ts';
import { saying } from './say.ts';
import { slackChannel } from './send.ts';
import type { SlackSettings } from './settings.ts';
import { SocketReceiver } from './socket.ts';
import { wordsFor } from './words.ts';

export interface SlackWired {
  store: Store;
  knowledge: Desking['knowledge'];
  take: Desking['take'];
  outages: Desking['outages'];
  now(): number;
  log(event: string, details: Record<string, unknown>): void;
}

export interface SlackSide {
  channel: Channel;
  /** Null in Socket Mode. */
  http: { path: string; router: Router } | null;
  start(): Promise<void>;
  /** Takes nothing more; lets what has begun end. */
  stop(): Promise<void>;
  /** How it stands, in one line; null: all is well. */
  trouble(): string | null;
}

/** Milliseconds between questions whether the token works, until it does. */
const ASK_AGAIN = 30_000;

export function slack(wired: SlackWired, settings: SlackSettings): SlackSide {
  const { store, knowledge, now, log } = wired;
  const { botToken: token, signingSecret, appToken, apiUrl } = settings;
  const client = slackClient({ token, apiUrl, log });
  const people = profiles(client, now);
  const { deskChannel, deskGroup } = settings;
  const atDesk =
    deskChannel === null
      ? null
      : desk({ ...wired, slack: client, profiles: people, channel: deskChannel, group: deskGroup });
  const channel: Channel = {
    ...slackChannel(client, now),
    ...(atDesk === null ? {} : { show: atDesk.show }),
  };

  const viewOf = async (team: string, user: string) => {
    const chat = chatOf(team, user);
    const [current, tickets] = await Promise.all([store.currentOf(chat), store.ticketsOf([chat], 10)]);
    const open = current !== null && current.outcome === null && current.entries.length > 0 ? current : null;
    const { site, catalogue } = knowledge();
    const { locale } = people.of(team, user);
    const home = {
      site,
      open,
      tickets,
      titleOf: (symptom: string) => catalogue.symptoms[symptom]?.title ?? symptom,
    };
    return homeView(home, wordsFor(locale), `h${now()}`);
  };
  const publish = homes(client, viewOf);
  const gone = async (responseUrl: string | undefined, locale: string | null) => {
    if (responseUrl === undefined) return;
    const body = { response_type: 'ephemeral', replace_original: false, text: wordsFor(locale).gone };
    const headers = { 'content-type': 'application/json' };
    await fetch(responseUrl, {
      method: 'POST',
      headers,
      body: JSON.stringify(body),
      signal: AbortSignal.timeout(5000),
    });
  };

  const parts: Part[] = [
    saying({
      slack: client,
      store,
      take: wired.take,
      profiles: people,
      publish,
      gone,
      now,
      log,
    }),
    ...(atDesk?.parts ?? []),
  ];
  const http = signingSecret === null ? null : httpReceiver({ signingSecret, now, log });
  const socket = http === null ? new SocketReceiver({ appToken: appToken!, apiUrl, log }) : null;
  const receiver = http ?? socket!;
  const unknown = {
    action: async (body: { response_url?: string }) => ({ after: () => gone(body.response_url, null) }),
    view: async () => ({}),
    shortcut: async () => ({}),
  };
  const app = boltApp({ receiver, parts, token, unknown, log });
  const stopping = new AbortController();
  return {
    channel,
    http: http === null ? null : { path: PATH, router: http.router },
    async start() {
      await receiver.start();
      atDesk?.start();
      void signIn(client, stopping.signal);
    },
    async stop() {
      stopping.abort();
      atDesk?.stop();
      await receiver.stop();
      await app.settled();
    },
    trouble() {
      const signed = client.signedIn();
      if (signed.state === 'out') return `slack: it does not take our token (${signed.why})`;
      if (socket !== null && !socket.connected()) return 'slack: not connected';
      if (signed.state !== 'in') return 'slack: not signed in yet';
      return atDesk?.trouble() ?? null;
    },
  };
}

/** Nothing waits for it: who we are comes with every event. */
async function signIn(client: Slack, signal: AbortSignal): Promise<void> {
  while (!signal.aborted) {
    await client.call('auth.test', {}, signal);
    if (client.signedIn().state === 'in') return;
    await sleep(ASK_AGAIN, undefined, { signal }).catch(() => undefined);
  }
}
