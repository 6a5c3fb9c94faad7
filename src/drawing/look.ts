/** How drawings look: colours, letters and distances, in px of the picture. Light, calm, and readable without the colours. */
import type { Style } from './text.ts';

export const COLOURS = {
  paper: '#f7f6f1',
  sheet: '#ffffff',
  ink: '#16211f',
  quiet: '#52605f',
  line: '#7f8d8a',
  hair: '#dde2dd',
  act: '#0a5a66',
  soft: '#e3eeec',
  care: '#fdf1d3',
  careLine: '#a86400',
  stop: '#a3161d',
  good: '#14603a',
} as const;

/** Every way of writing in a drawing; the name is its class in the SVG. */
export const STYLES = {
  title: { size: 20, weight: 'strong', colour: 'ink' },
  about: { size: 14, weight: 'regular', colour: 'quiet' },
  note: { size: 11, weight: 'regular', colour: 'quiet' },
  question: { size: 12, weight: 'strong', colour: 'ink' },
  words: { size: 11.5, weight: 'regular', colour: 'ink' },
  name: { size: 10.5, weight: 'regular', colour: 'quiet' },
  kind: { size: 10.5, weight: 'strong', colour: 'act' },
  condition: { size: 10.5, weight: 'regular', colour: 'quiet' },
  answer: { size: 11, weight: 'regular', colour: 'ink' },
  answerName: { size: 11, weight: 'strong', colour: 'ink' },
  sign: { size: 10.5, weight: 'strong', colour: 'stop' },
  fixed: { size: 10.5, weight: 'strong', colour: 'good' },
  care: { size: 10.5, weight: 'strong', colour: 'careLine' },
  tag: { size: 10.5, weight: 'strong', colour: 'act' },
  origin: { size: 9.5, weight: 'regular', colour: 'quiet' },
  number: { size: 10, weight: 'strong', colour: 'sheet' },
  over: { size: 11.5, weight: 'regular', colour: 'sheet' },
  overKind: { size: 10.5, weight: 'strong', colour: 'sheet' },
} as const satisfies Record<string, Style & { colour: keyof typeof COLOURS }>;
export type StyleName = keyof typeof STYLES;

/** Families tried in turn; each text also carries its measured width, so that another font is fitted into the same box. */
export const FAMILY = 'Source Sans 3';
export const FAMILIES = `'${FAMILY}', 'Source Sans Pro', 'Segoe UI', 'Noto Sans', sans-serif`;
