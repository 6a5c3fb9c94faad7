/** Text to words: what was said, where it stood, and which sentence and clause it belongs to. */

export interface Word {
  /** Small letters, no accents: `Wiederherstellungsschlüssel` becomes `wiederherstellungsschlussel`. */
  text: string;
  /** Place in the text as it was typed: [start, end). */
  start: number;
  end: number;
  sentence: number;
  /** Counts on through the whole text; a new sentence is a new clause. */
  clause: number;
}

/** A path to a share, such as `\\server\team`, whatever its name. */
export const SHARE_PATH = '\\\\path';
/** Drive letters are kept as `s:`, so that they are never taken for a word. */
export const isLetter = (text: string): boolean => text.length === 2 && text[1] === ':';

const TOKEN = new RegExp(
  [
    String.raw`(?<path>\\\\[^\s"'<>|,;]+)`,
    String.raw`(?<letter>(?<![\p{L}\p{N}])\p{Script=Latin}:(?=[\\/\s.,;:!?)"'’]|$)\\?)`,
    String.raw`(?<dotted>(?<![\p{L}\p{N}])(?:(?:\p{L}\.){2,}\p{L}?|[mM]\.2)(?![\p{L}\p{N}]))`,
    String.raw`(?<figure>\p{N}+(?:[.,]\p{N}+)+(?![\p{L}\p{N}]))`,
    String.raw`(?<word>[\p{L}\p{N}_][\p{L}\p{N}\p{M}_]*(?:['’´${'`'}]\p{L}+)*)`,
    `(?<sign>%|👍|👎|👌|✅|✔|❌|🤷|🔥|💨)`,
    String.raw`(?<end>[!?;\n\r]+|[.…]+(?=\s|["'”)\]]|$))`,
    String.raw`(?<pause>[,:()"“”„«»–—|]|\s-\s)`,
  ].join('|'),
  'gu',
);
/** French: l'ordinateur, n'apparaît, qu'il. */
const ELISION = /^(?:[ldnjscmt]|qu)'(?=\p{L}{2})/u;
const MARKS = /\p{M}+/gu;

/** One word as the ear keeps it. Hexadecimal codes lose their leading zeros: `0x0000007B` is `0x7b`. */
export function fold(word: string): string {
  const plain = word
    .normalize('NFKD')
    .replace(MARKS, '')
    .toLowerCase()
    .replace(/[’´`]/g, "'")
    .replaceAll('ß', 'ss');
  return /^0x[0-9a-f]+$/.test(plain) ? plain.replace(/^0x0+(?=.)/, '0x') : plain;
}

/** The words of a text in order. Linear in the text's length, for any text. */
export function listen(text: string): Word[] {
  const words: Word[] = [];
  let sentence = 0;
  let clause = 0;
  for (const found of text.matchAll(TOKEN)) {
    const groups = found.groups ?? {};
    const start = found.index;
    const end = start + found[0].length;
    if (groups.end !== undefined) {
      sentence++;
      clause++;
    } else if (groups.pause !== undefined) clause++;
    else words.push({ text: heard(found[0], groups), start, end, sentence, clause });
  }
  return words;
}

function heard(raw: string, groups: Record<string, string | undefined>): string {
  if (groups.path !== undefined) return SHARE_PATH;
  if (groups.letter !== undefined) return `${raw[0]!.toLowerCase()}:`;
  if (groups.dotted !== undefined) return fold(raw.replaceAll('.', ''));
  return fold(raw).replace(ELISION, '');
}
