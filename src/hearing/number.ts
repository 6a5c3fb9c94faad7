/** A number in free text, in the unit that was asked for. */
import { fold } from './words.ts';

/** Factor to the words for it, turned about. */
const byWord = (table: [number, string][]): Record<string, number> =>
  Object.fromEntries(table.flatMap(([factor, words]) => words.split(' ').map(word => [word, factor])));

/** Factors to one unit of the family. Storage in steps of 1000, as drives are sold. */
const FAMILIES = [
  byWord([
    [1, 'byte bytes'],
    [1e3, 'kb kilobyte kilobytes ko'],
    [1e6, 'mb megabyte megabytes meg megs mo'],
    [1e9, 'gb gig gigs gigabyte gigabytes go'],
    [1e12, 'tb tera teras terabyte terabytes to'],
    [1e15, 'pb petabyte petabytes'],
    [1024, 'kib'],
    [1024 ** 2, 'mib'],
    [1024 ** 3, 'gib'],
    [1024 ** 4, 'tib'],
    [1e3 / 8, 'kbit kbits kilobit kilobits'],
    [1e6 / 8, 'mbit mbits megabit megabits'],
    [1e9 / 8, 'gbit gbits gigabit gigabits'],
  ]),
  byWord([
    [1, 's sec secs second seconds sekunde sekunden seconde secondes segundo segundos'],
    [60, 'min mins minute minutes minuten minuto minutos'],
    [3600, 'h hr hrs hour hours stunde stunden std heure heures hora horas'],
    [86_400, 'd day days tag tage tagen jour jours dia dias'],
    [604_800, 'week weeks woche wochen semaine semaines semana semanas'],
  ]),
];
const WORDS = byWord([
  [0, 'zero null cero'],
  [0.5, 'half halbe halbes halben demi demie medio media'],
  [1, 'one eins ein eine un une uno una'],
  [2, 'two zwei deux dos'],
  [3, 'three drei trois tres'],
  [4, 'four vier quatre cuatro'],
  [5, 'five funf cinq cinco'],
  [6, 'six sechs seis'],
  [7, 'seven sieben sept siete'],
  [8, 'eight acht huit ocho'],
  [9, 'nine neun neuf nueve'],
  [10, 'ten zehn dix diez'],
  [11, 'eleven elf onze once'],
  [12, 'twelve dozen zwolf douze doce'],
  [13, 'thirteen'],
  [14, 'fourteen'],
  [15, 'fifteen funfzehn quinze quince'],
  [16, 'sixteen'],
  [18, 'eighteen'],
  [20, 'twenty zwanzig vingt veinte'],
  [30, 'thirty dreissig trente treinta'],
  [40, 'forty vierzig quarante cuarenta'],
  [50, 'fifty funfzig cinquante cincuenta'],
  [60, 'sixty sechzig soixante sesenta'],
  [80, 'eighty achtzig ochenta'],
  [100, 'hundred hundert cent cien'],
  [1000, 'thousand tausend mille mil'],
]);
const FIGURE =
  /(?<![\p{L}\p{N}.,])([+-]|−)?\s?(\d[\d.,'’\u00a0\u202f]*\d|\d|\p{N})(?!\d|\p{L}+\p{N})(?:\s?(k)(?![\p{L}\p{N}]))?\s?((?:°\s?[cf]|%|[\p{L}]{1,12})(?:\s?(?:\/|(?:per|pro|par|por|je|an?|in)(?=\s))\s?\p{L}{1,8})?)?/giu;
/** Farther in, nobody answers a number. */
const LONGEST = 500;

export interface Limits {
  unit: string | null;
  minimum: number | null;
  maximum: number | null;
}

/** The number, `several` when the text names more than one and none can be chosen, or null. */
export function numberIn(text: string, unit: string | null): number | 'several' | null {
  const read = text
    .slice(0, LONGEST)
    .normalize('NFKC')
    .replace(/(?<=\d)[\u00a0\u202f\s](?=\d{3}(?!\d))/g, '');
  const found = new Set<number>();
  let withUnit: number | null = null;
  for (const [, sign, figures, thousand, after] of read.matchAll(FIGURE)) {
    const plain = figureOf(figures!);
    if (plain === null) continue;
    const amount =
      plain * (thousand === undefined ? 1 : 1000) * (sign === undefined || sign === '+' ? 1 : -1);
    const converted = convert(amount, after === undefined ? '' : fold(after), unit);
    found.add(converted.amount);
    if (converted.known) withUnit ??= converted.amount;
  }
  if (withUnit !== null) return withUnit;
  const spoken = inWords(read, unit);
  // "Three groups of 4".
  if (spoken?.known) return spoken.amount;
  if (found.size === 1) return [...found][0]!;
  return found.size > 1 ? 'several' : (spoken?.amount ?? null);
}

/** "Half a terabyte", "twenty five". */
function inWords(text: string, unit: string | null): Converted | null {
  const words = fold(text).match(/[\p{L}]+/gu) ?? [];
  let total: number | null = null;
  for (let at = 0; at < words.length && at < 60; at++) {
    const word = words[at]!;
    const worth = Object.hasOwn(WORDS, word) ? WORDS[word]! : null;
    if (worth !== null) {
      if (total === null) total = worth;
      else if (worth >= 12 && total < worth) total *= worth;
      else if (worth < 1 || (total >= 20 && worth < total)) total += worth;
      continue;
    }
    if (LINKS.includes(word)) {
      // "An hour".
      if (ONE.includes(word) && total === null && isUnit(words[at + 1])) total = 1;
      continue;
    }
    if (total === null) continue;
    return convert(total, `${word} ${words.slice(at + 1, at + 3).join(' ')}`, unit);
  }
  return total === null ? null : { amount: total, known: false };
}

const ONE = ['a', 'an'];
const LINKS = [...ONE, 'and', 'of', 'und', 'et', 'y', 'de', 'the'];
const isUnit = (word: string | undefined): boolean =>
  word !== undefined && FAMILIES.some(family => Object.hasOwn(family, word));

/** `1,000` and `1.000` are a thousand, `0,5` and `1.5` are not. */
function figureOf(figures: string): number | null {
  const bare = figures.replace(/['’]/g, '');
  const marks = bare.replace(/\d/g, '');
  let plain = bare;
  if (marks.length > 1) {
    const last = marks.at(-1)!;
    plain =
      new Set(marks).size > 1
        ? bare.replaceAll(last === ',' ? '.' : ',', '').replace(',', '.')
        : bare.replaceAll(last, '');
  } else if (/^[1-9]\d{0,2}[.,]\d{3}$/.test(bare)) plain = bare.replace(/[.,]/, '');
  else plain = bare.replace(',', '.');
  const amount = Number(plain);
  return plain !== '' && Number.isFinite(amount) ? amount : null;
}

interface Converted {
  amount: number;
  /** Was a unit said that goes with the one asked for? */
  known: boolean;
}

const PER = /^(.*?)(?:\s*\/\s*|\s+(?:per|pro|par|por|je|an?|in)\s+)(\p{L}+)/u;

/**
 * `said` is what stands behind the number. Of a rate the time may be missing: "25 MB". "25 mbps" is taken as megabytes, for that
 * is what windows show while they copy, and few who type small letters mean bits; "mbit" is bits.
 */
function convert(amount: number, said: string, wanted: string | null): Converted {
  const [, plenty, time] = PER.exec(fold(wanted ?? '')) ?? [];
  if (plenty === undefined || time === undefined)
    return simple(amount, said.replace(/°\s/, '°').split(/[\s/]/)[0]!, wanted);
  const [, much = said.split(' ')[0]!, each = time] = PER.exec(said) ?? [];
  const whole = simple(amount, much.replace(/^([kmg]i?b)ps$/, '$1').trim(), plenty);
  const once = simple(1, each, time);
  return { amount: round(whole.amount / (once.known ? once.amount : 1)), known: whole.known };
}

function simple(amount: number, given: string, wanted: string | null): Converted {
  const said = given.replace(/\s/g, '');
  const unit = fold(wanted ?? '').replace(/\s/g, '');
  if (said === '' || unit === '') return { amount, known: false };
  if (said === unit) return { amount, known: true };
  if (unit === '°c' && (said === '°f' || said === 'f' || said.startsWith('fahrenheit')))
    return { amount: round(((amount - 32) * 5) / 9), known: true };
  if (unit === '%') return { amount, known: said === 'percent' || said === 'prozent' };
  for (const family of FAMILIES) {
    const from = Object.hasOwn(family, said) ? family[said] : undefined;
    const to = Object.hasOwn(family, unit) ? family[unit] : undefined;
    if (from !== undefined && to !== undefined) return { amount: round((amount * from) / to), known: true };
  }
  return { amount, known: false };
}

const round = (amount: number): number => Number(amount.toPrecision(12));

/** The number within its limits, or one line on what is expected. */
export function hearNumber(
  text: string,
  { unit, minimum, maximum }: Limits,
): { number: number } | { wrong: string } {
  const number = numberIn(text, unit);
  const named = unit === null ? '' : ` ${unit}`;
  const like = Math.min(maximum ?? Number.POSITIVE_INFINITY, Math.max(minimum ?? 0, unit === 'GB' ? 500 : 3));
  if (number === null) return { wrong: `I need a number here, such as ${like}${named}.` };
  if (number === 'several')
    return { wrong: `I see more than one number. Please send just one, such as ${like}${named}.` };
  const low = minimum !== null && number < minimum;
  const high = maximum !== null && number > maximum;
  if (!low && !high) return { number };
  if (minimum !== null && maximum !== null)
    return { wrong: `That should be a number from ${minimum} to ${maximum}${named}.` };
  return {
    wrong: low ? `That should be at least ${minimum}${named}.` : `That should be at most ${maximum}${named}.`,
  };
}
