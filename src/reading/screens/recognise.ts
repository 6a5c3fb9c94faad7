/** Words out of pictures, by tesseract.js: its English data comes from the package, nothing is fetched and nothing is written. */
import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';
import { createWorker, OEM, type Page } from 'tesseract.js';
import type { Grey } from './grey.ts';
import type { Word } from './words.ts';

export interface Recogniser {
  words(grey: Grey): Promise<Word[]>;
  /** Any picture that the reader opens, as PNG. */
  png(content: Uint8Array): Promise<Uint8Array>;
}

const LANGUAGE = join(
  dirname(createRequire(import.meta.url).resolve('@tesseract.js-data/eng')),
  '4.0.0_best_int',
);

export async function recogniser(): Promise<Recogniser> {
  const worker = await createWorker('eng', OEM.LSTM_ONLY, {
    langPath: LANGUAGE,
    cacheMethod: 'none',
    // Without one, an error is thrown where nobody can catch it; it also comes as a rejection.
    errorHandler: () => {},
  });
  await worker.setParameters({ debug_file: '/dev/null' } as object);
  return {
    async words(grey) {
      const { data } = await worker.recognize(pgm(grey), {}, { text: false, blocks: true });
      return wordsOf(data);
    },
    async png(content) {
      const only = { text: false, imageColor: true };
      const { data } = await worker.recognize(Buffer.from(content), {}, only);
      const [, base64 = ''] = (data.imageColor ?? '').split(',', 2);
      return Buffer.from(base64, 'base64');
    },
  };
}

/** The plainest picture file there is: a line of text, then the shades. */
const pgm = ({ data, width, height }: Grey): Buffer =>
  Buffer.concat([Buffer.from(`P5\n${width} ${height}\n255\n`), data]);

function wordsOf({ blocks }: Page): Word[] {
  const lines = (blocks ?? []).flatMap(block => block.paragraphs.flatMap(paragraph => paragraph.lines));
  return lines.flatMap((line, index) =>
    line.words.map(({ text, confidence, bbox: { x0, y0, x1, y1 } }) => ({
      text,
      line: index,
      box: { x: x0, y: y0, width: x1 - x0, height: y1 - y0 },
      sure: confidence,
    })),
  );
}
