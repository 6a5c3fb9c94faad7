/** What a request is answered with: the chat as a page or as parts for its script, or what went wrong, in words. */
import type { Request, Response } from 'express';
import type { Script } from '#engine/script.ts';
import { type Caller, callerOf, refusal } from './caller.ts';
import { csrfOf } from './cookie.ts';
import type { Html } from './html.ts';
import { linkFor } from './links.ts';
import { type Assets, chatPage, type Frame, partsOf } from './page.ts';
import { cardLink, errorPage, wordsPage } from './pages.ts';
import { type Thread, threadOf } from './thread.ts';
import type { WebChat } from './web-chat.ts';
import type { PageError } from './words/words.ts';

/** Matters shown; older ones are with the desk under their number. */
const MATTERS = 6;
const SCRIPTS = 60;

const STATUS: Record<PageError, number> = {
  gone: 404,
  stale: 403,
  cookies: 403,
  tooFast: 429,
  tooMany: 429,
  tooLarge: 413,
  full: 507,
  broken: 500,
  notForms: 400,
};

/** `text`: what the person wrote, to be given back. `wait`: milliseconds. */
export interface Failing {
  text?: unknown;
  wait?: number;
}

export interface Replies {
  /** The chat as it stands. */
  chat(request: Request, response: Response): Promise<void>;
  /** To the newest of the chat, after a form. */
  news(response: Response, chat: string): Promise<void>;
  page(response: Response, status: number, body: Html): void;
  frame(caller: Caller): Frame;
  fail(request: Request, response: Response, error: PageError, given?: Failing): void;
  /** Something is wrong with a picture: `how` says what to do. */
  badPicture(request: Request, response: Response, how: string): void;
  /** Answers a form that may not be taken, and returns true. */
  refused(request: Request, response: Response): boolean;
  /** Where links lead. */
  base(request: Request): string;
}

export function replies(web: WebChat, assets: Assets): Replies {
  const scripts = new Map<string, Script | null>();
  const scriptOf = async (hash: string) => {
    if (!scripts.has(hash)) {
      if (scripts.size >= SCRIPTS) scripts.clear();
      scripts.set(hash, await web.store.script(hash));
    }
    return scripts.get(hash) ?? null;
  };
  const threadFor = async (chat: string): Promise<Thread> => {
    const shown = await web.store.history(chat, MATTERS);
    const hash = shown.conversations.at(-1)?.script ?? null;
    return threadOf({ ...shown, script: hash === null ? null : await scriptOf(hash) });
  };
  const page: Replies['page'] = (response, status, body) =>
    void response.status(status).type('html').send(body.html);
  const frame: Replies['frame'] = ({ words, token, chat }) => ({
    words,
    site: web.site(),
    csrf: csrfOf(token),
    seen: '',
    newest: 0,
    id: web.id,
    assets,
    mark: chat.slice('web:'.length, 'web:'.length + 12),
  });
  const base: Replies['base'] = request => web.publicUrl ?? `${request.protocol}://${request.get('host')}`;
  const fail: Replies['fail'] = (request, response, error, { text, wait = 0 } = {}) => {
    const caller = callerOf(request, response, web);
    const seconds = Math.max(1, Math.ceil(wait / 1000));
    const status = STATUS[error];
    if (status === 429) response.set('retry-after', String(seconds));
    const [title, how] = caller.words.errors[error];
    if (caller.script) response.status(status).json({ title, how });
    else page(response, status, errorPage(error, typeof text === 'string' ? text : null, frame(caller)));
  };
  return {
    page,
    frame,
    base,
    fail,
    badPicture(request, response, how) {
      const caller = callerOf(request, response, web);
      const title = caller.words.notSent;
      if (caller.script) response.status(415).json({ title, how });
      else page(response, 415, wordsPage(title, how, null, frame(caller)));
    },
    refused(request, response) {
      const caller = callerOf(request, response, web);
      const text = (request.body as { text?: unknown } | undefined)?.text;
      const refused = refusal(request, caller, web);
      const wait = refused === null ? web.wait.chat(caller.chat) : 0;
      if (refused !== null) fail(request, response, refused, { text });
      else if (wait > 0) fail(request, response, 'tooFast', { text, wait });
      return refused !== null || wait > 0;
    },
    news: async (response, chat) => response.redirect(303, `/#${(await threadFor(chat)).news}`),
    async chat(request, response) {
      const caller = callerOf(request, response, web);
      const thread = await threadFor(caller.chat);
      const look = { ...frame(caller), newest: thread.newest, seen: thread.seen };
      const kept =
        thread.handOver === null ? null : await linkFor(web.store, caller.token, base(request), web.now());
      const link = kept === null ? null : cardLink(kept, look);
      if (caller.script) response.json(partsOf(thread, look, link));
      else page(response, 200, chatPage(thread, look, link));
    },
  };
}
