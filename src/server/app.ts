/** The HTTP side that all channels share: health, headers, and what is answered before everything is ready. */
import express, { type Express, type Router } from 'express';

export interface Serving {
  /** Where people reach it, from RESEAT_PUBLIC_URL. */
  publicUrl: string | null;
  /** The address it listens on. */
  host: string;
  /** Null until everything is wired. */
  router(): Router | null;
  /** Can it serve right now? Rejects or says false when the database is away. */
  ready(): Promise<boolean>;
  /** What an operator should see to although it serves, a line each. */
  troubles?(): string[];
}

const LOOPBACK = /^(localhost|127(\.\d+){3}|\[::1\])(:\d+)?$/i;
export const isLoopback = (host: string): boolean => LOOPBACK.test(host) || host === '::1';

export function app(serving: Serving): Express {
  const { publicUrl, host } = serving;
  const http = express();
  http.disable('x-powered-by');
  http.disable('etag');
  http.set('query parser', 'simple');
  // With a public address there is a proxy in front, and only its word on who called counts.
  http.set('trust proxy', publicUrl === null ? false : 'loopback, linklocal, uniquelocal');

  http.get('/healthz', (_request, response) => void response.type('text').send('alive\n'));
  http.get('/readyz', async (_request, response) => {
    const ready = serving.router() !== null && (await serving.ready().catch(() => false));
    response
      .status(ready ? 200 : 503)
      .type('text')
      .send(`${[ready ? 'ready' : 'not ready', ...(serving.troubles?.() ?? [])].join('\n')}\n`);
  });

  const headers = securityHeaders(publicUrl);
  http.use((_request, response, next) => {
    response.set(headers);
    next();
  });
  // A page elsewhere may give its own name our address; what it then asks for is not answered.
  http.use((request, response, next) => {
    if (hostFits(request.get('host') ?? '', host, publicUrl)) return next();
    response
      .status(421)
      .type('text')
      .send('This address is not mine. Open the page under the address your organisation gave you.\n');
  });
  http.use((request, response, next) => {
    const router = serving.router();
    if (router !== null) return router(request, response, next);
    response.status(503).set({ 'retry-after': '1', refresh: '1' }).type('text');
    response.send('One moment, I am just starting. This page tries again by itself.\n');
  });
  return http;
}

function hostFits(given: string, host: string, publicUrl: string | null): boolean {
  const known = publicUrl === null ? null : new URL(publicUrl).host;
  if (LOOPBACK.test(given) || given === known) return true;
  return known === null && !isLoopback(host);
}

function securityHeaders(publicUrl: string | null): Record<string, string> {
  const tls = publicUrl?.startsWith('https://') === true;
  return {
    'content-security-policy':
      "default-src 'self'; base-uri 'none'; form-action 'self'; frame-ancestors 'none'; object-src 'none'",
    'cross-origin-opener-policy': 'same-origin',
    'cross-origin-resource-policy': 'same-origin',
    // Not "no-referrer": a form's origin would be hidden from us too.
    'referrer-policy': 'same-origin',
    'x-content-type-options': 'nosniff',
    'x-frame-options': 'DENY',
    'permissions-policy': 'camera=(), microphone=(), geolocation=()',
    'x-robots-tag': 'noindex',
    ...(tls ? { 'strict-transport-security': 'max-age=31536000' } : {}),
  };
}
