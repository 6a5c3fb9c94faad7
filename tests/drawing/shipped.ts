/** Everything in the shipped folder that can be drawn, found by reading it; and pictures read back by a strict XML reader. */
import { existsSync, readdirSync } from 'node:fs';
import { SaxesParser } from 'saxes';
import { type Subject, subjectOf, type Written } from '#drawing/written.ts';
import { loadKept } from '#library/kept.ts';
import { writtenOf } from '../../src/commands/draw.ts';
import { measureWithFont } from '../../src/commands/picture.ts';

const { library, mistakes } = loadKept('flows');
if (library === null) throw new Error(`flows/ cannot be read: ${JSON.stringify(mistakes[0])}`);

export const written: Written = writtenOf(library);
export const scripts = Object.fromEntries(
  Object.entries(library.flows).map(([symptom, { script }]) => [symptom, script]),
);
export const measure = measureWithFont();

const folders = (folder: string, file: string) =>
  readdirSync(folder).filter(name => existsSync(`${folder}/${name}/${file}`));
export const subjects: Subject[] = [
  ...folders('flows', 'flow.yaml').map(name => subjectOf(written, 'flow', name)!),
  ...folders('flows/blocks', 'block.yaml').map(name => subjectOf(written, 'block', name)!),
];

export interface Node {
  name: string;
  attributes: Record<string, string>;
  children: (Node | string)[];
}

/** Throws where the text is not well-formed XML. */
export function readXml(xml: string): Node {
  const top: Node = { name: '', attributes: {}, children: [] };
  const open = [top];
  const parser = new SaxesParser();
  parser.on('error', error => {
    throw error;
  });
  parser.on('opentag', ({ name, attributes }) => {
    const node: Node = { name, attributes: attributes as Record<string, string>, children: [] };
    open.at(-1)!.children.push(node);
    open.push(node);
  });
  parser.on('closetag', () => {
    open.pop();
  });
  parser.on('text', text => {
    open.at(-1)!.children.push(text);
  });
  parser.write(xml).close();
  return top.children[0] as Node;
}

export const nodesIn = (node: Node): Node[] => [
  node,
  ...node.children.flatMap(child => (typeof child === 'string' ? [] : nodesIn(child))),
];

/** The words that stand in the picture, without what only the mouse shows. */
export const shownIn = (node: Node): string =>
  node.name === 'title'
    ? ''
    : node.children.map(child => (typeof child === 'string' ? child : shownIn(child))).join(' ');

/** What the mouse shows. */
export const titlesIn = (node: Node): string =>
  nodesIn(node)
    .filter(({ name }) => name === 'title')
    .map(({ children }) => children.join(''))
    .join('\n');
