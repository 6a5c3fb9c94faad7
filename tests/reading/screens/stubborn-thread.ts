/** A reader that never answers a PNG, and dies of a JPEG that is empty. */
import { parentPort } from 'node:worker_threads';

parentPort?.on('message', ({ id, type, content }: { id: number; type: string; content: Uint8Array }) => {
  if (type === 'image/png') for (;;);
  if (content.length === 0) process.exit(3);
  parentPort?.postMessage({ id, words: [] });
});
