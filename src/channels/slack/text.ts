/** Our own texts in Slack's markup, people's words in nobody's, and what Slack sends as people typed it. Pure. */

/** The three characters with which Slack's mentions, links and entities begin. */
export const escaped = (text: string): string =>
  text.replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll('>', '&gt;');

/** Slack has no way to say that a star is a star; where one would begin or end a format, another character that looks like it stands. */
const LIKE: Record<string, string> = { '*': '∗', _: 'ˍ', '~': '∼', '`': 'ˋ' };

/** Words that are nobody's markup: not bold, not a link, not a quote, not a picture of a face. */
export function literal(text: string): string {
  return escaped(
    text
      .replace(/(?<![\p{L}\p{N}])[*_~`](?=\S)|(?<=\S)[*_~`](?![\p{L}\p{N}])/gu, mark => LIKE[mark]!)
      .replace(/:(?=[a-z0-9_+-]*[a-z][a-z0-9_+-]*:)/gi, '꞉')
      .replace(/^>/gm, '›'),
  );
}

/** One of our texts: **bold**, *word*, `code`, [link](address), lists of "- " lines. All else is literal. */
export const mrkdwn = (text: string): string =>
  text
    .replaceAll('\r\n', '\n')
    .split('\n')
    .map(line => spans(line.replace(/^(\s*)- /, '$1• ')))
    .join('\n');

const SPAN =
  /`([^`\n]+)`|\[([^\]\n]+)\]\(([^)\s]+)\)|\*\*(\S(?:[^\n]*?\S)?)\*\*|(?<![\w*])\*(\p{L}[^*\n]*)\*(?![\w*])/gu;
const LINKS = /^(https?:\/\/|mailto:|tel:)/i;
const LETTER = /[\p{L}\p{N}]/u;

function spans(line: string): string {
  let out = '';
  let from = 0;
  for (const found of line.matchAll(SPAN)) {
    const [whole, code, label, address, bold, word] = found;
    const end = found.index + whole.length;
    // Slack takes marks for marks only where no letter touches them from outside.
    const free = !LETTER.test(line[found.index - 1] ?? '') && !LETTER.test(line[end] ?? '');
    out += literal(line.slice(from, found.index));
    from = end;
    if (code !== undefined) out += free ? `\`${escaped(code)}\`` : literal(code);
    else if (label !== undefined && address !== undefined)
      out += LINKS.test(address)
        ? `<${linkable(address)}|${literal(label).replaceAll('|', '¦')}>`
        : literal(whole);
    else if (bold !== undefined) out += free ? `*${literal(bold)}*` : literal(bold);
    else if (word !== undefined) out += free ? `_${literal(word)}_` : literal(word);
  }
  return out + literal(line.slice(from));
}

const linkable = (address: string) => escaped(address).replaceAll('|', '%7C');

/** A text object that Slack formats, links and expands nothing in but our own marks. */
export const marked = (text: string) => ({ type: 'mrkdwn' as const, text, verbatim: true });
/** A text object without any markup at all. */
export const unformatted = (text: string) => ({ type: 'plain_text' as const, text, emoji: false });

/** At most `most` characters, the last one an ellipsis where something is missing. Never half a character. */
export function cut(text: string, most: number): string {
  if (text.length <= most) return text;
  return `${text.slice(0, most - 1).replace(/[\uD800-\uDBFF]$/, '')}…`;
}

/**
 * What a person typed, out of what Slack made of it: mentions and links as they were seen, entities as characters.
 * @param self our own user: a mention of us is no word
 */
export function typed(text: string, self: string | null): string {
  return text
    .replace(/<([^<>]*)>/g, (whole, inner: string) => {
      const [what = '', label] = inner.split('|', 2);
      if (what.startsWith('@')) return what.slice(1) === self ? '' : `@${label ?? what.slice(1)}`;
      if (what.startsWith('#')) return `#${label ?? what.slice(1)}`;
      if (what.startsWith('!')) return label?.replace(/^@?/, '@') ?? `@${what.slice(1).split('^')[0]}`;
      if (!/^[a-z][a-z0-9+.-]*:/i.test(what)) return whole;
      const address = what.replace(/^mailto:|^tel:/, '');
      if (label === undefined || label === address || address.endsWith(`//${label}`)) return label ?? address;
      return `${label} (${address})`;
    })
    .replaceAll('&lt;', '<')
    .replaceAll('&gt;', '>')
    .replaceAll('&amp;', '&')
    .trim();
}
