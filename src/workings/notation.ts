/**
 * Values as people write them in a form or on a command line, read by the shape that is expected there.
 *
 * A list: `1, 3`, or `none`. A list of lists or of things with names: one a line. A thing with names: `name: photos; gigabytes: 300`.
 * JSON is taken everywhere a list or a thing is. What cannot be read as its shape wants stays text: then the field's own
 * message says what is expected.
 */

/** The part of JSON Schema (draft 2020-12) that the workings' inputs use. */
export interface Shape {
  type?: string | string[];
  title?: string;
  description?: string;
  default?: unknown;
  enum?: string[];
  properties?: Record<string, Shape>;
  required?: string[];
  items?: Shape;
  anyOf?: Shape[];
  minimum?: number;
  maxLength?: number;
}

/** What nobody can read, told in one line. */
export class Unreadable extends Error {}

export const alternatives = (shape: Shape): Shape[] => shape.anyOf?.flatMap(alternatives) ?? [shape];

export const typesOf = (shape: Shape): string[] => alternatives(shape).flatMap(({ type }) => type ?? []);

export const ofType = (shape: Shape, type: string): Shape | undefined =>
  alternatives(shape).find(each => [each.type].flat().includes(type));

/** Throws an `Unreadable`. */
export function readValue(text: string, shape: Shape): unknown {
  const plain = text.trim();
  const [list, thing] = [ofType(shape, 'array'), ofType(shape, 'object')];
  if ((list || thing) && /^[[{]/.test(plain)) return json(plain);
  if (thing && namesOneOf(plain, thing)) return thingOf(plain, thing);
  const types = typesOf(shape);
  const numeric = types.includes('number') || types.includes('integer');
  if (numeric && isNumber(plain)) return Number(plain);
  if (list) return listOf(plain, list.items ?? {});
  if (thing && !types.includes('string')) return thingOf(plain, thing);
  if (types.includes('boolean')) return FLAGS[plain.toLowerCase()] ?? plain;
  return text;
}

const FLAGS: Readonly<Record<string, boolean>> = { true: true, yes: true, false: false, no: false };
const isNumber = (text: string): boolean => text !== '' && Number.isFinite(Number(text));

function json(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch (error) {
    throw new Unreadable(`this is no JSON: ${(error as Error).message}`);
  }
}

/** Each of its entries stands in a line of its own. */
export const byLine = (items: Shape): boolean =>
  ['array', 'object'].some(type => ofType(items, type) !== undefined);

function listOf(text: string, items: Shape): unknown[] {
  if (text.toLowerCase() === 'none') return [];
  const signs = byLine(items) && !typesOf(items).includes('string') ? '\n' : ',\n';
  return parts(text, signs)
    .map(part => part.trim())
    .filter(part => part !== '')
    .map(part => quoted(part) ?? readValue(part, items));
}

function thingOf(text: string, shape: Shape): Record<string, unknown> {
  const entries = parts(text, ';\n').flatMap((part): [string, unknown][] => {
    if (part.trim() === '') return [];
    const at = part.indexOf(':');
    if (at < 1)
      throw new Unreadable(
        `"${part.trim().slice(0, 40)}" has no name before it: write ${exampleOf(shape) || 'name: value'}`,
      );
    const name = nameIn(part.slice(0, at), shape) ?? part.slice(0, at).trim();
    const value = part.slice(at + 1).trim();
    return [[name, quoted(value) ?? readValue(value, shape.properties?.[name] ?? {})]];
  });
  return Object.fromEntries(entries);
}

const namesOneOf = (text: string, shape: Shape): boolean =>
  text.includes(':') && nameIn(text.slice(0, text.indexOf(':')), shape) !== undefined;

/** Capitals, spaces and hyphens make no difference: "Amperes 12 V" is amperes12V. */
const nameIn = (given: string, { properties = {} }: Shape): string | undefined =>
  Object.keys(properties).find(name => bare(name) === bare(given));
const bare = (name: string): string => name.toLowerCase().replace(/[\s_-]/g, '');

/** A value in quotes is the text between them, whatever is in it. */
function quoted(value: string): string | null {
  if (!/^".*"$/s.test(value)) return null;
  try {
    const read: unknown = JSON.parse(value);
    return typeof read === 'string' ? read : null;
  } catch {
    return null;
  }
}

/** Cut at any of `signs`, but not within quotes or brackets that begin a value. */
function parts(text: string, signs: string): string[] {
  const all: string[] = [];
  let [part, depth, open] = ['', 0, false];
  for (let at = 0; at < text.length; at++) {
    const sign = text[at]!;
    if (open && sign === '\\') {
      part += sign + (text[++at] ?? '');
      continue;
    }
    if (!open && depth === 0 && signs.includes(sign)) {
      all.push(part);
      part = '';
      continue;
    }
    const begins = /^\s*([^:"[{]*:\s*)?$/.test(part);
    if (sign === '"' && (open || depth > 0 || begins)) open = !open;
    else if (!open && '[{'.includes(sign) && (depth > 0 || begins)) depth += 1;
    else if (!open && depth > 0 && ']}'.includes(sign)) depth -= 1;
    part += sign;
  }
  return [...all, part];
}

/** The plain way to write it, where that is read back as the same; else JSON. */
export function writeValue(value: unknown, shape: Shape): string {
  const plain = plainOf(value, shape);
  if (plain !== null && same(readOr(plain, shape), value)) return plain;
  return typeof value === 'string' ? value : JSON.stringify(value);
}

function plainOf(value: unknown, shape: Shape): string | null {
  if (typeof value === 'boolean') return value ? 'yes' : 'no';
  if (typeof value !== 'object' || value === null) return String(value);
  if (!Array.isArray(value)) return thingText(value as Record<string, unknown>, shape);
  if (value.length === 0) return 'none';
  const items = ofType(shape, 'array')?.items ?? {};
  const texts = value.map(each => plainOf(each, items) ?? JSON.stringify(each));
  return texts.join(byLine(items) && !typesOf(items).includes('string') ? '\n' : ', ');
}

function thingText(value: Record<string, unknown>, shape: Shape): string {
  const properties = ofType(shape, 'object')?.properties ?? {};
  return Object.entries(value)
    .map(([name, each]) => {
      const plain = plainOf(each, properties[name] ?? {});
      const fits =
        plain !== null && !/[;\n]|^["[{]/.test(plain) && same(readOr(plain, properties[name] ?? {}), each);
      return `${name}: ${fits ? plain : JSON.stringify(each)}`;
    })
    .join('; ');
}

function readOr(text: string, shape: Shape): unknown {
  try {
    return readValue(text, shape);
  } catch {
    return undefined;
  }
}

const same = (one: unknown, other: unknown): boolean => JSON.stringify(one) === JSON.stringify(other);

/** A short example of the shape, made from its bounds. */
export function exampleOf(shape: Shape): string {
  const [first] = alternatives(shape);
  if (first === undefined) return '';
  const { enum: values, items, properties, required = [] } = first;
  if (values !== undefined) return values[0] ?? '';
  if (items !== undefined) {
    const one = exampleOf(items);
    const next = items.enum?.[1] ?? (Number(one) ? String(Number(one) + 1) : one);
    return byLine(items) || next === one ? one : `${one}, ${next}`;
  }
  if (properties !== undefined) {
    const names = required.length > 0 ? required : Object.keys(properties).slice(0, 2);
    return names.map(name => `${name}: ${exampleOf(properties[name] ?? {})}`).join('; ');
  }
  if (typesOf(first).includes('boolean')) return 'yes';
  return typesOf(first).includes('string') ? 'name' : String(Math.max(1, first.minimum ?? 1));
}
