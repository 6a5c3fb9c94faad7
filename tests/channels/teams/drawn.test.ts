/** Cards as the official library draws them in a real browser, on a phone and on a desk. */
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { drawn } from '#channels/teams/render.ts';
import { wordsFor } from '#channels/teams/words.ts';
import { isQuestion } from '#engine/messages.ts';
import { launch } from '../../support/browser.ts';
import { firstTime } from '../../support/first-time.ts';
import { drawing, seenOn, WIDTHS } from '../../support/teams/drawing.ts';
import { FLOWS, saidIn } from '../../support/teams/said.ts';

let browser: Browser;
beforeAll(async () => {
  browser = await launch();
});
afterAll(() => browser.close());

const look = (locale: string) => ({
  words: wordsFor(locale),
  locale,
  zone: 'Europe/Berlin',
  conversation: 'twelve-chars',
  owner: null,
  name: null,
  bot: 'a-bot',
  now: 1_764_000_000_000,
});

test.each([
  ['phone', 'en'],
  ['phone', 'de'],
  ['phone', 'fr'],
  ['phone', 'es'],
  ['desk', 'en'],
] as const)('on a %s, in %s, nothing is cut off and every answer can be pressed', async (width, locale) => {
  const flows = locale === 'en' && width === 'phone' ? FLOWS : FLOWS.slice(0, 3);
  // Every question once, and what else is said.
  const isNew = firstTime();
  const said = flows.flatMap(saidIn).filter(turn => {
    const question = turn.findLast(isQuestion);
    return isNew(question === undefined ? turn : { ...question, number: 0, left: null });
  });
  const activities = said.map(messages => drawn(messages, look(locale)));
  const page = await drawing(browser, activities, width);
  const seen = await seenOn(page);
  await page.close();
  expect(seen.width).toBeLessThanOrEqual(WIDTHS[width]);
  expect([...new Set(seen.cut)]).toEqual([]);
  expect(seen.cards).toBe(activities.filter(({ attachments }) => attachments !== undefined).length);
  const answers = said.flatMap(messages => messages.findLast(isQuestion)?.answers ?? []).length;
  expect(seen.buttons + seen.choices).toBeGreaterThan(answers);
});
