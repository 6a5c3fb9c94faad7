/** Would fall together with another word. */
const AS_THEY_ARE = new Set(['rame', 'filled', 'fainted']);

/** Longer strings are no words. */
const LONGEST = 30;

/** One form for a word's endings: `clicking`, `clicked` and `clicks` are `click`. Light on purpose: the forms need not be words. */
export function stem(word: string): string {
  const bare = word.endsWith("'s") ? word.slice(0, -2) : word.replaceAll("'", '');
  if (bare.length <= 3 || bare.length > LONGEST || AS_THEY_ARE.has(bare) || !/^[a-z]+$/.test(bare))
    return bare;
  return undouble(shorten(bare));
}

function shorten(word: string): string {
  if (/(ies|ied)$/.test(word) && word.length > 4) return `${word.slice(0, -3)}y`;
  let out = word;
  if (out.endsWith('sses')) out = out.slice(0, -2);
  else if (out.endsWith('s') && !/(ss|us|is)$/.test(out)) out = out.slice(0, -1);
  const verb = /^([a-z]*[aeiouy][a-z]*[a-z])(ing|ed)$/.exec(out);
  if (verb !== null && verb[1]!.length >= 3) return undouble(verb[1]!).replace(/e$/, '');
  return out.length > 3 && out.endsWith('e') ? out.slice(0, -1) : out;
}

const undouble = (word: string): string =>
  word.length > 3 && /([bdgklmnprt])\1$/.test(word) ? word.slice(0, -1) : word;
