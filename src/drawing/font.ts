/** Widths of letters, read from a TrueType or OpenType font's own tables (OpenType specification: head, hhea, hmtx, cmap). */

/** Width of a text in em. Kerning is left out: it makes lines narrower, hardly ever wider. */
export type Widths = (text: string) => number;

/** Throws a RangeError when the bytes are no font with a Unicode table of format 4. */
export function widthsOf(bytes: Uint8Array): Widths {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const perEm = view.getUint16(tableAt(view, 'head') + 18);
  const longMetrics = view.getUint16(tableAt(view, 'hhea') + 34);
  const metrics = tableAt(view, 'hmtx');
  const glyphOf = glyphsOf(view, tableAt(view, 'cmap'));
  const letters = new Map<string, number>();
  const widthOf = (letter: string): number => {
    const glyph = glyphOf(letter.codePointAt(0)!);
    const width = view.getUint16(metrics + 4 * Math.min(glyph, longMetrics - 1)) / perEm;
    letters.set(letter, width);
    return width;
  };
  return text => {
    let sum = 0;
    for (const letter of text) sum += letters.get(letter) ?? widthOf(letter);
    return sum;
  };
}

function tableAt(view: DataView, name: string): number {
  for (let entry = 12; entry < 12 + 16 * view.getUint16(4); entry += 16) {
    const tag = String.fromCharCode(...[0, 1, 2, 3].map(byte => view.getUint8(entry + byte)));
    if (tag === name) return view.getUint32(entry + 8);
  }
  throw new RangeError(`the font has no table ${name}`);
}

/** Glyph 0, the box for what is missing, where the font has no letter. */
function glyphsOf(view: DataView, cmap: number): (code: number) => number {
  const tables = Array.from(
    { length: view.getUint16(cmap + 2) },
    (_, index) => cmap + view.getUint32(cmap + 8 + 8 * index),
  );
  const table = tables.find(at => view.getUint16(at) === 4);
  if (table === undefined) throw new RangeError('the font has no Unicode table of format 4');
  const twice = view.getUint16(table + 6);
  const ends = table + 14;
  const starts = ends + twice + 2;
  return code => {
    for (let at = 0; at < twice && code <= 0xffff; at += 2) {
      if (code > view.getUint16(ends + at)) continue;
      const start = view.getUint16(starts + at);
      if (code < start) return 0;
      const delta = view.getUint16(starts + twice + at);
      const place = starts + 2 * twice + at;
      const offset = view.getUint16(place);
      if (offset === 0) return (code + delta) & 0xffff;
      const glyph = view.getUint16(place + offset + 2 * (code - start));
      return glyph === 0 ? 0 : (glyph + delta) & 0xffff;
    }
    return 0;
  };
}
