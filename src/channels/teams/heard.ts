/** The words of a message as the person wrote them: the mention of this bot taken out by what Teams says it is, references decoded once. */
import type { Incoming } from './incoming.ts';

/** Leaves the names of others who were mentioned. */
export function wordsOf({
  text,
  entities,
  reference,
}: Pick<Incoming, 'text' | 'entities' | 'reference'>): string {
  let words = text;
  for (const entity of entities) {
    if (entity.type !== 'mention' || typeof entity.text !== 'string' || entity.text === '') continue;
    const mentioned = entity.mentioned as { id?: unknown; name?: unknown } | undefined;
    const name = typeof mentioned?.name === 'string' ? mentioned.name : '';
    words = words.replace(entity.text, () => (mentioned?.id === reference.bot ? ' ' : name));
  }
  return (
    decoded(words)
      .replaceAll('\r\n', '\n')
      .replace(/[ \t\u00a0]+/g, ' ')
      .replace(/ ?\n ?/g, '\n')
      // What stood around the mention: "Reseat, my drive ..." or "no, Reseat".
      .replace(/^[\s,:;]+|[\s,]+$/g, '')
  );
}

const NAMED: Record<string, string> = { amp: '&', lt: '<', gt: '>', quot: '"', apos: "'", nbsp: ' ' };

/** `&amp;lt;` is `&lt;` afterwards: one pass, so that nothing is decoded twice. */
export const decoded = (text: string): string =>
  text.replace(/&(?:#x([0-9a-f]{1,6})|#(\d{1,7})|([a-z]{2,4}));/gi, (whole, hex, decimal, name) => {
    if (name !== undefined) return NAMED[name.toLowerCase()] ?? whole;
    const code = hex === undefined ? Number(decimal) : Number.parseInt(hex, 16);
    return code > 0 && code <= 0x10ffff && !(code >= 0xd800 && code <= 0xdfff)
      ? String.fromCodePoint(code)
      : whole;
  });
