/** The web chat in this process, over real HTTP, with a clock and a log of one's own. */
import { screenReader } from '#reading/screens/reader.ts';
import { app } from '#server/app.ts';
import { listen } from '#server/listen.ts';
import type { Store } from '#store/store.ts';
import { open } from '../../src/commands/serve.ts';
import { readConfig } from '../../src/config.ts';
import { look } from '../../src/look.ts';
import { wiring } from './wiring.ts';

export interface Web {
  base: string;
  store: Store;
  /** Events that were logged. */
  logged: string[];
  /** Sets the clock on, in milliseconds. */
  later(milliseconds: number): void;
  close(): Promise<void>;
}

/** `looks`: pictures are looked at, as in a serving process. */
export async function web(
  database = ':memory:',
  env: Record<string, string> = {},
  { looks = false } = {},
): Promise<Web> {
  const config = readConfig(env);
  let ahead = 0;
  let ids = 0;
  const now = () => Date.now() + ahead;
  const id = () => `made-here-${ids++}`;
  const listeners: (() => void)[] = [];
  const wake = () => {
    for (const listener of listeners) listener();
  };
  const logged: string[] = [];
  const log = (event: string) => logged.push(event);
  const wired = await wiring({ database, channels: [], now, id, wake, log });
  const { store, take, gathering } = wired;
  const serving = open({
    config,
    store,
    take,
    now,
    id,
    log,
    knowledge: gathering.knowledge,
    refresh: gathering.refresh,
    delivering: (channels, lanes) => ({ store, channels, lanes, take, now, owner: 'test', log }),
    ...(looks ? { look: look(screenReader({ log }), gathering.knowledge) } : {}),
    onCommit: listener => listeners.push(listener),
  });
  const { host, publicUrl } = config;
  const http = app({
    host,
    publicUrl,
    router: () => serving.router,
    ready: serving.ready,
    troubles: serving.troubles,
  });
  const listening = await listen(http, '127.0.0.1', 0);
  return {
    base: `http://127.0.0.1:${listening.port}`,
    store,
    logged,
    later: milliseconds => {
      ahead += milliseconds;
    },
    async close() {
      serving.farewell();
      await listening.close(0);
      await serving.stop();
      await wired.close();
    },
  };
}

export interface Client {
  get(path: string, headers?: Record<string, string>): Promise<Response>;
  /** A form of the page, with its hidden fields unless `fields` says otherwise. */
  post(path: string, fields?: Record<string, string>, headers?: Record<string, string>): Promise<Response>;
  upload(content: Uint8Array, name: string, fields?: Record<string, string>): Promise<Response>;
  /** The chat as its page shows it now. */
  page(): Promise<string>;
  cookie(): string;
}

/** A browser's behaviour without the browser. */
export function client(base: string, more: Record<string, string> = {}): Client {
  let cookie = '';
  let csrf = '';
  let count = 0;
  const call = async (path: string, init: RequestInit = {}) => {
    const headers = { ...more, ...(cookie ? { cookie } : {}), ...(init.headers as Record<string, string>) };
    const response = await fetch(base + path, { redirect: 'manual', ...init, headers });
    const set = response.headers.getSetCookie()[0];
    if (set !== undefined) cookie = set.split(';')[0]!;
    return response;
  };
  const page = async () => {
    const text = await (await call('/')).text();
    csrf = /name="csrf" value="([^"]+)"/.exec(text)?.[1] ?? csrf;
    return text;
  };
  const filled = async (fields: Record<string, string>) => {
    if (csrf === '') await page();
    count += 1;
    return { csrf, id: `client-id-${count}`, ...fields };
  };
  return {
    get: (path, headers) => call(path, { headers: headers ?? {} }),
    post: async (path, fields = {}, headers = {}) =>
      call(path, { method: 'POST', body: new URLSearchParams(await filled(fields)), headers }),
    async upload(content, name, fields = {}) {
      const form = new FormData();
      for (const [key, value] of Object.entries(await filled(fields))) form.append(key, value);
      form.append('picture', new File([Uint8Array.from(content)], name));
      return call('/picture', { method: 'POST', body: form });
    },
    page,
    cookie: () => cookie,
  };
}

/** Hidden fields of the open question's buttons. */
export function openQuestion(page: string): { conversation: string; question: string; answers: string[] } {
  const value = (name: string) => new RegExp(`name="${name}" value="([^"]+)"`).exec(page)?.[1] ?? '';
  const answers = [...page.matchAll(/name="answer" value="([^"]+)"/g)].map(found => found[1]!);
  return { conversation: value('conversation'), question: value('question'), answers };
}
