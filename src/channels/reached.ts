/** Did a request get as far as the platform? */

/** The connection was never made, so nothing went. */
const NOT_REACHED = ['ECONNREFUSED', 'ENOTFOUND', 'EAI_AGAIN', 'EHOSTUNREACH', 'ENETUNREACH'];
const DEEPEST = 5;

/** The reason may be wrapped: fetch itself says only that it failed. */
export function neverReached(error: unknown): boolean {
  let inner = error;
  for (let depth = 0; inner instanceof Error && depth < DEEPEST; depth++) {
    if ('code' in inner && NOT_REACHED.includes(String(inner.code))) return true;
    inner = 'original' in inner && inner.original instanceof Error ? inner.original : inner.cause;
  }
  return false;
}
