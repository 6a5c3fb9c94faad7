/** A text reduced to what is left of it when a picture was read badly: letters that look alike are one, gaps and signs are none. Pure. */

export interface Skeleton {
  bones: string;
  /** Where each bone stood in the text. */
  places: number[];
  /** Does a word begin or end before this bone? */
  edge(bone: number): boolean;
}

const ALIKE: Record<string, string> = {
  '0': 'o',
  q: 'o',
  '1': 'l',
  i: 'l',
  '|': 'l',
  '!': 'l',
  j: 'l',
  '5': 's',
  $: 's',
  '8': 'b',
  '6': 'b',
  '2': 'z',
  '9': 'g',
  v: 'u',
};
const BONE = /[\p{L}\p{N}|!$]/u;

export function skeleton(text: string): Skeleton {
  const places: number[] = [];
  let bones = '';
  for (let at = 0; at < text.length; at++) {
    const letter = text[at]!.toLowerCase();
    if (letter.length !== 1 || !BONE.test(letter)) continue;
    // "rn" is read for "m", and the other way round.
    if (letter === 'm') {
      bones += 'rn';
      places.push(at, at);
      continue;
    }
    bones += ALIKE[letter] ?? letter;
    places.push(at);
  }
  const edge = (bone: number) => {
    const [before, after] = [places[bone - 1], places[bone]];
    return before === undefined || after === undefined || after - before > 1;
  };
  return { bones, places, edge };
}
