/** Slack's Web API: one call, once. Our own delivery is what tries again, because a lost reply would else post twice. */

import { WebAPIHTTPError, WebAPIPlatformError, WebAPIRateLimitedError, WebClient } from '@slack/web-api';
import { neverReached } from '../reached.ts';
import { boltLog, type Log } from './log.ts';

/** What the API answered with, as far as anybody here reads it. */
export type Body = Record<string, unknown>;

export type Called =
  | { ok: true; body: Body }
  /** Try again, not before `after` milliseconds from now. `unclear`: it may have been done all the same. `patient`: however long it takes. */
  | { ok: false; again: true; after: number; error: string; unclear: boolean; patient?: true }
  /** Trying again changes nothing. */
  | { ok: false; again: false; error: string };

/** Whether Slack takes our token. `why` is Slack's own word for the reason. */
export type SignedIn =
  | { state: 'unknown' }
  | { state: 'in'; team: string; user: string }
  | { state: 'out'; why: string };

export interface Slack {
  /** Never rejects. Without `signal` the call's own time-out counts. */
  call(method: string, args: Body, signal?: AbortSignal): Promise<Called>;
  /** Bytes of a file that somebody sent, or why not. `most`: bytes; longer ones are not read to their end. */
  fetchFile(url: string, most: number, signal?: AbortSignal): Promise<Fetched>;
  signedIn(): SignedIn;
  /** Slack told us that it takes the token no more. */
  signedOut(why: string): void;
}

export type Fetched =
  | { ok: true; content: Uint8Array }
  | { ok: false; why: 'too-large' }
  | Extract<Called, { ok: false }>;

export interface ClientSettings {
  token: string;
  /** Ends in a slash; null: Slack's own. */
  apiUrl: string | null;
  log: Log;
}

/** Milliseconds. A call may take so long. */
const TIMEOUT = 8000;
/** Where Slack says "later" without saying when. */
const LATER = 30_000;
/** Without a token that works nothing goes; an administrator has to see to it. */
const SIGNED_OUT_WAIT = 600_000;

const PASSING = new Set([
  'ratelimited',
  'rate_limited',
  'internal_error',
  'fatal_error',
  'service_unavailable',
  'request_timeout',
  'external_service_error',
  'team_added_to_org',
]);
const REFUSED = new Set([
  'invalid_auth',
  'not_authed',
  'account_inactive',
  'token_revoked',
  'token_expired',
  'team_access_not_granted',
]);

export function slackClient({ token, apiUrl, log }: ClientSettings): Slack {
  const client: WebClient = new WebClient(token, {
    ...(apiUrl === null ? {} : { slackApiUrl: apiUrl }),
    logger: boltLog(log),
    retryConfig: { retries: 0 },
    rejectRateLimitedCalls: true,
    timeout: TIMEOUT,
    maxRequestConcurrency: 200,
  });
  let signedIn: SignedIn = { state: 'unknown' };
  /** Who we were when the token worked last. */
  let last: SignedIn = signedIn;
  const refused = (why: string) => {
    if (signedIn.state !== 'out' || signedIn.why !== why) log('slack-signed-out', { why });
    signedIn = { state: 'out', why };
  };
  const failed = (error: unknown, method: string): Extract<Called, { ok: false }> => {
    const called = judge(error);
    if (!called.ok && REFUSED.has(called.error)) {
      refused(called.error);
      return {
        ok: false,
        again: true,
        after: SIGNED_OUT_WAIT,
        error: called.error,
        unclear: false,
        patient: true,
      };
    }
    if (!called.again) log('slack-refused', { method, error: called.error });
    return called;
  };
  return {
    async call(method, args, signal) {
      try {
        const body = (await unlessAborted(client.apiCall(method, args), signal)) as unknown as Body;
        if (method === 'auth.test') {
          const { team_id: team, user_id: user } = body;
          if (signedIn.state !== 'in') log('slack-signed-in', { team });
          last = signedIn = { state: 'in', team: String(team), user: String(user) };
        }
        if (signedIn.state === 'out') signedIn = last;
        return { ok: true, body };
      } catch (error) {
        return failed(error, method);
      }
    },
    async fetchFile(url, most, signal = AbortSignal.timeout(TIMEOUT)) {
      if (!isSlacks(url, apiUrl)) return { ok: false, again: false, error: 'the file is not at Slack' };
      try {
        const response = await fetch(url, { headers: { authorization: `Bearer ${token}` }, signal });
        // Without the scope or the token Slack shows its sign-in page instead of the file.
        if (response.status === 401 || response.status === 403 || isPage(response)) {
          await response.body?.cancel();
          log('slack-file-not-shown', { status: response.status });
          return { ok: false, again: false, error: 'the file is not shown to us' };
        }
        if (response.status === 429 || response.status >= 500) {
          await response.body?.cancel();
          const after = Number(response.headers.get('retry-after') ?? 0) * 1000;
          return {
            ok: false,
            again: true,
            after: after || LATER,
            error: `${response.status}`,
            unclear: false,
          };
        }
        if (!response.ok) return { ok: false, again: false, error: `${response.status}` };
        const content = await upTo(response, most);
        return content === null ? { ok: false, why: 'too-large' } : { ok: true, content };
      } catch (error) {
        return { ok: false, again: true, after: LATER, error: String(error), unclear: false };
      }
    },
    signedIn: () => signedIn,
    signedOut: refused,
  };
}

/** Our token goes nowhere else. */
function isSlacks(url: string, apiUrl: string | null): boolean {
  if (!URL.canParse(url)) return false;
  const { protocol, hostname, origin } = new URL(url);
  if (apiUrl !== null && origin === new URL(apiUrl).origin) return true;
  return protocol === 'https:' && (hostname === 'slack.com' || hostname.endsWith('.slack.com'));
}

const isPage = (response: Response) => response.headers.get('content-type')?.startsWith('text/html') === true;

async function upTo(response: Response, most: number): Promise<Uint8Array | null> {
  const chunks: Uint8Array[] = [];
  let size = 0;
  for await (const chunk of response.body ?? []) {
    size += chunk.length;
    if (size > most) return null;
    chunks.push(chunk);
  }
  return new Uint8Array(Buffer.concat(chunks));
}

/** The client knows no signals; what was aborted goes on in vain until its own time-out. */
function unlessAborted<T>(work: Promise<T>, signal: AbortSignal | undefined): Promise<T> {
  if (signal === undefined) return work;
  return new Promise((resolve, reject) => {
    const abort = () => reject(new Error('it took too long'));
    if (signal.aborted) abort();
    signal.addEventListener('abort', abort, { once: true });
    work.then(resolve, reject).finally(() => signal.removeEventListener('abort', abort));
  });
}

function judge(error: unknown): Extract<Called, { ok: false }> {
  if (error instanceof WebAPIRateLimitedError)
    return {
      ok: false,
      again: true,
      after: error.retryAfter * 1000,
      error: 'ratelimited',
      unclear: false,
      patient: true,
    };
  if (error instanceof WebAPIPlatformError) {
    const { error: why = 'unknown_error', needed } = error.data as { error?: string; needed?: string };
    if (PASSING.has(why))
      return { ok: false, again: true, after: LATER, error: why, unclear: false, patient: true };
    return { ok: false, again: false, error: needed === undefined ? why : `${why}: ${needed}` };
  }
  if (error instanceof WebAPIHTTPError && error.statusCode < 500 && error.statusCode !== 429)
    return { ok: false, again: false, error: `HTTP ${error.statusCode}` };
  if (error instanceof WebAPIHTTPError)
    return { ok: false, again: true, after: LATER, error: `HTTP ${error.statusCode}`, unclear: true };
  if (neverReached(error))
    return { ok: false, again: true, after: LATER, error: String(error), unclear: false, patient: true };
  return { ok: false, again: true, after: 1000, error: String(error), unclear: true };
}
