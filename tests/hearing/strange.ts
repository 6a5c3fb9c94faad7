/** Endless strange texts, the same for the same number: words of the trade, other languages, signs, broken letters, long runs. */

const WORDS =
  'my the drive disk usb stick share S: P: \\\\srv\\team laptop pc windows clicking smoke not no never kein pas sin is gone slow full denied 0x80070035 0xc000000f error 53 raid nas key 48 digits bitlocker and but or because password is 123456-654321 😭 🔥 👍 ¿ é ß ﬁ 𝔅 \u0000 \u200b \u202e \ud800 ... ?? !! "quote" (a) [b] {c} <d> `e` *f* _g_ 你好 привет مرحبا'.split(
    ' ',
  );
const SIGNS = [' ', ' ', ' ', ' ', '. ', ', ', '\n', '', '-', '"', "'", ': ', '\t', '\\', '/'];
/** Characters of the longest. */
const LONGEST = 20_000;

/** One of the texts; most are short, one in five hundred is long, and as many are one thing over and over. */
export function strange(number: number): string {
  let state = (number * 2654435761 + 12345) >>> 0;
  const next = (below: number): number => {
    state ^= state << 13;
    state ^= state >>> 17;
    state ^= state << 5;
    return (state >>> 0) % below;
  };
  const word = (): string => {
    switch (next(8)) {
      case 0:
        return String.fromCharCode(...Array.from({ length: 1 + next(12) }, () => next(0x10000)));
      case 1:
        return Array.from({ length: 1 + next(14) }, () => String.fromCharCode(97 + next(26))).join('');
      case 2: {
        const right = WORDS[next(WORDS.length)]!;
        const at = next(right.length + 1);
        return right.slice(0, at) + String.fromCharCode(97 + next(26)) + right.slice(at + next(2));
      }
      default:
        return WORDS[next(WORDS.length)]!;
    }
  };
  const part = () => word() + SIGNS[next(SIGNS.length)]!;
  const kind = next(500);
  if (kind === 0)
    return part()
      .repeat(1 + next(2000))
      .slice(0, LONGEST);
  // What has held readers up: one short word without end, figures far apart.
  if (kind === 2) return `${WORDS[next(12)]} a `.repeat(1 + next(4000)).slice(0, LONGEST);
  if (kind === 3) return `${'123456'.padEnd(6 + next(12))}`.repeat(1 + next(40)) + '\n'.repeat(next(4));
  const parts = kind === 1 ? next(600) : next(16);
  return Array.from({ length: parts }, part).join('').slice(0, LONGEST);
}
