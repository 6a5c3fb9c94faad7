/** Who a request comes from, and whether it may say something. */
import type { Request, Response } from 'express';
import { chatOf, cookieHeader, csrfFits, newToken, tokenIn } from './cookie.ts';
import type { WebChat } from './web-chat.ts';
import { type PageError, type Words, wordsFor } from './words/words.ts';

export interface Caller {
  token: string;
  chat: string;
  words: Words;
  /** The page's own script asks; it takes parts, not pages. */
  script: boolean;
  /** The browser sent a cookie of ours. */
  known: boolean;
}

/** Once for each request; a browser without a cookie gets a new token with the answer. */
export function callerOf(request: Request, response: Response, { secure }: WebChat): Caller {
  const { caller } = response.locals as { caller?: Caller };
  if (caller !== undefined) return caller;
  const held = tokenIn(request.headers.cookie, secure);
  const token = held ?? newToken();
  response.append('set-cookie', cookieHeader(token, secure));
  const fresh: Caller = {
    token,
    chat: chatOf(token),
    words: wordsFor(request.headers['accept-language']),
    script: request.headers.accept === 'application/json',
    known: held !== null,
  };
  response.locals.caller = fresh;
  return fresh;
}

/** Null when a form may be taken; otherwise what is wrong with where it comes from. */
export function refusal(request: Request, caller: Caller, { publicUrl }: WebChat): PageError | null {
  const site = request.get('sec-fetch-site');
  if (site !== undefined && site !== 'same-origin') return 'stale';
  const origin = request.get('origin');
  if (origin !== undefined && !ownOrigin(origin, request, publicUrl)) return 'stale';
  if (!caller.known) return 'cookies';
  const body = request.body as Record<string, unknown> | undefined;
  return csrfFits(caller.token, body?.csrf) ? null : 'stale';
}

function ownOrigin(origin: string, request: Request, publicUrl: string | null): boolean {
  if (!URL.canParse(origin)) return false;
  const { host, origin: clean } = new URL(origin);
  return host === request.get('host') || (publicUrl !== null && clean === new URL(publicUrl).origin);
}
