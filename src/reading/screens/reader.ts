/** Reads photos of screens in a thread of its own: begun when there is one to read, one picture at a time, ended when it hangs or idles. */
import { Worker } from 'node:worker_threads';
import type { Picture } from './read.ts';
import type { Request, Response } from './thread.ts';
import type { Box } from './view.ts';
import type { Word } from './words.ts';

export interface ScreenReader {
  /** Null where it cannot be opened, or took too long, or broke down. Rejects after `close`. */
  read(picture: Picture): Promise<Word[] | null>;
  /** The picture with black boxes, as JPEG unless it is a PNG; null as above. */
  cover(picture: Picture, boxes: Box[]): Promise<Picture | null>;
  close(): Promise<void>;
}

export interface Reading {
  /** Milliseconds that one picture may take. */
  patience?: number;
  /** Milliseconds without a picture after which the thread and its memory go. */
  idle?: number;
  /** Megabytes of the thread's heap. Pixels stand beside it, and are bounded by MOST_PIXELS. */
  memory?: number;
  thread?: URL;
  log(event: string, details: Record<string, unknown>): void;
}

const PATIENCE = 60_000;
const IDLE = 60_000;
const MEMORY = 512;

type Asked = Omit<Request, 'id'>;

export function screenReader(reading: Reading): ScreenReader {
  const { patience = PATIENCE, idle = IDLE, memory = MEMORY, log } = reading;
  const thread = reading.thread ?? new URL('./thread.ts', import.meta.url);
  let worker: Worker | null = null;
  let queue: Promise<unknown> = Promise.resolve();
  let count = 0;
  let idling: NodeJS.Timeout | undefined;
  let closed = false;

  const begin = () => {
    const begun = new Worker(thread, { resourceLimits: { maxOldGenerationSizeMb: memory } });
    // It may break down between two pictures too: then the next one begins another.
    begun.on('error', () => {});
    begun.on('exit', () => {
      if (worker === begun) worker = null;
    });
    begun.unref();
    return begun;
  };
  const end = async () => {
    const ended = worker;
    worker = null;
    await ended?.terminate();
  };

  async function ask(asked: Asked): Promise<Response | null> {
    if (closed) throw new Error('the reader has ended');
    clearTimeout(idling);
    worker ??= begin();
    const answer = await answerOf(worker, { ...asked, id: ++count }, patience);
    if (closed) throw new Error('the reader has ended');
    if ('broke' in answer) {
      log('picture-not-read', { why: answer.broke, bytes: asked.content.byteLength });
      await end();
      return null;
    }
    if (!closed) idling = setTimeout(() => void end(), idle).unref();
    return answer;
  }
  /** One after the other. */
  const inTurn = (asked: Asked): Promise<Response | null> => {
    const turn = queue.then(() => ask(asked));
    queue = turn.catch(() => undefined);
    return turn;
  };

  return {
    async read({ type, content }) {
      const answer = await inTurn({ type, content });
      return answer !== null && 'words' in answer ? answer.words : null;
    },
    async cover({ type, content }, boxes) {
      const answer = await inTurn({ type, content, boxes });
      return answer !== null && 'picture' in answer ? answer.picture : null;
    },
    async close() {
      closed = true;
      clearTimeout(idling);
      await end();
    },
  };
}

function answerOf(worker: Worker, request: Request, patience: number): Promise<Response | { broke: string }> {
  return new Promise(resolve => {
    const done = (answer: Response | { broke: string }) => {
      clearTimeout(timer);
      worker.off('message', onMessage).off('error', onError).off('exit', onExit);
      resolve(answer);
    };
    const onMessage = (response: Response) => {
      if (response.id === request.id) done(response);
    };
    const onError = (error: Error) => done({ broke: String(error) });
    const onExit = () => done({ broke: 'the thread ended' });
    const timer = setTimeout(() => done({ broke: 'it took too long' }), patience);
    worker.on('message', onMessage).on('error', onError).on('exit', onExit);
    worker.postMessage(request);
  });
}
