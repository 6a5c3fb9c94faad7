/** Our texts as elements of a card. Runs of text are never read as marks by anybody's client, so nothing in them needs to be escaped. */

export type Element = Record<string, unknown> & { type: string };
type Run = Record<string, unknown> & { type: 'TextRun'; text: string };

/** Of all runs of a text: `weight`, `isSubtle`, `color`, `size`. */
export type Style = Record<string, string | boolean>;

const ITEM = /^\s*- /;
const SPAN =
  /`([^`\n]+)`|\[([^\]\n]+)\]\(([^)\s]+)\)|\*\*(\S(?:[^\n]*?\S)?)\*\*|(?<![\w*])\*(\p{L}[^*\n]*)\*(?![\w*])/gu;
/** Addresses a link may lead to; anything else stays text. */
const LINKS = /^(https?:\/\/|mailto:|tel:)/i;

/** One element a line; a list's lines stand closer together. Blank lines only part. */
export function rich(text: string, style: Style = {}): Element[] {
  const lines = text.replaceAll('\r\n', '\n').split('\n');
  const elements: Element[] = [];
  let parted = false;
  for (const line of lines) {
    if (line.trim() === '') {
      parted = true;
      continue;
    }
    const item = ITEM.test(line);
    const inlines = runs(item ? `• ${line.replace(ITEM, '')}` : line, style);
    const close = elements.length > 0 && (item || !parted);
    elements.push({ type: 'RichTextBlock', ...(close ? { spacing: 'Small' } : {}), inlines });
    parted = false;
  }
  return elements;
}

/** One line's runs. */
export function runs(line: string, style: Style = {}): Run[] {
  const made: Run[] = [];
  const add = (text: string, more: Record<string, unknown> = {}) => {
    if (text !== '') made.push({ type: 'TextRun', text: visible(text), ...style, ...more });
  };
  let from = 0;
  for (const found of line.matchAll(SPAN)) {
    const [whole, code, label, address, bold, word] = found;
    add(line.slice(from, found.index));
    from = found.index + whole.length;
    if (code !== undefined) add(code, { fontType: 'Monospace' });
    else if (bold !== undefined) made.push(...runs(bold, { ...style, weight: 'Bolder' }));
    else if (word !== undefined) add(word, { italic: true });
    else if (label !== undefined && address !== undefined && LINKS.test(address))
      add(label, { selectAction: { type: 'Action.OpenUrl', url: address } });
    else add(whole);
  }
  add(line.slice(from));
  return made;
}

/** Nothing that turns the direction of what follows, and no control characters. */
export const visible = (text: string): string =>
  text.toWellFormed().replace(/[^\P{Cc}\n]|[\u202a-\u202e\u2066-\u2069]/gu, '\ufffd');
