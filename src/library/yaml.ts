/** YAML with its positions kept, so that a mistake found later can still name file and line. */
import { isNode, LineCounter, parseDocument } from 'yaml';

export type Path = readonly (string | number)[];

export interface Source {
  file: string;
  value: unknown;
  /** Line, counted from 1, of the node at `path`, or of the nearest node around it. */
  line(path: Path): number;
  /** Mistakes of the YAML itself. */
  errors: { line: number; message: string }[];
}

export function readYaml(file: string, text: string): Source {
  const lines = new LineCounter();
  const doc = parseDocument(text, { lineCounter: lines, prettyErrors: false, uniqueKeys: true });
  return {
    file,
    value: doc.errors.length > 0 ? null : doc.toJS({ maxAliasCount: 20 }),
    line(path) {
      for (let length = path.length; length >= 0; length--) {
        const node = length === 0 ? doc.contents : doc.getIn(path.slice(0, length), true);
        if (isNode(node) && node.range) return lines.linePos(node.range[0]).line;
      }
      return 1;
    },
    errors: doc.errors.map(error => ({
      line: lines.linePos(error.pos[0]).line,
      message: error.message.split('\n')[0] ?? error.message,
    })),
  };
}
