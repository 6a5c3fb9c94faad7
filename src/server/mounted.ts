import { Router } from 'express';

/** What a chat platform answers over HTTP, and under which path. */
export interface Mounted {
  path: string;
  router: Router;
}

/** The platforms first: `rest` answers whatever is left. */
export function mounted(parts: (Mounted | null)[], rest: Router): Router {
  const router = Router();
  for (const part of parts) if (part !== null) router.use(part.path, part.router);
  router.use(rest);
  return router;
}
