/** SVG as text. Everything that goes in is escaped here and nowhere else. */

export type Attributes = Record<string, string | number | undefined>;

/** Elements may only be made by the functions below, so that no text gets in unescaped. */
export interface Svg {
  readonly svg: string;
}

export const element = (name: string, attributes: Attributes, ...inner: Svg[]): Svg => {
  const given = Object.entries(attributes)
    .filter(([, value]) => value !== undefined)
    .map(([key, value]) => ` ${key}="${escaped(typeof value === 'number' ? figure(value) : `${value}`)}"`)
    .join('');
  const content = inner.map(({ svg }) => svg).join('');
  return { svg: content === '' ? `<${name}${given}/>` : `<${name}${given}>${content}</${name}>` };
};

export const words = (text: string): Svg => ({ svg: escaped(text) });

/** Not an XML character (XML 1.0, production 2): control codes, lone halves of a pair, U+FFFE and U+FFFF. */
const NO_CHARACTER = /[^\t\n\r\u{20}-\u{D7FF}\u{E000}-\u{FFFD}\u{10000}-\u{10FFFF}]/gu;

const escaped = (text: string): string =>
  text.replace(NO_CHARACTER, '\u{FFFD}').replace(/[&<>"']/g, sign => `&#${sign.charCodeAt(0)};`);

const figure = (value: number): string => `${Math.round(value * 100) / 100}`;
