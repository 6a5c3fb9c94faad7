/** The letters of pictures, from a package, and SVG turned into PNG with them: the same on every machine. */
import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { Resvg } from '@resvg/resvg-js';
import { widthsOf } from '#drawing/font.ts';
import { FAMILY } from '#drawing/look.ts';
import type { Measure } from '#drawing/text.ts';

const FONT = '@expo-google-fonts/source-sans-3';
const FILES = {
  regular: fontFile('400Regular/SourceSans3_400Regular.ttf'),
  strong: fontFile('600SemiBold/SourceSans3_600SemiBold.ttf'),
};

function fontFile(name: string): string {
  return fileURLToPath(import.meta.resolve(`${FONT}/${name}`));
}

/** Regular, then strong. */
export const fontFiles = (): string[] => [FILES.regular, FILES.strong];

/** Reads the font files once. */
export function measureWithFont(): Measure {
  const widths = {
    regular: widthsOf(readFileSync(FILES.regular)),
    strong: widthsOf(readFileSync(FILES.strong)),
  };
  // A picture tries many widths and asks for the same words each time.
  const known = { regular: new Map<string, number>(), strong: new Map<string, number>() };
  return (text, { size, weight }) => {
    const em = known[weight].get(text) ?? widths[weight](text);
    known[weight].set(text, em);
    return em * size;
  };
}

/** PNG of the SVG, `width` px wide; the height follows from its proportions. */
export function pngOf(svg: string, width: number): Uint8Array {
  const font = { loadSystemFonts: false, fontFiles: fontFiles(), defaultFontFamily: FAMILY };
  return new Resvg(svg, { font, fitTo: { mode: 'width', value: width } }).render().asPng();
}
