/** Slack over HTTP: signed requests on one address, answered after the commit. */
import { verifySlackRequest } from '@slack/bolt';
import express, { type NextFunction, type Request, type Response, Router } from 'express';
import type { Log } from './log.ts';
import { type Answer, type Held, isSlowedDown, type Process, take } from './receiver.ts';

export const PATH = '/slack/events';

/** Seconds that a request's clock may differ from ours, either way. */
const SKEW = 300;

export interface HttpSettings {
  signingSecret: string;
  now(): number;
  log: Log;
}

export function httpReceiver({ signingSecret, now, log }: HttpSettings): Held & { router: Router } {
  let app: Process | null = null;
  const begun = new Set<Promise<unknown>>();
  const router = Router();
  const raw = express.raw({ type: () => true, limit: '4mb' });
  router.post('/', raw, async (request: Request, response: Response) => {
    const text = Buffer.isBuffer(request.body) ? request.body.toString('utf8') : '';
    const form = request.is('application/x-www-form-urlencoded') ? new URLSearchParams(text) : null;
    // Slack's check of our certificate is not signed; it is answered, and nothing else in it counts.
    if (form?.get('ssl_check') === '1') return void response.status(200).end();
    const why = mistrust(request, text, signingSecret, now());
    if (why !== null) {
      log('slack-request-refused', { why });
      return void response.status(401).end();
    }
    const body = read(text, form);
    if (body === null) return void response.status(400).end();
    if (body.type === 'url_verification') return void response.json({ challenge: body.challenge });
    if (isSlowedDown(body)) {
      log('slack-slowed-down', { team: body.team_id });
      return void response.status(200).end();
    }
    if (app === null) return void response.status(503).end();
    const work = take(app, body);
    begun.add(work);
    try {
      const { answer } = await work;
      reply(response, answer);
    } catch {
      // Logged by the app already. Slack sends events again; whoever pressed something sees that it did not work.
      response.status(500).end();
    } finally {
      begun.delete(work);
    }
  });
  router.use((error: { status?: number }, _request: Request, response: Response, next: NextFunction) => {
    if (response.headersSent) return next(error);
    response.status(error.status ?? 400).end();
  });
  return {
    router,
    init: given => {
      app = given;
    },
    start: async () => undefined,
    stop: async () => {
      await Promise.allSettled(begun);
    },
  };
}

function reply(response: Response, answer: Answer): void {
  if (answer === undefined || answer === '') response.status(200).end();
  else if (typeof answer === 'string') response.status(200).type('text').send(answer);
  else response.status(200).json(answer);
}

/** Why this does not come from Slack, or null. */
function mistrust(request: Request, body: string, signingSecret: string, now: number): string | null {
  const signature = request.get('x-slack-signature');
  const timestamp = request.get('x-slack-request-timestamp');
  if (signature === undefined || timestamp === undefined) return 'it is not signed';
  const seconds = Number(timestamp);
  if (!Number.isSafeInteger(seconds)) return 'its time is no number';
  if (Math.abs(now / 1000 - seconds) > SKEW) return 'its time is more than five minutes off';
  const headers = { 'x-slack-signature': signature, 'x-slack-request-timestamp': seconds };
  try {
    verifySlackRequest({ signingSecret, body, headers, nowMilliseconds: now });
    return null;
  } catch {
    return 'its signature is wrong';
  }
}

function read(text: string, form: URLSearchParams | null): Record<string, unknown> | null {
  if (form !== null && !form.has('payload')) return Object.fromEntries(form);
  try {
    const body: unknown = JSON.parse(form?.get('payload') ?? text);
    return typeof body === 'object' && body !== null && !Array.isArray(body)
      ? (body as Record<string, unknown>)
      : null;
  } catch {
    return null;
  }
}
