/** SQLite's own code, PostgreSQL's class 53100 (manual, appendix A), and the file system's. */
const FULL = new Set(['SQLITE_FULL', '53100', 'ENOSPC', 'EDQUOT']);

/** Was it refused because the disk is full? */
export function isFull(error: unknown): boolean {
  if (!(error instanceof Error)) return false;
  return ('code' in error && FULL.has(String(error.code))) || isFull(error.cause);
}
