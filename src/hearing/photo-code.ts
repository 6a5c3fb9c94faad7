/** An error number that was read off a photo, its figures perhaps mistaken for letters. Only known numbers count. Pure. */
import { codesIn } from './tokens.ts';

/** 0x and figures: the 0 may be an O, the x a sign for times. */
const HEX = /(?<![\p{L}\p{N}])[0OoQD][xX×]\s?([0-9A-Za-z|]{1,8})(?![\p{L}\p{N}])/gu;
/** What may be a number after "error" or "code". */
const AFTER = /(?<=(?:err[o0]r|c[o0]de|check)[\s:#]{1,3})[0-9OoQIl|SsBZz]{1,5}(?![\p{L}\p{N}])/giu;
const FIGURES: Record<string, string> = {
  O: '0',
  o: '0',
  Q: '0',
  D: '0',
  I: '1',
  i: '1',
  l: '1',
  '|': '1',
  S: '5',
  s: '5',
  Z: '2',
  z: '2',
  G: '6',
  T: '7',
};
/** Both are figures of such a number, and look alike. */
const EITHER: [string, string][] = [
  ['B', '8'],
  ['8', 'B'],
  ['6', '8'],
  ['5', '6'],
];

export function codeIn(
  codes: ReadonlyMap<string, { id: string }>,
  text: string,
): { id: string; verbatim: string } | null {
  const plain = text
    .replace(HEX, (_, digits: string) => `0x${figures(digits, false)}`)
    .replace(AFTER, digits => (/\d/.test(digits) ? figures(digits, true) : digits));
  for (const variant of [plain, ...variants(plain)])
    for (const { names, start, end } of codesIn(variant)) {
      const known = names.map(name => codes.get(name)).find(each => each !== undefined);
      if (known !== undefined) return { id: known.id, verbatim: variant.slice(start, end) };
    }
  return null;
}

function figures(digits: string, decimal: boolean): string {
  const read = [...digits]
    .map(digit => (decimal && digit === 'B' ? '8' : (FIGURES[digit] ?? digit)))
    .join('');
  return decimal ? read : read.toUpperCase();
}

/** One long number after the other with one pair of figures changed. */
function* variants(text: string): Generator<string> {
  for (const { 0: number, index } of text.matchAll(/0x[0-9A-F]{5,8}/g))
    for (const [one, other] of EITHER)
      for (let at = 2; at < number.length; at++)
        if (number[at] === one) yield text.slice(0, index + at) + other + text.slice(index + at + 1);
}
