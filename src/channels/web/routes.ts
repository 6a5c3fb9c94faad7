/** The web chat over HTTP: pages, forms, pictures, news. A form is answered after the commit, never before. */
import { createHash } from 'node:crypto';
import express, { type NextFunction, type Request, type Response, Router } from 'express';
import type { FromPerson } from '#talk/inbound.ts';
import { loadAssets } from './assets.ts';
import { callerOf } from './caller.ts';
import { alwaysOf, type Fields, type From, fileOf, pressOf, textOf, writtenAt } from './inbound.ts';
import { linkRoutes } from './link-routes.ts';
import { LARGEST_FORM, uploaded } from './picture.ts';
import { type Replies, replies } from './replies.ts';
import type { WebChat } from './web-chat.ts';
import type { PageError } from './words/words.ts';

/** Uploads held in memory at once. */
const UPLOADS = 8;

export function webRoutes(web: WebChat): Router {
  const { assets, files } = loadAssets();
  const reply = replies(web, assets);
  const router = Router();

  router.get('/static/:version/:file', (request, response, next) => {
    const file = files.get(request.params.file);
    if (file === undefined) return next();
    response.set({
      'content-type': file.type,
      'cache-control': 'public, max-age=31536000, immutable',
      vary: 'accept-encoding',
    });
    if (request.acceptsEncodings('gzip')) response.set('content-encoding', 'gzip').send(file.gzip);
    else response.send(file.plain);
  });
  router.use((request, response, next) => {
    response.set('cache-control', 'no-store');
    const wait = request.method === 'GET' ? web.wait.page(request.ip ?? '') : 0;
    if (wait > 0) reply.fail(request, response, 'tooMany', { wait });
    else next();
  });

  router.get('/', (request, response) => reply.chat(request, response));

  /** Before a body is read: a flood from one address costs no more than its headers. */
  const slow = (request: Request, response: Response, next: NextFunction) => {
    const wait = web.wait.form(request.ip ?? '');
    if (wait > 0) reply.fail(request, response, 'tooMany', { wait });
    else next();
  };
  const form = [slow, express.urlencoded({ extended: false, limit: '1mb', parameterLimit: 20 })];
  const says = saying(web, reply);
  router.post('/say', form, (request: Request, response: Response) => says(request, response, textOf));
  router.post('/answer', form, (request: Request, response: Response) => says(request, response, pressOf));
  router.post('/always', form, (request: Request, response: Response) => says(request, response, alwaysOf));
  router.post('/picture', slow, room(reply), raw, async (request: Request, response: Response) => {
    const given = await uploaded(request.body, request.get('content-type'));
    request.body = given?.fields;
    if (given === null) return reply.fail(request, response, 'notForms');
    const { accepted, name } = given;
    if (accepted.ok)
      return says(request, response, (fields, from) => fileOf(fields, { name, ...accepted }, from));
    if (reply.refused(request, response)) return;
    const { words } = callerOf(request, response, web);
    const { why } = accepted;
    reply.badPicture(request, response, why === 'none' ? words.noPicture : words.refused[why]);
  });

  router.get('/picture/:id', async (request, response) => {
    const { chat } = callerOf(request, response, web);
    const file = await web.store.file(request.params.id);
    const owner = file === null ? null : await web.store.conversation(file.conversation);
    if (file === null || owner?.chat !== chat) return reply.fail(request, response, 'gone');
    response.set({
      'content-type': file.type === 'text/plain' ? 'text/plain; charset=utf-8' : file.type,
      'content-security-policy': "default-src 'none'; sandbox",
      'content-disposition': `inline; filename*=UTF-8''${encodeURIComponent(file.name.toWellFormed())}`,
      'cache-control': 'private, max-age=31536000, immutable',
    });
    response.send(Buffer.from(file.content));
  });

  router.get('/events', async (request, response) => {
    const { chat } = callerOf(request, response, web);
    const newest = (await web.store.newestSent([chat])).get(chat) ?? 0;
    if (!web.streams.add(chat, response, newest, assets.version)) reply.fail(request, response, 'tooMany');
  });

  router.use(linkRoutes(web, reply, form));
  router.use((request, response) => reply.fail(request, response, 'gone'));
  router.use((error: unknown, request: Request, response: Response, next: NextFunction) => {
    if (response.headersSent) return next(error);
    const known = errorOf(error, web);
    if (known === 'broken' || known === 'full')
      web.log('web-request-failed', { path: pathOf(request), error: String(error) });
    reply.fail(request, response, known, { text: (request.body as Fields | undefined)?.text });
  });
  return router;
}

/** Takes what a form says and shows what comes of it. */
function saying(web: WebChat, reply: Replies) {
  return async (
    request: Request,
    response: Response,
    inboundOf: (fields: Fields, from: From) => FromPerson | null,
  ) => {
    if (reply.refused(request, response)) return;
    const { chat, script } = callerOf(request, response, web);
    const fields = (request.body ?? {}) as Fields;
    const inbound = inboundOf(fields, { chat, now: web.now(), digest });
    if (inbound === null) return reply.fail(request, response, 'notForms', { text: fields.text });
    if (inbound.kind === 'text')
      inbound.at = writtenAt(fields.seen, await web.store.currentOf(chat), inbound.at);
    await web.take(inbound);
    await web.delivered();
    if (script) await reply.chat(request, response);
    else await reply.news(response, chat);
  };
}

const raw = express.raw({ type: 'multipart/form-data', limit: LARGEST_FORM });

/** Only so many uploads at once. */
function room(reply: Replies) {
  let uploads = 0;
  return (request: Request, response: Response, next: NextFunction) => {
    if (uploads >= UPLOADS) return reply.fail(request, response, 'tooMany', { wait: 3000 });
    uploads += 1;
    response.once('close', () => {
      uploads -= 1;
    });
    next();
  };
}

/** What the reading of a body or the database says, in our words. */
function errorOf(error: unknown, { store }: WebChat): PageError {
  if (store.isFull(error)) return 'full';
  const status = error instanceof Error && 'status' in error ? Number(error.status) : 500;
  if (status === 413) return 'tooLarge';
  return status >= 400 && status < 500 ? 'notForms' : 'broken';
}

/** Without a link's secret. */
const pathOf = (request: Request) => request.path.replace(/^\/go\/.*/, '/go/...');

const digest = (text: string) => createHash('sha256').update(text).digest('base64url').slice(0, 12);
