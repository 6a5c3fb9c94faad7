/** Sets one box: its lines from top to bottom, in a given width. */
import type { Box, BoxExit, BoxKind, Mark, Words } from './box.ts';
import { STYLES, type StyleName } from './look.ts';
import { lines, type Measure, mixedLines, mixedPlaces, plain, type Token } from './text.ts';

export const PAD = 8;
/** The number's circle and the space after it. */
const BADGE = 21;
/** Width kept free at the right for the tag of an exit. */
const TAG = 30;
const MARK = 13;
/** Height of a line of answers. */
const LINE = 14;

/** A box in the making: everything is added below what is there. */
export class Setting {
  readonly words: Words[] = [];
  readonly marks: Mark[] = [];
  readonly rules: number[] = [];
  readonly exits: BoxExit[] = [];
  private y = 0;
  private stripHeight = 0;
  private readonly width: number;
  private readonly measure: Measure;

  constructor(width: number, measure: Measure) {
    this.width = width;
    this.measure = measure;
  }

  get at(): number {
    return this.y;
  }

  space(height: number): void {
    this.y += height;
  }

  /** Sets `text` in at most `most` lines from `left`, and gives the width of the last one. */
  add(text: string, style: StyleName, { left = PAD, right = PAD, most = 1 } = {}): number {
    const { size } = STYLES[style];
    const full = plain(text);
    let width = 0;
    for (const line of lines(full, STYLES[style], this.width - left - right, most, this.measure)) {
      this.y += Math.round(size * 1.24);
      width = this.measure(line, STYLES[style]);
      this.words.push({ text: line, full, x: left, y: this.y - Math.round(size * 0.3), width, style });
    }
    return width;
  }

  /** More words on the line just set. */
  beside(text: string, style: StyleName, left: number, right: number = PAD): void {
    const full = plain(text);
    const room = this.width - left - right;
    const [line] = room > 24 ? lines(full, STYLES[style], room, 1, this.measure) : [];
    const last = this.words.at(-1);
    if (line === undefined || last === undefined) return;
    const width = this.measure(line, STYLES[style]);
    this.words.push({ text: line, full, x: left, y: last.y, width, style });
  }

  /** An answer: its words, with its name in the file marked among them, or else before them. */
  answer(
    name: string,
    label: string,
    { left, right, most }: { left: number; right: number; most: number },
  ): void {
    const tokens = answerTokens(name, plain(label));
    const full = `${name}: ${plain(label)}`;
    const set = mixedLines(tokens, this.width - left - right, most, this.measure);
    const whole = set.flat().length === tokens.length && set.flat().at(-1)?.word === tokens.at(-1)?.word;
    for (const line of set) {
      this.y += LINE;
      const { starts } = mixedPlaces(line, this.measure);
      for (const [from, to] of runs(line)) {
        const text = line
          .slice(from, to)
          .map(({ word }) => word)
          .join(' ');
        const style = line[from]!.style === STYLES.answerName ? 'answerName' : 'answer';
        const width = this.measure(text, STYLES[style]);
        this.words.push({
          text,
          full: whole ? text : full,
          x: left + starts[from]!,
          y: this.y - 3,
          width,
          style,
        });
      }
    }
  }

  /** The step's name in the file: after the words where it fits, else under them. */
  name(text: string, left: number): void {
    const last = this.words.at(-1);
    const width = this.measure(text, STYLES.name);
    const x = this.width - PAD - width;
    if (last === undefined || last.x + last.width + 8 > x) {
      this.add(text, 'name', { left });
    } else {
      this.words.push({ text, full: text, x, y: last.y, width, style: 'name' });
    }
  }

  mark(
    mark: Mark['kind'],
    text: string,
    style: StyleName,
    { left = PAD, most = 1, right = PAD, level = 0 } = {},
  ): void {
    const y = this.y + Math.round(STYLES[style].size * 0.62);
    this.marks.push(mark === 'effect' ? { kind: mark, level, x: left, y } : { kind: mark, x: left, y });
    this.add(text, style, { left: left + (mark === 'effect' ? MARK + 10 : MARK), most, right });
  }

  /** The strip over the box that says when it is had. */
  strip(text: string, most: number, tagged: boolean): void {
    this.y += 2;
    this.add(text, 'condition', { left: PAD + 2, right: tagged ? TAG + PAD : PAD, most });
    this.y += 4;
    this.stripHeight = this.y;
  }

  rule(): void {
    this.rules.push(this.y + 2);
    this.y += 4;
  }

  exit(how: BoxExit['how'], to: BoxExit['to'], y: number): void {
    this.exits.push({ how, to, y });
  }

  done(index: number, kind: BoxKind, full: string, level: number, unreached: boolean): Box {
    const { words, marks, rules, exits } = this;
    const height = Math.ceil(this.y);
    return {
      index,
      kind,
      full,
      width: this.width,
      height,
      strip: this.stripHeight,
      words,
      marks,
      rules,
      exits,
      level,
      unreached,
    };
  }
}

/** Where the words of a style begin and end. */
function runs(line: Token[]): [number, number][] {
  const found: [number, number][] = [];
  line.forEach(({ style }, index) => {
    const last = found.at(-1);
    if (last !== undefined && line[index - 1]?.style === style) last[1] = index + 1;
    else found.push([index, index + 1]);
  });
  return found;
}

function answerTokens(name: string, label: string): Token[] {
  const words = label.split(' ').map(word => ({ word, style: STYLES.answer }) as Token);
  const named = name.split(' ');
  const bare = words.map(({ word }) => word.toLowerCase().replace(/[^\p{L}\p{N}]/gu, ''));
  const at = bare.findIndex((_, index) => named.every((part, offset) => bare[index + offset] === part));
  const strong = (word: string): Token => ({ word, style: STYLES.answerName });
  if (at === -1)
    return [...named.map((part, index) => strong(index === named.length - 1 ? `${part}:` : part)), ...words];
  return words.map((token, index) => (index >= at && index < at + named.length ? strong(token.word) : token));
}

export { BADGE, TAG };
