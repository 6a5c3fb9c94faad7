/** The words of one picture: seen in the likeliest way first, in other ways where that shows no words. */
import { BadPicture } from '../pictures/bytes.ts';
import { clean } from '../pictures/clean.ts';
import type { PictureKind } from '../pictures/kind.ts';
import { decode, MOST_PIXELS, type Pixels } from './pixels.ts';
import type { Recogniser } from './recognise.ts';
import { viewOf } from './view.ts';
import type { Word } from './words.ts';

export interface Picture {
  type: PictureKind;
  content: Uint8Array;
}

/** Evenly lit; as it is lit; then lying on either side, and on its head. */
const WAYS = [
  { quarters: 0, plain: false },
  { quarters: 0, plain: true },
  { quarters: 1, plain: false },
  { quarters: 3, plain: false },
  { quarters: 2, plain: false },
];
/** So many words of at least three letters or figures, this sure, are no chance. */
const ENOUGH = 3;
const LETTERS = /[\p{L}\p{N}]{3}/u;
const SURE = 70;

/** Boxes are of the picture as it is shown, the right way up. Throws BadPicture for what cannot be opened. */
export async function read({ words }: Recogniser, pixels: Pixels): Promise<Word[]> {
  let most: Word[] = [];
  for (const way of WAYS) {
    const view = viewOf(pixels, way);
    const found = await words(view.grey);
    const seen = found.map(word => ({ ...word, box: view.onPicture(word.box) }));
    if (certain(seen) > certain(most)) most = seen;
    if (certain(most) >= ENOUGH) break;
  }
  return most;
}

const certain = (words: readonly Word[]): number =>
  words.filter(({ sure, text }) => sure >= SURE && LETTERS.test(text)).length;

/** WebP is opened by the recogniser, and goes on as PNG. */
export async function open(recogniser: Recogniser, { type, content }: Picture): Promise<Pixels> {
  const { ok, ...about } = clean(content);
  if (!ok || !('width' in about)) throw new BadPicture('it is no picture');
  if (about.width * about.height > MOST_PIXELS) throw new BadPicture('it has too many pixels');
  if (type === 'image/webp') return decode('image/png', await recogniser.png(content));
  return decode(type, content);
}
