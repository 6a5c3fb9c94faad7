/** Sets one box: its lines from top to bottom, in a given width. */
import type { Box, BoxExit, BoxKind, Mark, Words } from './box.ts';
import { STYLES, type StyleName } from './look.ts';
import { isName, markedAnswer, namedFirst, runsOf } from './marked.ts';
import { fittedLines, type Measure, mixedLines, mixedPlaces, plain, shortened, type Token } from './text.ts';

export const PAD = 8;
/** The number's circle and the space after it. */
export const BADGE = 21;
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

  private readonly right: number;

  /** `inset`: what the shape takes from the right side. */
  constructor(width: number, measure: Measure, inset = 0) {
    this.width = width;
    this.measure = measure;
    this.right = width - PAD - inset;
  }

  get at(): number {
    return this.y;
  }

  space(height: number): void {
    this.y += height;
  }

  /** Sets `text` in at most `most` lines from `left`, and gives the width of the last one. */
  add(text: string, style: StyleName, { left = PAD, most = 1, tagged = false } = {}): number {
    const { size } = STYLES[style];
    const width = (line: string | undefined) => this.measure(line ?? '', STYLES[style]);
    const { lines, cut } = this.roomy(left, tagged, room => {
      const fitted = fittedLines(text, STYLES[style], room, most, this.measure);
      return { ...fitted, last: width(fitted.lines.at(-1)) };
    });
    for (const line of lines) {
      this.y += Math.round(size * 1.24);
      const y = this.y - Math.round(size * 0.3);
      this.words.push({ text: line, full: cut ? plain(text) : line, x: left, y, width: width(line), style });
    }
    return width(lines.at(-1));
  }

  /** More words on the line just set. */
  beside(text: string, style: StyleName, left: number): void {
    const last = this.words.at(-1);
    const room = this.right - left;
    if (last === undefined || room < 24) return;
    const line = shortened(text, STYLES[style], room, this.measure);
    const width = this.measure(line, STYLES[style]);
    this.words.push({ text: line, full: plain(text), x: left, y: last.y, width, style });
  }

  /** An answer: its words, with its name in the file marked among them, or else before them. */
  answer(
    name: string,
    label: string,
    { left, most, tagged }: { left: number; most: number; tagged: boolean },
  ): void {
    const fitted = (tokens: Token[]) =>
      this.roomy(left, tagged, room => {
        const found = mixedLines(tokens, room, most, this.measure);
        return { ...found, last: mixedPlaces(found.lines.at(-1) ?? [], this.measure).ends.at(-1) ?? 0 };
      });
    const within = fitted(markedAnswer(name, plain(label)));
    // Shortened before its name, it has its name in front.
    const { lines, cut } = within.lines.flat().some(isName) ? within : fitted(namedFirst(name, plain(label)));
    for (const line of lines) {
      this.y += LINE;
      const { starts } = mixedPlaces(line, this.measure);
      for (const { from, text, style } of runsOf(line)) {
        const full = cut ? `${name}: ${plain(label)}` : text;
        const width = this.measure(text, STYLES[style]);
        this.words.push({ text, full, x: left + starts[from]!, y: this.y - 3, width, style });
      }
    }
  }

  /** All the width, unless the last line would run into the tag that stands beside it. */
  private roomy<Set extends { last: number }>(
    left: number,
    tagged: boolean,
    set: (room: number) => Set,
  ): Set {
    const room = this.right - left;
    const found = set(room);
    return tagged && found.last > room - TAG ? set(room - TAG) : found;
  }

  /** The step's name in the file: after the words where it fits, else under them. */
  name(text: string, left: number): void {
    const last = this.words.at(-1);
    const width = this.measure(text, STYLES.name);
    const x = this.right - width;
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
    { left = PAD, most = 1, tagged = false, level = 0 } = {},
  ): void {
    const y = this.y + Math.round(STYLES[style].size * 0.62);
    this.marks.push(mark === 'effect' ? { kind: mark, level, x: left, y } : { kind: mark, x: left, y });
    this.add(text, style, { left: left + (mark === 'effect' ? MARK + 10 : MARK), most, tagged });
  }

  /** The strip over the box that says when it is had. */
  strip(text: string, most: number, tagged: boolean): void {
    this.y += 2;
    this.add(text, 'condition', { left: PAD + 2, most, tagged });
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
