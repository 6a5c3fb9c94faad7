/** Text for a terminal: 80 columns, nothing cut, and nothing in it that a terminal would obey. */

export const COLUMNS = 80;

/**
 * Control characters, and the marks that turn or hide text, are written out: an escape sequence in somebody's message
 * must not move the cursor of whoever reads the ticket. Line ends stay, tabs become spaces.
 */
export const printable = (text: string): string =>
  text
    .replace(/\r\n?/g, '\n')
    .replace(/\t/g, '  ')
    .replace(/(?!\n)[\p{Cc}\p{Cf}\p{Co}\p{Cn}\p{Cs}\u2028\u2029]/gu, sign =>
      sign === '\u200d' ? sign : `<U+${sign.codePointAt(0)!.toString(16).toUpperCase().padStart(4, '0')}>`,
    );

/** Columns that a terminal needs for it. */
export function widthOf(text: string): number {
  let width = 0;
  for (const sign of text) width += /\p{M}|\u200d/u.test(sign) ? 0 : WIDE.test(sign) ? 2 : 1;
  return width;
}
/** East Asian wide and full-width signs (Unicode Annex 11) and emoji. */
const WIDE =
  /[\u1100-\u115f\u2e80-\u303e\u3041-\ua4cf\uac00-\ud7a3\uf900-\ufaff\ufe30-\ufe6f\uff00-\uff60\uffe0-\uffe6\u{20000}-\u{3fffd}]|\p{Emoji_Presentation}/u;

/** `text` behind `lead`, broken to 80 columns, with the following lines under the first one's text. */
export function wrapped(lead: string, text: string): string[] {
  const hang = ' '.repeat(widthOf(lead));
  const room = COLUMNS - hang.length;
  const lines = printable(text)
    .split('\n')
    .flatMap(line => broken(line, room));
  return lines.map((line, index) => `${index === 0 ? lead : hang}${line}`.trimEnd());
}

function broken(line: string, room: number): string[] {
  const lines: string[] = [];
  let current = '';
  for (const word of line.split(/ +/).flatMap(each => pieces(each, room))) {
    const next = current === '' ? word : `${current} ${word}`;
    if (current !== '' && widthOf(next) > room) {
      lines.push(current);
      current = word;
    } else current = next;
  }
  return [...lines, current];
}

/** A word longer than a line, such as a path, goes over several. */
function pieces(word: string, room: number): string[] {
  const parts: string[] = [];
  let part = '';
  for (const sign of word) {
    if (part !== '' && widthOf(part + sign) > room) {
      parts.push(part);
      part = '';
    }
    part += sign;
  }
  return [...parts, part];
}
