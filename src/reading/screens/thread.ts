/** The thread that reads: one request at a time, each answered once. It may be ended at any moment; nothing is lost with it. */
import { parentPort } from 'node:worker_threads';
import { BadPicture } from '../pictures/bytes.ts';
import { blacken } from './cover.ts';
import { encode } from './pixels.ts';
import { open, type Picture, read } from './read.ts';
import { type Recogniser, recogniser } from './recognise.ts';
import type { Box } from './view.ts';
import type { Word } from './words.ts';

/** Without `boxes` the words are wanted, with them the picture with the boxes covered. */
export type Request = Picture & { id: number; boxes?: Box[] };
/** `bad`: the picture cannot be opened, whoever tries. */
export type Response = { id: number } & ({ words: Word[] } | { picture: Picture } | { bad: string });

let ready: Promise<Recogniser> | undefined;

async function answer(request: Request): Promise<Response> {
  const { id, boxes } = request;
  ready ??= recogniser();
  const recognises = await ready;
  try {
    const pixels = await open(recognises, request);
    if (boxes === undefined) return { id, words: await read(recognises, pixels) };
    for (const box of boxes) blacken(pixels, box);
    const type = request.type === 'image/png' ? 'image/png' : 'image/jpeg';
    return { id, picture: { type, content: encode(type, pixels) } };
  } catch (error) {
    if (error instanceof BadPicture) return { id, bad: error.message };
    throw error;
  }
}

parentPort?.on('message', (request: Request) => {
  // What else goes wrong ends the thread, and the next request begins a new one.
  void answer(request).then(response => parentPort?.postMessage(response));
});
