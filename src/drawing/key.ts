/** The key to the shapes, and what holds at every box. */
import type { BoxKind, Mark } from './box.ts';
import { STYLES } from './look.ts';
import { paintMark } from './marks.ts';
import { paintWords } from './paint.ts';
import { outlineOf } from './shapes.ts';
import { element, type Svg } from './svg.ts';
import { paintTag, TAG } from './tags.ts';
import { fittedLines, type Measure } from './text.ts';
import type { Subject } from './written.ts';

const LINE = 18;
const SHAPE = { width: 24, height: 13 };

interface Entry {
  text: string;
  width: number;
  draw(x: number, y: number): Svg;
}

const shape = (kind: BoxKind, text: string): Entry => {
  const { width, height } = SHAPE;
  const d = outlineOf(kind, 2 * width, 2 * height, true);
  const edge = kind === 'caution' || kind === 'say';
  return {
    text,
    width,
    draw: (x, y) =>
      element(
        'g',
        { class: `${kind} small`, transform: `translate(${x} ${y - height / 2}) scale(0.5)` },
        ...(kind === 'visit' ? [element('path', { d, class: 'outline', transform: 'translate(5 5)' })] : []),
        element('path', { d, class: 'outline' }),
        ...(edge ? [element('path', { d: `M4 5V${2 * height - 5}`, class: 'edge' })] : []),
      ),
  };
};

const mark = (of: Mark, text: string, width: number): Entry => ({
  text,
  width,
  draw: (x, y) => paintMark({ ...of, x, y }),
});

const effect = (level: number, text: string) => mark({ kind: 'effect', level, x: 0, y: 0 }, text, 19);

const line = (how: string, text: string): Entry => ({
  text,
  width: 26,
  draw: (x, y) =>
    element('path', { d: `M${x} ${y}H${x + 24}`, class: `line ${how}`, 'marker-end': 'url(#head)' }),
});

const tag = (written: string, text: string): Entry => ({
  text,
  width: TAG.width,
  draw: (x, y) => paintTag(written, 'on', x, y),
});

const ENTRIES: Entry[] = [
  shape('ask', 'question'),
  shape('try', 'self-help, for the drive:'),
  effect(0, 'no effect'),
  effect(1, 'start'),
  effect(2, 'read'),
  effect(3, 'write'),
  shape('say', 'words'),
  shape('caution', 'caution'),
  shape('visit', 'block'),
  shape('hand-over', 'to the desk'),
  shape('end', 'end'),
  mark({ kind: 'sign', x: 0, y: 0 }, 'sign raised', 10),
  mark({ kind: 'cleared', x: 0, y: 0 }, 'cleared', 10),
  line('answers', 'then'),
  line('past', 'if not'),
  tag('12', 'then box 12'),
];

const NOTE =
  'Numbers follow the file. What is known already is not asked again. At every question the person may also go back, stop, ask for a person, or use a word of alarm.';

export interface Key {
  height: number;
  draw(x: number, y: number): Svg[];
}

/** Set in as many lines as `width` needs. */
export function keyOf({ kind }: Subject, width: number, measure: Measure): Key {
  const placed: { entry: Entry; x: number; line: number; text: number }[] = [];
  let x = 0;
  let at = 0;
  const entries = kind === 'block' ? [...ENTRIES, tag('back', 'to the flow that visits it')] : ENTRIES;
  for (const entry of entries) {
    const text = measure(entry.text, STYLES.note);
    if (x > 0 && x + entry.width + 6 + text > width) {
      x = 0;
      at += 1;
    }
    placed.push({ entry, x, line: at, text });
    x += entry.width + 6 + text + 14;
  }
  const note = fittedLines(NOTE, STYLES.note, width, 3, measure).lines;
  return {
    height: (at + 1 + note.length) * LINE,
    draw: (left, top) => [
      ...placed.flatMap(({ entry, x: over, line: row, text }) => {
        const y = top + row * LINE + LINE / 2;
        return [
          entry.draw(left + over, y),
          paintWords({
            text: entry.text,
            full: entry.text,
            x: left + over + entry.width + 6,
            y: y + 4,
            width: text,
            style: 'note',
          }),
        ];
      }),
      ...note.map((words, row) =>
        paintWords({
          text: words,
          full: words,
          x: left,
          y: top + (at + 1 + row) * LINE + 13,
          width: measure(words, STYLES.note),
          style: 'note',
        }),
      ),
    ],
  };
}
