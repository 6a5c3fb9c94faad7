/** A screen as a picture: 80 columns of firmware text, a text window, a blue screen, a dialog. The letters come from packages. */
import { createRequire } from 'node:module';
import { Resvg } from '@resvg/resvg-js';
import type { Shown } from './shown.ts';

const { resolve } = createRequire(import.meta.url);
const FONTS = [
  '@expo-google-fonts/vt323/400Regular/VT323_400Regular.ttf',
  '@expo-google-fonts/ibm-plex-mono/400Regular/IBMPlexMono_400Regular.ttf',
  '@expo-google-fonts/source-sans-3/400Regular/SourceSans3_400Regular.ttf',
].map(font => resolve(font));

/** Pixels. */
export const WIDTH = 1280;
export const HEIGHT = 720;

const safe = (text: string) => text.replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll('>', '&gt;');

/** `old`: the letters of old text screens, else those of newer ones. */
export function draw({ style, lines }: Shown, old: boolean): Buffer {
  const svg = `<svg xmlns="http://www.w3.org/2000/svg" width="${WIDTH}" height="${HEIGHT}">${DRAWN[style](lines, old)}</svg>`;
  return Buffer.from(new Resvg(svg, { font: { fontFiles: FONTS, loadSystemFonts: false } }).render().asPng());
}

const DRAWN = {
  firmware: (lines: string[], old: boolean) =>
    `<rect width="100%" height="100%" fill="#050505"/>${columns(lines, old, '#c8c8c8')}`,
  console: (lines: string[], old: boolean) =>
    `<rect width="100%" height="100%" fill="#101418"/>${columns(lines, old, '#e4e4e4')}`,
  blue: (lines: string[]) =>
    `<rect width="100%" height="100%" fill="#0f6cc4"/>${sentences(lines, { x: 140, y: 200, size: 30, most: 62, fill: '#ffffff' })}`,
  dialog: (lines: string[]) =>
    `<rect width="100%" height="100%" fill="#3a5f7d"/>
<rect x="300" y="200" width="680" height="320" fill="#f4f4f4" stroke="#888"/><rect x="300" y="200" width="680" height="40" fill="#ffffff"/>
<circle cx="350" cy="310" r="24" fill="#c9302c"/>
${sentences(lines, { x: 396, y: 300, size: 24, most: 52, fill: '#1a1a1a' })}
<rect x="840" y="456" width="110" height="38" fill="#e1e1e1" stroke="#adadad"/>${line('OK', 880, 482, 20, '#1a1a1a', 'Source Sans 3')}`,
};

/** 80 columns and 25 lines fill the screen. */
function columns(lines: string[], old: boolean, fill: string): string {
  const [family, size] = old ? ['VT323', 39] : ['IBM Plex Mono', 26];
  return lines
    .map((text, at) => line(text, 8, 34 + at * 28.8, size as number, fill, family as string))
    .join('');
}

interface Setting {
  x: number;
  y: number;
  size: number;
  /** Letters in a line. */
  most: number;
  fill: string;
}

function sentences(lines: string[], { x, y, size, most, fill }: Setting): string {
  const broken = lines.flatMap(text => text.match(new RegExp(`.{1,${most}}(?:\\s|$)`, 'g')) ?? []);
  return broken
    .map((text, at) => line(text.trim(), x, y + at * size * 1.45, size, fill, 'Source Sans 3'))
    .join('');
}

const line = (text: string, x: number, y: number, size: number, fill: string, family: string) =>
  `<text xml:space="preserve" x="${x}" y="${y}" font-family="${family}" font-size="${size}" fill="${fill}">${safe(text)}</text>`;
