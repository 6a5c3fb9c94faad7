/** A number in free text, in the unit that was asked for. */
import { fold } from './words.ts';

/** Factors to one unit of the family. Storage in steps of 1000, as drives are sold. */
const FAMILIES: Record<string, number>[] = [
  {
    kb: 1e3,
    kilobyte: 1e3,
    kilobytes: 1e3,
    mb: 1e6,
    megabyte: 1e6,
    megabytes: 1e6,
    meg: 1e6,
    megs: 1e6,
    mo: 1e6,
    gb: 1e9,
    gig: 1e9,
    gigs: 1e9,
    gigabyte: 1e9,
    gigabytes: 1e9,
    go: 1e9,
    tb: 1e12,
    terabyte: 1e12,
    terabytes: 1e12,
    tera: 1e12,
    teras: 1e12,
    to: 1e12,
    kib: 1024,
    mib: 1024 ** 2,
    gib: 1024 ** 3,
    tib: 1024 ** 4,
    pb: 1e15,
    bytes: 1,
    byte: 1,
  },
  {
    s: 1,
    sec: 1,
    secs: 1,
    second: 1,
    seconds: 1,
    sekunde: 1,
    sekunden: 1,
    seconde: 1,
    secondes: 1,
    segundo: 1,
    segundos: 1,
    min: 60,
    mins: 60,
    minute: 60,
    minutes: 60,
    minuten: 60,
    minuto: 60,
    minutos: 60,
    h: 3600,
    hr: 3600,
    hrs: 3600,
    hour: 3600,
    hours: 3600,
    stunde: 3600,
    stunden: 3600,
    std: 3600,
    heure: 3600,
    heures: 3600,
    hora: 3600,
    horas: 3600,
    d: 86400,
    day: 86400,
    days: 86400,
    tag: 86400,
    tage: 86400,
    tagen: 86400,
    jour: 86400,
    jours: 86400,
    dia: 86400,
    dias: 86400,
    week: 604800,
    weeks: 604800,
    woche: 604800,
    wochen: 604800,
    semaine: 604800,
    semaines: 604800,
    semana: 604800,
    semanas: 604800,
  },
];
const WORDS: Record<string, number> = {
  zero: 0,
  one: 1,
  two: 2,
  three: 3,
  four: 4,
  five: 5,
  six: 6,
  seven: 7,
  eight: 8,
  nine: 9,
  ten: 10,
  eleven: 11,
  twelve: 12,
  thirteen: 13,
  fourteen: 14,
  fifteen: 15,
  sixteen: 16,
  eighteen: 18,
  twenty: 20,
  thirty: 30,
  forty: 40,
  fifty: 50,
  sixty: 60,
  eighty: 80,
  hundred: 100,
  thousand: 1000,
  dozen: 12,
  half: 0.5,
  null: 0,
  eins: 1,
  ein: 1,
  eine: 1,
  zwei: 2,
  drei: 3,
  vier: 4,
  funf: 5,
  sechs: 6,
  sieben: 7,
  acht: 8,
  neun: 9,
  zehn: 10,
  elf: 11,
  zwolf: 12,
  zwanzig: 20,
  hundert: 100,
  halbe: 0.5,
  halbes: 0.5,
  un: 1,
  une: 1,
  deux: 2,
  trois: 3,
  quatre: 4,
  cinq: 5,
  sept: 7,
  huit: 8,
  neuf: 9,
  dix: 10,
  douze: 12,
  vingt: 20,
  cent: 100,
  demi: 0.5,
  cero: 0,
  uno: 1,
  una: 1,
  dos: 2,
  tres: 3,
  cuatro: 4,
  cinco: 5,
  seis: 6,
  siete: 7,
  ocho: 8,
  nueve: 9,
  diez: 10,
  doce: 12,
  veinte: 20,
  cien: 100,
  medio: 0.5,
  media: 0.5,
};
const FIGURE =
  /(?<![\p{L}\p{N}.,])([+-]|−)?\s?(\d[\d.,'’\u00a0\u202f]*\d|\d|\p{N})(?!\d|\p{L}+\p{N})(?:\s?(k)(?![\p{L}\p{N}]))?\s?(°\s?[cf]|%|[\p{L}]{1,12})?/giu;
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
    const converted = convert(amount, after === undefined ? '' : fold(after).replace(/\s/g, ''), unit);
    found.add(converted.amount);
    if (converted.known) withUnit ??= converted.amount;
  }
  if (withUnit !== null) return withUnit;
  if (found.size === 1) return [...found][0]!;
  return found.size > 1 ? 'several' : inWords(read, unit);
}

/** "Half a terabyte", "twenty five". */
function inWords(text: string, unit: string | null): number | null {
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
    return convert(total, word, unit).amount;
  }
  return total;
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

function convert(amount: number, said: string, wanted: string | null): { amount: number; known: boolean } {
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
