/** Takes secrets out of a text before anything is stored: recovery keys, passwords and PINs, card numbers. Linear for any text. */

export type Secret = 'recovery-key' | 'password' | 'card-number';

/** `removed`: kinds that were found, each once. */
export function redact(text: string): { text: string; removed: Secret[] } {
  if (isPage(text)) return { text, removed: [] };
  const removed = new Set<Secret>();
  const take = (kind: Secret): string => {
    removed.add(kind);
    return `[removed: ${kind.replace('-', ' ')}]`;
  };
  let out = text;
  out = withoutArmour(out, () => take('recovery-key'));
  for (const shape of KEY_SHAPES) out = out.replace(shape, () => take('recovery-key'));
  out = out.replace(IN_TAGS, (_, open: string, close: string) => `${open}${take('password')}${close}`);
  out = out.replace(NAMED_KEY, (all: string, before: string, key: string) =>
    IDENTIFIER.test(key) || !/\d/.test(key) ? all : `${before}${take('recovery-key')}`,
  );
  out = out.replace(DIGIT_GROUPS, run => keyInside(run, () => take('recovery-key')));
  out = out.replace(CARD, (run: string, ...rest: unknown[]) => {
    const at = rest.at(-2) as number;
    return isCard(run) && !SERIAL_BEFORE.test(out.slice(Math.max(0, at - 24), at))
      ? take('card-number')
      : run;
  });
  out = passwords(out, () => take('password'));
  return { text: out, removed: [...removed] };
}

const BARE_HEX = /^[0-9a-f\s]+$/i;
/** Hex digits of a drive's page of 512 bytes; it may have several. */
const PAGE = 1024;
/** Share of bytes that are zero: most of a page, and of a key one in 256. */
const ZEROS = 0.25;

/** A drive's health page, bare and in hex, in even pieces: its long runs of digits are no key. With a key beside it, it is uneven. */
function isPage(text: string): boolean {
  if (text.length < PAGE || !BARE_HEX.test(text) || !/[a-f]/i.test(text)) return false;
  const pieces = text.trim().split(/\s+/);
  const even = pieces.slice(0, -1).every(({ length }) => length === pieces[0]!.length);
  const digits = pieces.join('');
  if (!even || pieces.at(-1)!.length > pieces[0]!.length || digits.length % PAGE !== 0) return false;
  return digits.match(/../g)!.filter(byte => byte === '00').length >= (ZEROS * digits.length) / 2;
}

const KEY_SHAPES = [
  // 48 digits in eight groups, whatever few characters or numbering stands between them.
  /(?<!\d)(?:[1-8][.):]\s{0,3})?\d{6}(?:(?:[^\d\n]{0,20}|[^\d\n]{0,10}\n[^\d\n]{0,10})(?:[1-8][.):]\s{0,3})?\d{6}){7}(?!\d)/g,
  /(?<!\d)\d{44,52}(?!\d)/g,
  // Six groups of four letters or digits.
  /(?<![A-Z0-9-])(?=[A-Z0-9-]*[A-Z])(?=[A-Z0-9-]*\d)[A-Z0-9]{4}(?:-[A-Z0-9]{4}){5}(?![A-Z0-9-])/gi,
  // Eight groups of eight letters.
  /(?<![a-z0-9-])[cbdefghijklnrtuv]{8}(?:-[cbdefghijklnrtuv]{8}){7}(?![a-z0-9-])/gi,
];
/** From here a private key goes to its end, or to the end of all where that was cut off. */
const ARMOUR = /-----BEGIN [A-Z ]{0,30}PRIVATE KEY(?: BLOCK)?-----/;
const ARMOUR_END = /-----END [A-Z ]{0,30}PRIVATE KEY(?: BLOCK)?-----/;
/** A key's identifier, in groups of 8, 4, 4, 4 and 12: the desk needs it. */
const IDENTIFIER = /^\{?[0-9a-f]{8}(?:-[0-9a-f]{4}){0,3}(?:-[0-9a-f]{12})?\}?$/i;
const NAMED_KEY =
  /((?:key|schl(?:ü|ue)ssel|cl[eé]f?|clave)(?:\s{1,3}(?:is|was|ist|lautet|war|est|es|era))?\s{0,3}[:=]?\s{0,3})([A-Z0-9]{4,64}(?:-[A-Z0-9]{4,64}){3,12}|[0-9a-f]{64})(?![A-Z0-9-])/gi;
/** Figures in groups; looked into for a key below. */
const DIGIT_GROUPS =
  /(?<![\p{L}\d])\d{3,12}(?:[ \t\-–—.,_/|·]{1,3}\d{3,12}|\s{0,2}\n\s{0,2}\d{3,12}){3,200}(?![\p{L}\d])/gu;
const CARD = /(?<![\p{L}\d-])\d(?:[ -]?\d){12,18}(?![\p{L}\d-])/gu;
const SERIAL_BEFORE =
  /(?:serial|seriennummer|s\/?n|série|serie|imei|asset|tag|model|part)[^\p{L}]{0,4}(?:number|no|nr|num)?[^\p{L}]{0,6}$/iu;

function withoutArmour(text: string, take: () => string): string {
  let out = '';
  let rest = text;
  for (let begin = ARMOUR.exec(rest); begin !== null; begin = ARMOUR.exec(rest)) {
    const inside = rest.slice(begin.index + begin[0].length);
    const end = ARMOUR_END.exec(inside);
    out += rest.slice(0, begin.index) + take();
    rest = end === null ? '' : inside.slice(end.index + end[0].length);
  }
  return out + rest;
}

/** Half a key is a key: four groups of six, or at least 44 figures in groups of one length. */
function keyInside(run: string, take: () => string): string {
  const groups = [...run.matchAll(/\d+/g)];
  for (let from = 0; from < groups.length; ) {
    const length = groups[from]![0].length;
    let to = from;
    while (groups[to + 1]?.[0].length === length) to++;
    const count = to - from + 1;
    if ((length === 6 && count >= 4) || (count * length >= 44 && count * length <= 56)) {
      const end = groups[to]!.index + length;
      return `${run.slice(0, groups[from]!.index)}${take()}${keyInside(run.slice(end), take)}`;
    }
    from = to + 1;
  }
  return run;
}

/** Check digit of ISO/IEC 7812 (Luhn), and beginnings and lengths that are in use for payment cards. */
function isCard(run: string): boolean {
  const digits = run.replace(/\D/g, '');
  const grouped = /^\d{4}([ -])\d{4}\1\d{4}\1\d{1,7}$|^\d{4}([ -])\d{6}\2\d{4,5}$/.test(run);
  if (!grouped && run.length !== digits.length) return false;
  const begins =
    /^(?:4\d{12}(?:\d{3}){0,2}|5[1-5]\d{14}|2(?:2[2-9]|[3-6]\d|7[01])\d{13}|3[47]\d{13}|6(?:011|5\d\d|4[4-9]\d)\d{12,15}|3(?:0[0-5]|[68]\d)\d{11})$/;
  if (!begins.test(digits)) return false;
  let sum = 0;
  for (let at = 0; at < digits.length; at++) {
    const digit = Number(digits[digits.length - 1 - at]);
    const worth = at % 2 === 1 ? digit * 2 : digit;
    sum += worth > 9 ? worth - 9 : worth;
  }
  return sum % 10 === 0;
}

const NAME = `(?:pass[ -]?words?|passwort|pass[ -]?phrase|pass[ -]?code|passwd|pwd|pw|psw|kennwort|mot de passe|mdp|contrase(?:ñ|n)a|pin(?:[ -]?(?:code|number|nummer))?)`;
/** "For the drive", "to my laptop". */
const ABOUT = String.raw`(?:\s{1,3}(?:for|of|to|on|für|vom|zum|de|del|du|pour|para)\s{1,3}[\p{L}\p{N}'’-]{1,20}(?:\s{1,3}[\p{L}\p{N}'’-]{1,20}){0,2}?|\s{1,3}(?:i|we|he|she|they)\s{1,3}(?:use|used|uses|have|had|set|entered|enter|typed|chose|tried))?`;
const IS = String.raw`(?:["'’”]?\s{0,3}(?:[:=]|->|→|=>)\s{0,3}|\s{1,3}(?:is|was|are|were|ist|war|lautet|est|était|etait|es|era)(?:\s{0,3}:\s{0,3}|\s{1,3}))`;
/** `<Password>...</Password>`, as files of settings have it. */
const IN_TAGS = new RegExp(String.raw`(<${NAME}>)[^<\n]{1,200}(</)`, 'giu');
const STATED = new RegExp(String.raw`(?<![\p{L}\p{N}])${NAME}${ABOUT}${IS}`, 'giu');
const BARE = new RegExp(
  String.raw`(?<![\p{L}\p{N}])(${NAME}(?:\s{1,3}(?:to|auf|en|a))?\s{1,3})(["'“„«][^"'”“»\n]{3,60}["'”“»]|[^\s]{3,60})`,
  'giu',
);
const REVERSED = new RegExp(
  String.raw`(?<!\S)(\S{4,60})(\s{1,3}(?:is|was|ist|war|est|es)\s{1,3}(?:my|the|our|mein|das|mon|le|mi|la)\s{1,3}${NAME})(?![\p{L}\p{N}])`,
  'giu',
);
/** Said of a password, not a password: "is not accepted". */
const SAID_OF_IT = new Set(
  `not no wrong incorrect correct right expired expiring accepted rejected refused invalid valid working fine ok okay the a an my
  your our being needed required too locked forgotten forgot lost asked blank empty unknown old different in on at by from with what
  that it changed reset set saved stored gone missing protected there here unclear stuck known supposed to asking needed written
  leaked stolen hacked compromised hard easy requested prompted entered typed sent mailed shown displayed hidden visible useless enabled
  disabled blocked kept cleared deleted removed created updated cached problem problems prompt change request manager policy field box
  issue screen dialog hint protection please
  also never always and but or because when if only so always good bad weak strong long short saved same as one something nothing
  unchanged impossible possible about like case-sensitive mine hers his theirs up out under where who how why
  nicht kein falsch richtig abgelaufen gesperrt ungültig korrekt vergessen weg das der die ein eine mein bekannt unbekannt leer zu
  pas faux fausse incorrecte correcte expiré expirée refusé refusée bloqué bloquée invalide oublié oubliée perdu perdue le la un une
  demandé inconnu incorrecta correcta caducada rechazada bloqueada inválida olvidada perdida desconocida el los las una aceptado
  aceptada accepté acceptée akzeptiert required. needed.`.split(/\s+/),
);
/** After a colon: no password told. */
const NOTHING_TOLD =
  /^(?:\W+|[*•x]+|please|it|i|keine?|aucune?|ningun[ao]?|none|null|no|not|nothing|n\/a|unknown|forgot\w*|reset|same|wrong|expired|incorrect|required|accepted|rejected|invalid|falsch|abgelaufen)\W*$/i;
const PLURAL = /^pass[ -]?words(?![\p{L}])/iu;
/** May stand between "is" and the password. */
const PASSING =
  /^(?:still|just|now|currently|simply|only|always|noch|immer|jetzt|toujours|maintenant|todavía|aún|ahora)\s{1,3}/iu;
/** Characters after "is" that are looked at. */
const LONGEST = 200;

function passwords(text: string, take: () => string): string {
  return withoutStated(text, take)
    .replace(BARE, (all: string, before: string, value: string) => {
      if (value.startsWith('[removed')) return all;
      const digits = /^\d{4,12}[.,;!?]?$/.test(value);
      const told =
        /^(?:pw|pwd|passwd)\s/i.test(before) && !isSaidOfIt(value) && !/^(?:is|was|ist|war)$/i.test(value);
      return digits || told || looksSecret(value) ? `${before}${kept(value, take)}` : all;
    })
    .replace(REVERSED, (all: string, value: string, after: string) =>
      value.includes('removed:') || isSaidOfIt(value) || /^(?:this|which|reason)$/i.test(value)
        ? all
        : `${take()}${after}`,
    );
}

/** What follows "my password is", wherever it stands. */
function withoutStated(text: string, take: () => string): string {
  let out = '';
  let from = 0;
  for (const { 0: before, index } of text.matchAll(STATED)) {
    const at = index + before.length;
    const line = text.slice(at, at + LONGEST).split('\n', 1)[0]!;
    const secret = at < from ? null : statedIn(line, before);
    if (secret === null) continue;
    out += text.slice(from, at + secret.start) + take();
    from = at + secret.end;
  }
  return out + text.slice(from);
}

/** Where the password stands in what follows "password is", or null where none was told. */
function statedIn(rest: string, before: string): { start: number; end: number } | null {
  if (rest.startsWith('[removed')) return null;
  const quoted = /^(["'“„«`])[^"'”“»`]{1,80}["'”“»`]/u.exec(rest);
  if (quoted !== null) return { start: 0, end: quoted[0].length };
  const start = PASSING.exec(rest)?.[0].length ?? 0;
  const value = rest.slice(start);
  const first = value.split(/\s/, 1)[0] ?? '';
  const plain = /[:=>→]\s*$/.test(before);
  if (first === '' || (plain ? NOTHING_TOLD.test(first) : isSaidOfIt(first))) return null;
  if (PLURAL.test(before) && !looksSecret(first)) return null;
  const alone = looksSecret(first) || /\d/.test(first);
  const taken = alone ? first : (TO_CLAUSE_END.exec(value)?.[0] ?? first);
  return { start, end: start + taken.replace(STOP_AFTER, '').length };
}

/** A phrase of plain words: to the end of the clause. */
const TO_CLAUSE_END =
  /^\S+(?:\s{1,3}(?!(?:and|but|und|aber|et|mais|y|pero|please|bitte|can|could|so|then|it|i|is|der|die)(?!\S))(?<![,.;!?]\s{1,3})\S+){0,5}/iu;
/** The full stop or comma after it stays. */
const STOP_AFTER = /[.,;)]$/;

function kept(value: string, take: () => string): string {
  return `${take()}${STOP_AFTER.exec(value)?.[0] ?? ''}`;
}

const isSaidOfIt = (word: string): boolean =>
  SAID_OF_IT.has(word.toLowerCase().replace(/[.,;:!?)"']+$/u, ''));

/** Letters with figures or signs among them. */
function looksSecret(value: string): boolean {
  if (/^["'“„«]/u.test(value)) return true;
  const bare = value.replace(/[.,;:!?)]+$/u, '');
  if (!/\p{L}/u.test(bare) || bare.length < 4) return false;
  return /\d/.test(bare) || /[!@#$%^&*+=?~§€£_]/u.test(bare);
}
