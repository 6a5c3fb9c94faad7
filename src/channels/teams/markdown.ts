/** Our texts in the marks of a Teams message. What is not a mark of ours is written as character references, so that it stays what it is. */

const SPAN =
  /`([^`\n]+)`|\[([^\]\n]+)\]\(([^)\s]+)\)|\*\*(\S(?:[^\n]*?\S)?)\*\*|(?<![\w*])\*(\p{L}[^*\n]*)\*(?![\w*])/gu;
const LINKS = /^(https?:\/\/|mailto:|tel:)/i;

/** Two line breaks, because one is none to Teams. */
export const markdown = (text: string): string =>
  text
    .replaceAll('\r\n', '\n')
    .split('\n')
    .map(line => (/^\s*- /.test(line) ? `- ${spans(line.replace(/^\s*- /, ''))}` : spans(line)))
    .reduce((before, line, index, lines) => {
      const list = line.startsWith('- ') && lines[index - 1]?.startsWith('- ');
      return index === 0 ? line : `${before}${list ? '\n' : '\n\n'}${line}`;
    }, '')
    .replace(/\n{3,}/g, '\n\n');

function spans(line: string): string {
  let out = '';
  let from = 0;
  for (const found of line.matchAll(SPAN)) {
    const [whole, code, label, address, bold, word] = found;
    out += literally(line.slice(from, found.index));
    from = found.index + whole.length;
    if (code !== undefined) out += `\`${code.toWellFormed()}\``;
    else if (bold !== undefined) out += `**${spans(bold)}**`;
    else if (word !== undefined) out += `*${literally(word)}*`;
    else if (label !== undefined && address !== undefined && LINKS.test(address))
      out += `[${literally(label)}](${address.replace(/[<>"]/g, encodeURIComponent)})`;
    else out += literally(whole);
  }
  return out + literally(line.slice(from));
}

/** Text as text: every character that Markdown or XML could take for a mark becomes a reference (CommonMark 0.31.2, 2.5). */
export const literally = (text: string): string =>
  text
    .toWellFormed()
    .replace(/[^\P{Cc}\n]|[\u202a-\u202e\u2066-\u2069]/gu, '\ufffd')
    .replace(/[&<>"*_~`[\]()#|\\!]/g, mark => `&#${mark.codePointAt(0)};`)
    .replace(
      /^(\s*)([-+=]|\d+(?=[.)]))/gm,
      (_whole, space: string, mark: string) =>
        space + [...mark].map(each => `&#${each.codePointAt(0)};`).join(''),
    );
