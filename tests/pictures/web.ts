/** Pictures of the web chat from real conversations, for the documentation: `npm run pictures`. */
import { mkdirSync } from 'node:fs';
import type { Page } from 'playwright-core';
import sharp from 'sharp';
import { type As, launch, person } from '../support/browser.ts';
import { serving } from '../support/serving.ts';
import { type Visit, visit } from '../support/visit.ts';

/** Given a folder, every picture goes there. */
const FOLDER = process.argv[2] ?? 'docs/pictures';
const ALL = process.argv[2] !== undefined;

const LOOKS: [string, As][] = [
  ['phone', { width: 360 }],
  ['phone-dark', { width: 360, dark: true }],
  ['desk', { width: 1280 }],
  ['desk-dark', { width: 1280, dark: true }],
];

mkdirSync(FOLDER, { recursive: true });
const site = await serving();
await site.start();
const browser = await launch();

/** All are worth a look; these are kept with the documentation. */
const KEPT = [
  'first-phone',
  'question-phone',
  'photo-phone-dark',
  'hand-over-phone',
  'fixed-phone-dark',
  'question-desk',
  'hand-over-desk-dark',
  'keep-desk',
];

/** Few colours make small files. */
const shoot = async (page: Page, name: string) => {
  if (!ALL && !KEPT.includes(name)) return;
  const picture = await page.screenshot();
  await sharp(picture).png({ palette: true, colours: 96, effort: 10 }).toFile(`${FOLDER}/web-${name}.png`);
};

try {
  for (const [look, as] of LOOKS) await pictures(look, as);
} finally {
  await browser.close();
  await site.remove();
}

async function pictures(look: string, as: As): Promise<void> {
  const fixed = await visit(await person(browser, as), site.base);
  await shoot(fixed.page, `first-${look}`);
  await fixed.say('my pc says no bootable device, I had a usb stick in it');
  await shoot(fixed.page, `question-${look}`);
  await toFixed(fixed);
  await shoot(fixed.page, `fixed-${look}`);
  await fixed.page.context().close();

  const clicking = await visit(await person(browser, as), site.base);
  await clicking.say('the hard disk in my pc makes a clicking noise');
  await shoot(clicking.page, `caution-${look}`);
  await clicking.picture(await photo());
  const shown = clicking.page.locator('main img').last();
  await shown.evaluate(picture => (picture as { decode(): Promise<void> }).decode());
  await shown.evaluate(picture => picture.scrollIntoView({ block: 'center' }));
  await clicking.page.waitForTimeout(300);
  await shoot(clicking.page, `photo-${look}`);
  await toHandOver(clicking);
  await clicking.page.locator('.hand-over').evaluate(card => card.scrollIntoView());
  await shoot(clicking.page, `hand-over-${look}`);
  await clicking.page.click('.hand-over-keep button');
  await clicking.page.waitForURL('**/keep');
  await shoot(clicking.page, `keep-${look}`);
  await clicking.page.goto(`${site.base}/go/${'A'.repeat(43)}`);
  await shoot(clicking.page, `expired-${look}`);
  await clicking.page.context().close();
}
async function toFixed(talk: Visit): Promise<void> {
  for (let asked = 0; asked < 12 && !(await talk.ended()); asked++) {
    await talk.answer(['none', 'yes', 'stick', 'desktop', 'seen', 'no-drive', 'fixed', 'not-sure']);
  }
}

async function toHandOver(talk: Visit): Promise<void> {
  for (let asked = 0; asked < 25 && !(await talk.ended()); asked++) {
    if (await talk.answer(['none', 'off', 'nowhere', 'me-stopped', 'today', 'brackwater', 'yes', 'not-sure']))
      continue;
    const where = (await talk.question())?.includes('room');
    await talk.say(
      where
        ? 'Room 3.07, third floor; my mobile is 555-0142'
        : 'Since this morning; nothing changed, nobody tried anything',
    );
  }
}

/** What a phone would send: a dark screen with a message on it. */
function photo(): Promise<Buffer> {
  const screen = `<svg xmlns="http://www.w3.org/2000/svg" width="640" height="420"><rect width="640" height="420" fill="#0b0f14"/><text x="40" y="120" fill="#e8e8e8" font-size="26" font-family="monospace">Hard disk 0: not responding</text><text x="40" y="170" fill="#e8e8e8" font-size="26" font-family="monospace">Press any key to continue _</text></svg>`;
  return sharp(Buffer.from(screen)).jpeg().toBuffer();
}
