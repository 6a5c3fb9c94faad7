/** Our own texts' marks as HTML: **bold**, *word*, `code`, [link](address), lists of "- " lines, paragraphs. All else is text. */
import { escaped, type Html, html, trusted } from './html.ts';

/** Paragraphs and lists. */
export function marked(text: string): Html {
  const blocks = text
    .replaceAll('\r\n', '\n')
    .split(/\n{2,}/)
    .flatMap(block => pieces(block.split('\n')));
  return html`${blocks}`;
}

/** One line, without a paragraph around it. */
export const markedLine = (text: string): Html => trusted(spans(text));

/** A block's lines: runs of list items become lists, the rest paragraphs. */
function pieces(lines: string[]): Html[] {
  const done: Html[] = [];
  let at = 0;
  while (at < lines.length) {
    const isItem = ITEM.test(lines[at]!);
    let end = at + 1;
    while (end < lines.length && ITEM.test(lines[end]!) === isItem) end += 1;
    const run = lines.slice(at, end);
    at = end;
    if (isItem) {
      done.push(html`<ul>${run.map(line => html`<li>${markedLine(line.replace(ITEM, ''))}</li>`)}</ul>`);
    } else if (run.some(line => line.trim() !== '')) {
      done.push(trusted(`<p>${run.map(spans).join('<br>')}</p>`));
    }
  }
  return done;
}

const ITEM = /^\s*- /;
const SPAN =
  /`([^`\n]+)`|\[([^\]\n]+)\]\(([^)\s]+)\)|\*\*(\S(?:[^\n]*?\S)?)\*\*|(?<![\w*])\*(\p{L}[^*\n]*)\*(?![\w*])/gu;
/** Addresses a link may lead to; anything else stays text. */
const LINKS = /^(https?:\/\/|mailto:|tel:)/i;

function spans(line: string): string {
  let out = '';
  let from = 0;
  for (const found of line.matchAll(SPAN)) {
    const [whole, code, label, address, bold, word] = found;
    out += escaped(line.slice(from, found.index));
    from = found.index + whole.length;
    if (code !== undefined) out += `<code>${escaped(code)}</code>`;
    else if (bold !== undefined) out += `<strong>${spans(bold)}</strong>`;
    else if (word !== undefined) out += `<em>${spans(word)}</em>`;
    else if (label !== undefined && address !== undefined && LINKS.test(address))
      out += `<a href="${escaped(address)}" rel="noreferrer noopener">${spans(label)}</a>`;
    else out += escaped(whole);
  }
  return out + escaped(line.slice(from));
}
