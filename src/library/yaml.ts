/** YAML with its positions kept, so that a mistake found later can still name file and line. */
import { type Document, isMap, isNode, isScalar, LineCounter, parseDocument, visit } from 'yaml';
import { explain, type Slip, strangeIn } from './slips.ts';

export type Path = readonly (string | number)[];

export interface Source {
  file: string;
  /** Null where the YAML itself is wrong. */
  value: unknown;
  /** Line, counted from 1, of what stands at `path`, or of what is nearest around it. */
  line(path: Path): number;
  /** Mistakes of the YAML itself. */
  errors: Slip[];
}

export function readYaml(file: string, text: string): Source {
  const lines = new LineCounter();
  const doc = parseDocument(text, { lineCounter: lines, prettyErrors: false, uniqueKeys: true });
  const lineAt = (offset: number) => lines.linePos(offset).line;
  const errors = slipsOf(doc, text, lineAt);
  return {
    file,
    value: errors.length > 0 ? null : contentOf(doc, errors),
    line(path) {
      for (let length = path.length; length >= 0; length--) {
        const node = length === 0 ? doc.contents : nodeAt(doc, path.slice(0, length));
        if (isNode(node) && node.range) return lineAt(node.range[0]);
      }
      return 1;
    },
    errors,
  };
}

/** What is written once and referred to may come again some twenty times, and no more: a file could hold the machine up by it. */
function contentOf(doc: Document.Parsed, errors: Slip[]): unknown {
  try {
    return doc.toJS({ maxAliasCount: 20 });
  } catch {
    const message = 'something that is marked with & comes again too often';
    errors.push({ line: 1, message, remedy: 'write it out where it is needed' });
    return null;
  }
}

/** The word that names it, where it has one: a value may begin on the next line. */
function nodeAt(doc: Document, path: Path): unknown {
  const around = path.length === 1 ? doc.contents : doc.getIn(path.slice(0, -1), true);
  const name = String(path.at(-1));
  const pair = isMap(around)
    ? around.items.find(({ key }) => isScalar(key) && String(key.value) === name)
    : undefined;
  return pair?.key ?? doc.getIn(path, true);
}

/** After a slip the rest is read wrongly, so only the first is told; words that stand twice are told each. */
function slipsOf(doc: Document.Parsed, text: string, lineAt: (offset: number) => number): Slip[] {
  const strange = strangeIn(text);
  if (strange !== null) return [strange];
  const rows = text.split(/\r?\n/);
  const twice = doc.errors.filter(({ code }) => code === 'DUPLICATE_KEY');
  const first = doc.errors.find(({ code }) => code !== 'DUPLICATE_KEY') ?? doc.warnings[0];
  if (first !== undefined) {
    const at =
      first.code === 'MISSING_CHAR' || first.code === 'BAD_INDENT' ? openedAt(doc, first.pos[0]) : null;
    return [explain(first, lineAt(at ?? first.pos[0]), rows, '')];
  }
  if (twice.length > 0) {
    return twice.map(error => explain(error, lineAt(error.pos[0]), rows, text.slice(error.pos[0])));
  }
  return silent(doc, lineAt);
}

/** Where the quote or bracket begins that is still open at `offset`. */
function openedAt(doc: Document.Parsed, offset: number): number | null {
  let found: number | null = null;
  visit(doc, {
    Node(_, node) {
      const [from, to] = node.range ?? [0, 0];
      const quoted = isScalar(node) && (node.type === 'QUOTE_DOUBLE' || node.type === 'QUOTE_SINGLE');
      if ((quoted || (!isScalar(node) && 'flow' in node && node.flow)) && from < offset && to >= offset) {
        found ??= from;
      }
    },
  });
  return found;
}

/** Correct as YAML, and surely not meant: words that vanish without a trace. */
function silent(doc: Document.Parsed, lineAt: (offset: number) => number): Slip[] {
  const slips: Slip[] = [];
  // Noted on the way: asked of each star, the library would look through the whole file again.
  const anchors = new Set<string | undefined>();
  visit(doc, {
    Collection(_, node) {
      anchors.add(node.anchor);
    },
    Alias(_, node) {
      if (anchors.has(node.source)) return;
      slips.push({
        line: lineAt(node.range![0]),
        message: 'a text that begins with a star needs quotes',
        remedy: 'put the whole text in double quotes',
      });
    },
    Pair(_, { key }) {
      if (isScalar(key) || !isNode(key)) return;
      slips.push({
        line: lineAt(key.range![0]),
        message: 'a bracket or a question mark stands where a word and a colon belong',
        remedy: 'put the whole text in double quotes, or take the sign out',
      });
    },
    Scalar(_, node) {
      anchors.add(node.anchor);
      const line = lineAt(node.range![0]);
      if (node.type === 'PLAIN' && node.comment && /^\S/.test(node.comment)) {
        slips.push({
          line,
          message: `"#${node.comment}" is left out: behind a space, # begins a remark`,
          remedy: 'put the whole text in double quotes, or a space behind the # of a remark',
        });
      }
      if (node.type === 'QUOTE_DOUBLE' && /(?!\n)\p{Cc}/u.test(String(node.value))) {
        slips.push({
          line,
          message: 'in double quotes a backslash and the letter behind it become one sign',
          remedy: 'put the text in single quotes',
        });
      }
    },
  });
  return slips;
}
