import { Resvg } from '@resvg/resvg-js';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { draw, layOut } from '#drawing/draw.ts';
import { subjectOf, type Written } from '#drawing/written.ts';
import { flow } from '#engine/schema.ts';
import { measure, nodesIn, readXml, shownIn, titlesIn } from './shipped.ts';

const HOSTILE = `</text></svg><script>alert("1")</script><image href='x' onerror='y'/> ]]> &amp; &lt; <!-- --> {}`;

function writtenWith(text: string): Written {
  const given = flow.parse({
    symptom: 'drive-noise',
    title: text.slice(0, 120),
    steps: [
      {
        id: 'first',
        ask: text,
        answers: { yes: text.slice(0, 75), no: `No ${text.slice(0, 70)}` },
        help: text,
        raises: { yes: ['suspect'] },
      },
      { id: 'second', try: text, effect: 'write', minutes: 5, works: text, fixed: 'fault' },
      { say: text },
      { caution: 'care' },
      { visit: 'block' },
      { hand_over: { because: text } },
    ],
  });
  const block = { block: 'block', about: text, steps: given.steps.slice(0, 1) };
  return {
    flows: { 'drive-noise': given },
    blocks: { block },
    sites: [],
    faults: { fault: text },
    cautions: { care: text },
    policies: {},
  };
}

const picture = (text: string) => {
  const written = writtenWith(text);
  return draw(subjectOf(written, 'flow', 'drive-noise')!, written, measure);
};

describe('text that means harm', () => {
  test('stays text: no element, attribute or reference of its own', async () => {
    const svg = await picture(HOSTILE);
    const nodes = nodesIn(readXml(svg));
    expect(new Set(nodes.map(({ name }) => name))).toEqual(
      new Set(['svg', 'title', 'style', 'defs', 'marker', 'rect', 'g', 'path', 'text', 'circle']),
    );
    expect(nodes.flatMap(({ attributes }) => Object.keys(attributes))).not.toContain('onerror');
    expect(titlesIn(readXml(svg))).toContain('<script>alert("1")</script>');
    expect(shownIn(readXml(svg))).toContain('<script>');
  });

  test('of any kind gives a well-formed picture whose words stay in their boxes', async () => {
    const text = fc.oneof(
      fc.string({ unit: 'binary', minLength: 1, maxLength: 400 }),
      fc.string({ unit: 'grapheme', minLength: 1, maxLength: 400 }),
      // One word that no line holds.
      fc.string({ unit: fc.constantFrom('W', '<', '中', '🚨'), minLength: 200, maxLength: 400 }),
    );
    await fc.assert(
      fc.asyncProperty(
        text.filter(each => each.trim() !== '' && each.slice(0, 70).trim() !== ''),
        async given => {
          const written = writtenWith(given);
          const subject = subjectOf(written, 'flow', 'drive-noise')!;
          const { columns } = await layOut(subject, written, measure);
          for (const { box } of columns.flatMap(({ boxes }) => boxes)) {
            for (const { x, width } of box.words) expect(x + width).toBeLessThanOrEqual(box.width);
          }
          readXml(await draw(subject, written, measure));
        },
      ),
      { numRuns: 15 },
    );
  });

  test('does not stop the PNG either', async () => {
    const png = new Resvg(await picture(HOSTILE), { font: { loadSystemFonts: false } }).render();
    expect(png.width).toBeGreaterThan(0);
  });
});

test('a step that no answer leads to is drawn too, with a broken outline', async () => {
  const given = flow.parse({
    symptom: 'drive-noise',
    title: 'A flow with a dead step',
    steps: [
      { id: 'first', ask: 'Is it on?', answers: { yes: 'Yes', no: 'No' }, goes: { yes: 'last', no: 'last' } },
      { id: 'dead', ask: 'Never asked?', answers: { yes: 'Yes', no: 'No' } },
      { id: 'last', ask: 'Anything else?' },
    ],
  });
  const written: Written = { ...writtenWith('x'), flows: { 'drive-noise': given } };
  const svg = await draw(subjectOf(written, 'flow', 'drive-noise')!, written, measure);
  const broken = nodesIn(readXml(svg)).filter(
    ({ attributes }) => attributes['stroke-dasharray'] !== undefined,
  );
  expect(broken).toHaveLength(1);
  expect(svg).toContain('Never asked?');
});
