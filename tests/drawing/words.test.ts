import { Resvg } from '@resvg/resvg-js';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { inWords } from '#drawing/conditions.ts';
import { FAMILY, STYLES } from '#drawing/look.ts';
import { markedAnswer, runsOf } from '#drawing/marked.ts';
import { element, words } from '#drawing/svg.ts';
import { fittedLines, mixedLines, mixedPlaces, plain, shortened } from '#drawing/text.ts';
import type { Condition } from '#engine/schema.ts';
import { fontFiles } from '../../src/commands/picture.ts';
import { measure, nodesIn, readXml, subjects } from './shipped.ts';

const style = STYLES.words;

describe('lines', () => {
  test('never exceed their width or number, and lose nothing unless they say so with an ellipsis', () => {
    fc.assert(
      fc.property(
        fc.string({ unit: 'grapheme' }),
        fc.integer({ min: 40, max: 300 }),
        fc.integer({ min: 1, max: 5 }),
        (text, width, most) => {
          const { lines, cut } = fittedLines(text, style, width, most, measure);
          expect(lines.length).toBeLessThanOrEqual(most);
          for (const line of lines) expect(measure(line, style)).toBeLessThanOrEqual(width + 0.001);
          const joined = lines.join('').replaceAll(' ', '');
          if (cut) expect(joined.endsWith('…')).toBe(true);
          else expect(joined).toBe(plain(text).replaceAll(' ', ''));
        },
      ),
    );
  });

  test('with a name marked in them keep to the same', () => {
    fc.assert(
      fc.property(
        fc.string({ unit: 'grapheme', minLength: 1 }),
        fc.constantFrom('no', 'not sure', 'laptop'),
        fc.integer({ min: 40, max: 300 }),
        (label, name, width) => {
          const tokens = markedAnswer(name, plain(label));
          const { lines, cut } = mixedLines(tokens, width, 2, measure);
          for (const line of lines) {
            expect(mixedPlaces(line, measure).ends.at(-1)).toBeLessThanOrEqual(width + 0.001);
          }
          if (!cut) expect(lines.flat()).toEqual(tokens);
        },
      ),
    );
  });

  test('are shortened after a whole word', () => {
    const width = measure('The whole drive mak', style);
    expect(shortened('The whole drive, makes a noise', style, width, measure)).toBe('The whole drive…');
  });

  test.each([
    ['ticking', 'Faint ticking', ['answer Faint', 'answerName ticking']],
    ['whirr', 'Whirring or rattling', ['answerName Whirring', 'answer or rattling']],
    ['not sure', "I'm not sure", ["answer I'm", 'answerName not sure']],
    ['clock', 'It said the date was lost', ['answerName clock:', 'answer It said the date was lost']],
    ['in', 'Inside a laptop', ['answerName in:', 'answer Inside a laptop']],
  ])('the name %s is told apart in "%s"', (name, label, expected) => {
    expect(runsOf(markedAnswer(name, label)).map(run => `${run.style} ${run.text}`)).toEqual(expected);
  });
});

describe('conditions', () => {
  test.each<[Condition, string]>([
    [{ machine: 'here' }, 'machine is here'],
    [{ noise: ['ticking', 'spin-up', 'not-sure'] }, 'noise is ticking, spin up or not sure'],
    [{ 'policy.firmware': 'allowed', suspect: 'no' }, 'policy firmware is allowed, and not suspect'],
    [{ suspect: 'yes', 'hardware-failure': 'no' }, 'suspect and not hardware failure'],
    [{ not: { machine: 'here' } }, 'not (machine is here)'],
    [
      { any: [{ noise: 'whirr', source: 'laptop' }, { noise: 'beeping' }] },
      '(noise is whirr, and source is laptop), or noise is beeping',
    ],
  ])('%j reads "%s"', (when, expected) => {
    expect(inWords(when)).toBe(expected);
  });
});

test('widths are those of the font: another reader of it measures the same', () => {
  const texts = [...new Set(subjects.map(({ about }) => about))];
  const [regular] = fontFiles();
  for (const text of texts) {
    const svg = `<svg xmlns="http://www.w3.org/2000/svg" width="9000" height="99"><text y="60" font-family="${FAMILY}" font-size="40">${words(text).svg}</text></svg>`;
    const font = { loadSystemFonts: false, fontFiles: [regular!], defaultFontFamily: FAMILY };
    const drawn = new Resvg(svg, { font }).getBBox()!.width;
    const measured = measure(text, { size: 40, weight: 'regular' });
    // The reader leaves out the space beside the first and last letter, and draws some pairs closer.
    expect(drawn / measured, text).toBeLessThan(1.005);
    expect(drawn / measured, text).toBeGreaterThan(0.97);
  }
});

describe('SVG', () => {
  test('carries any text whole and nothing but text', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'binary' }), text => {
        const xml = element('text', { title: text }, words(text)).svg;
        const read = readXml(xml);
        const allowed = text
          .replace(/[^\t\n\r\u{20}-\u{D7FF}\u{E000}-\u{FFFD}\u{10000}-\u{10FFFF}]/gu, '\u{FFFD}')
          .replace(/\r\n?/g, '\n');
        expect(nodesIn(read)).toHaveLength(1);
        expect(read.children.join('').replace(/\r\n?/g, '\n')).toBe(allowed);
      }),
    );
  });
});
