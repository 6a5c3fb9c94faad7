/** `/api/messages`: where Teams brings what happened. Whatever comes, it is answered, and nothing of it ends the process. */
import express, { type NextFunction, type Request, type Response, Router } from 'express';
import { NotAuthentic } from './adapter.ts';
import { refusal } from './gate.ts';
import { type Turns, turned } from './turns.ts';

export const PATH = '/api/messages';

/** Far above what Teams sends: a form's texts, never a file. */
const LARGEST = '512kb';

export function teamsRoutes(on: Turns): Router {
  const router = Router();
  router.use((request, response, next) => {
    if (request.method === 'POST') return next();
    response.status(405).set('allow', 'POST').json({ error: 'POST only' });
  });
  router.use(express.json({ limit: LARGEST, strict: true, type: () => true }));
  router.use(async (request: Request, response: Response) => {
    const { authorization } = request.headers;
    const refused = refusal(request.body, authorization, on.settings);
    if (refused !== null) {
      on.log('teams-request-refused', { why: refused.why });
      response.status(refused.status).json({ error: refused.why });
      return;
    }
    try {
      const answer = await on.adapter.receive(request.body, authorization!, activity => turned(on, activity));
      response.status(answer.status);
      if (answer.body === undefined) response.end();
      else response.json(answer.body);
    } catch (error) {
      const strange = error instanceof NotAuthentic;
      on.log(strange ? 'teams-request-refused' : 'teams-request-failed', {
        [strange ? 'why' : 'error']: strange ? error.message : String(error),
      });
      // 503: Teams brings it again.
      response.status(strange ? 401 : 503).json({ error: strange ? 'not authentic' : 'not now' });
    }
  });
  router.use((error: unknown, _request: Request, response: Response, next: NextFunction) => {
    if (response.headersSent) return next(error);
    const status = error instanceof Error && 'status' in error ? Number(error.status) : 500;
    response.status(status >= 400 && status < 500 ? status : 400).json({ error: 'not an activity of Teams' });
  });
  return router;
}
