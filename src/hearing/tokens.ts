/** Exact things in a text: error numbers as systems write them and people repeat them, shares by path, letter or name. Never guessed. */

export interface Token {
  /** Names that it can have, likeliest first: `error:53`, `stop:123`, `start:3221225486`. */
  names: string[];
  /** Place in the text as typed: [start, end). */
  start: number;
  end: number;
}

const EDGE = String.raw`(?<![\p{L}\p{N}])`;
const END = String.raw`(?![\p{L}\p{N}])`;
const NUMBER = String.raw`(?<number>0x[0-9a-f]{1,8}|\d{1,5})`;
/** "System error 53", "Error code: 0x80070035", "Systemfehler 53", "erreur système 53". Linux's mount counts otherwise. */
const ERROR = new RegExp(
  String.raw`(?<!mount )${EDGE}(?:system[ -]?)?(?:error|err|fehler|erreur|errore)(?:code|nummer|[ -]code|[ -]number|[ -]nummer|[ -]no\.?|[ -]nr\.?| syst[eè]me| de sistema| di sistema)?\s?[:#=(]?\s?${NUMBER}${END}`,
  'giu',
);
/** "Stop code 7B", "STOP: 0x0000007B", "bug check 0x7b". */
const STOP = new RegExp(
  String.raw`${EDGE}(?:stop[ -]?(?:code|error)|stop:|bug ?check)\s?[:#]?\s?(?:0x)?0*(?<number>[0-9a-f]{1,3})${END}`,
  'giu',
);
const HEX = new RegExp(`${EDGE}(?<number>0x[0-9a-f]{1,8})${END}`, 'giu');
/** A number by itself, where numbers are asked for. */
const BARE = /(?<![\p{L}\p{N}.,:/-])(?<number>\d{1,5})(?![\p{L}\p{N}]|[.,:/-]\p{N})/gu;
const DENIED = /(?:^|\s)(?:no|not|kein|keine|pas|sin|never)\s+$/i;
/** What people put around a number that they were asked for. */
const AROUND = new Set(
  `it it's its es says said shows showed is was the a number code no nr err windows and or then i get got see there reads
  die der steht da sagt zeigt nummer zahl und le numero affiche dit el muestra dice y`.split(/\s+/),
);
/** Nothing but numbers and such words: "it says 1219", and never "since 21 March". */
const isNumbers = (text: string): boolean =>
  text
    .toLowerCase()
    .split(/[^\p{L}\p{N}']+/u)
    .every(word => word === '' || /^\d+$/.test(word) || AROUND.has(word));

/** Error numbers in the text. `asked`: they were asked for, so a number alone is one. */
export function codesIn(text: string, asked = false): Token[] {
  const found: Token[] = [];
  const add = (pattern: RegExp, names: (digits: string) => string[]) => {
    for (const match of text.matchAll(pattern)) {
      const start = match.index;
      const end = start + match[0].length;
      if (DENIED.test(text.slice(0, start))) continue;
      if (found.some(other => start < other.end && end > other.start)) continue;
      found.push({ names: names(match.groups!.number!.toLowerCase()), start, end });
    }
  };
  add(STOP, digits => [`stop:${Number.parseInt(digits, 16)}`]);
  add(ERROR, namesOf);
  add(HEX, namesOf);
  if (asked && isNumbers(text)) add(BARE, namesOf);
  return found.toSorted((one, other) => one.start - other.start);
}

/** 0x8007.... wraps a Windows error number; 0xC....... is of the start; eight figures with zeros before are of a blue screen. */
function namesOf(digits: string): string[] {
  const code = Number(digits);
  if (!digits.startsWith('0x')) return [`error:${code}`];
  if (code >>> 16 === 0x8007) return [`error:${code & 0xffff}`];
  if (code >= 0xc000_0000) return [`start:${code}`];
  return digits.startsWith('0x0') ? [`stop:${code}`] : [`stop:${code}`, `error:${code}`];
}

/** What the text gives of these answers, with the words for it; nothing where it gives two. `asked`: see codesIn. */
export function answersIn(
  tokens: Readonly<Record<string, string>>,
  text: string,
  asked = false,
): { answer: string; words: string } | null {
  const given = [
    ...placesIn(tokens, text),
    ...lettersIn(tokens, text),
    ...codesIn(text, asked).flatMap(({ names, start, end }) => {
      const name = names.find(each => each in tokens);
      return name === undefined ? [] : [{ answer: tokens[name]!, words: text.slice(start, end) }];
    }),
  ];
  const [first] = given;
  return first === undefined || given.some(({ answer }) => answer !== first.answer) ? null : first;
}

/** `\\server\share` and what lies in it, also as smb://server/share; or what site.yaml says is on it. The longest that fits. */
function placesIn(
  tokens: Readonly<Record<string, string>>,
  text: string,
): { answer: string; words: string }[] {
  const plain = text.toLowerCase();
  const slashed = plain.replaceAll('smb://', '    \\\\').replaceAll('/', '\\');
  const [longest] = Object.entries(tokens)
    .flatMap(([token, answer]) => {
      const [, kind, name = ''] = /^(path|name):(.+)$/.exec(token) ?? [];
      const said = kind === 'path' ? slashed : plain;
      const at = kind === undefined ? -1 : said.indexOf(name);
      // A word of its own, and not only the beginning of a longer one.
      const stands = !/[\p{L}\p{N}]$/u.test(said.slice(0, Math.max(0, at))) || kind === 'path';
      const ends = !/^[\p{L}\p{N}_-]/u.test(said.slice(at + name.length));
      return at >= 0 && stands && ends ? [{ answer, words: text.slice(at, at + name.length) }] : [];
    })
    .toSorted((one, other) => other.words.length - one.words.length);
  return longest === undefined ? [] : [longest];
}

const LETTER = new RegExp(
  [
    String.raw`(?<![\p{L}\p{N}.])(?<colon>[a-z]):(?![\p{L}\p{N}])`,
    String.raw`(?<![\p{L}\p{N}'’])(?<before>[a-z])[ -](?:network |net)?(?:drive|share|laufwerk|netzlaufwerk)s?(?![\p{L}\p{N}])`,
    String.raw`(?<![\p{L}\p{N}])(?:drive|letter|laufwerk|netzlaufwerk|laufwerksbuchstabe|lecteur|unidad) (?<behind>[a-z])(?![\p{L}\p{N}'’])`,
  ].join('|'),
  'giu',
);

/** "G:", "G:\\plans", "the G drive", "Laufwerk G". A lone A or I beside "drive" begins other sentences. */
function lettersIn(
  tokens: Readonly<Record<string, string>>,
  text: string,
): { answer: string; words: string }[] {
  if (!Object.keys(tokens).some(token => token.startsWith('letter:'))) return [];
  return [...text.matchAll(LETTER)].flatMap(({ 0: words, groups = {} }) => {
    const letter = (groups.colon ?? groups.before ?? groups.behind ?? '').toLowerCase();
    const answer = tokens[`letter:${letter}`];
    const word = groups.colon === undefined && (letter === 'a' || letter === 'i');
    return answer === undefined || word ? [] : [{ answer, words }];
  });
}

/**
 * The answer that a number or path gives by itself. Undefined: there is none, and the words are heard. Null: it fits two, such
 * as a lone figure that is also the place of another answer. A number that nobody knows is `other`, where there is one.
 */
export function heardToken(
  tokens: Readonly<Record<string, string>>,
  answers: readonly { id: string }[],
  text: string,
): string | null | undefined {
  const given = answersIn(tokens, text, true);
  const place = /^\s*\d{1,2}\s*$/.test(text) ? answers[Number(text) - 1]?.id : undefined;
  if (given !== null) return place === undefined || place === given.answer ? given.answer : null;
  const codes = codesIn(text, place === undefined);
  if (codes.length === 0) return undefined;
  const known = codes.some(({ names }) => names.some(name => name in tokens));
  if (known) return null;
  return answers.some(({ id }) => id === 'other') ? 'other' : undefined;
}
