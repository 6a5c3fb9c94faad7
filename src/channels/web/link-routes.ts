/** "Go on from another device": making the link, and its other end. */
import { type Request, type RequestHandler, type Response, Router } from 'express';
import { callerOf } from './caller.ts';
import { chatOf, cookieHeader, newToken } from './cookie.ts';
import { linkFor, makeLink, opened } from './links.ts';
import { goGonePage, goPage, keepPage } from './pages.ts';
import type { Replies } from './replies.ts';
import type { WebChat } from './web-chat.ts';

/** `form`: what a form goes through before it is looked at. */
export function linkRoutes(web: WebChat, reply: Replies, form: RequestHandler[]): Router {
  const { store, now } = web;
  const router = Router();
  const begun = async (chat: string) => (await store.currentOf(chat)) !== null;

  router.get('/keep', async (request, response) => {
    const caller = callerOf(request, response, web);
    const base = reply.base(request);
    const link = await linkFor(store, caller.token, base, now());
    const here = isLoopback(base);
    reply.page(response, 200, keepPage(link, await begun(caller.chat), here, reply.frame(caller)));
  });

  router.post('/keep', form, async (request: Request, response: Response) => {
    if (reply.refused(request, response)) return;
    const { token, chat } = callerOf(request, response, web);
    if (await begun(chat)) await makeLink(store, token, now());
    response.redirect(303, '/keep');
  });

  router.post('/keep/end', form, async (request: Request, response: Response) => {
    if (reply.refused(request, response)) return;
    await store.withdrawLinks(callerOf(request, response, web).chat);
    response.redirect(303, '/keep');
  });

  router.post('/forget', form, (request: Request, response: Response) => {
    if (reply.refused(request, response)) return;
    response.set('set-cookie', cookieHeader(newToken(), web.secure));
    // What was typed and not sent goes too.
    response.set('clear-site-data', '"storage"');
    response.redirect(303, '/');
  });

  // Whoever fetches a link to preview it opens nothing: that takes the button.
  router.get('/go/:secret', async (request, response) => {
    const caller = callerOf(request, response, web);
    const { secret } = request.params;
    const token = await opened(store, secret, now());
    if (token === null) return reply.page(response, 404, goGonePage(reply.frame(caller)));
    if (chatOf(token) === caller.chat) return response.redirect(303, '/#now');
    reply.page(response, 200, goPage(secret, await begun(caller.chat), reply.frame(caller)));
  });

  router.post('/go/:secret', form, async (request: Request<{ secret: string }>, response: Response) => {
    const plain = request as unknown as Request;
    if (reply.refused(plain, response)) return;
    const token = await opened(store, request.params.secret, now());
    if (token === null) {
      return reply.page(response, 404, goGonePage(reply.frame(callerOf(plain, response, web))));
    }
    response.set('set-cookie', cookieHeader(token, web.secure));
    response.redirect(303, '/#now');
  });
  return router;
}

const isLoopback = (base: string) => /^(localhost|127\.|\[::1\])/.test(new URL(base).host);
