/** People at the web chat: a real browser, the real server in a process of its own. */

import qr from 'jsqr';
import type { Browser } from 'playwright-core';
import sharp from 'sharp';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { openStore } from '#store/open.ts';
import { type As, launch, person } from '../support/browser.ts';
import { type Serving, serving } from '../support/serving.ts';
import { shutsOut, tooWide } from '../support/shut-out.ts';
import { type Visit, visit } from '../support/visit.ts';

let site: Serving;
let browser: Browser;

beforeAll(async () => {
  site = await serving();
  [browser] = await Promise.all([launch(), site.start()]);
});
afterAll(async () => {
  await browser.close();
  await site.remove();
});

const arrive = async (as: As = {}): Promise<Visit> => visit(await person(browser, as), site.base);
const leave = async ({ page, faults }: Visit) => {
  expect(faults).toEqual([]);
  await page.context().close();
};

async function whole(talk: Visit, wanted: string[], texts: string[]): Promise<void> {
  for (let asked = 0; asked < 30 && !(await talk.ended()); asked++) {
    if (!(await talk.answer(wanted))) await talk.say(texts[asked % texts.length]!);
  }
}
const STICK = ['none', 'yes', 'stick', 'seen', 'no-drive', 'fixed', 'not-sure'];
const CLICKS = ['off', 'nowhere', 'me-stopped', 'today', 'brackwater', 'yes', 'not-sure'];

const photo = () =>
  sharp({ create: { width: 300, height: 200, channels: 3, background: '#203040' } })
    .withExif({ IFD0: { Make: 'Maker' } })
    .jpeg()
    .toBuffer();

describe.each<As>([
  { width: 360, dark: true },
  { width: 1280, dark: false },
])('at $width pixels, dark: $dark', as => {
  test('a stick was left in: from the first page to solved, and nobody is shut out', async () => {
    const talk = await arrive(as);
    expect(await shutsOut(talk.page)).toEqual([]);
    expect(await tooWide(talk.page)).toBeLessThanOrEqual(0);
    await talk.say('my pc says no bootable device, I had a usb stick in it');
    expect(await shutsOut(talk.page)).toEqual([]);
    expect(await tooWide(talk.page)).toBeLessThanOrEqual(0);
    await whole(talk, STICK, ['no']);
    expect(await talk.page.locator('.ending-fixed').count()).toBe(1);
    expect(await shutsOut(talk.page)).toEqual([]);
    await leave(talk);
  });
});

describe('a clicking drive, with a photo', () => {
  let talk: Visit;
  beforeAll(async () => {
    talk = await arrive({ width: 360, dark: true });
    await talk.say('the hard disk in my pc makes a clicking noise');
  });
  afterAll(() => leave(talk));

  test('the caution comes at once, and the photo stands in the talk', async () => {
    expect(await talk.page.locator('.caution').count()).toBeGreaterThan(0);
    await talk.picture(await photo());
    const shown = talk.page.locator('.shot img');
    await shown.scrollIntoViewIfNeeded();
    await expect
      .poll(() => talk.page.evaluate<number>('document.querySelector(".shot img").naturalWidth'), {
        timeout: 10_000,
      })
      .toBe(300);
  });

  test('it ends with a card: number, what happens next, what to do and not do', async () => {
    await whole(talk, CLICKS, ['First time, nothing', 'Room 12, 555-0142']);
    const card = talk.page.locator('.hand-over');
    expect(await card.locator('.hand-over-number').textContent()).toMatch(/^R-\d+$/);
    const text = await card.textContent();
    for (const part of ['What happens next', 'Please do', 'Please do not', 'Do not switch it on again'])
      expect(text).toContain(part);
    expect(await shutsOut(talk.page)).toEqual([]);
    expect(await tooWide(talk.page)).toBeLessThanOrEqual(0);
  });

  test('the photo is on the ticket, without what the camera wrote into it', async () => {
    const number = Number((await talk.page.locator('.hand-over-number').textContent())!.slice(2));
    const store = await openStore(site.database);
    const ticket = await store.ticket(number);
    expect(ticket?.ticket.attachments).toHaveLength(1);
    const file = await store.file(ticket!.ticket.attachments[0]!.id);
    expect((await sharp(file!.content).metadata()).exif).toBeUndefined();
    await store.close();
  });

  test('the card can be copied as text', async () => {
    await talk.page.context().grantPermissions(['clipboard-read', 'clipboard-write']);
    await talk.page.click('[data-copies]');
    const copied = await talk.page.evaluate<string>('navigator.clipboard.readText()');
    expect(copied).toMatch(/^Ticket\nR-\d+\n/);
    expect(copied).toContain('- Do not switch it on again');
    expect(copied).not.toContain('Print');
  });

  test('on paper there is the card, and nothing that one would press', async () => {
    await talk.page.emulateMedia({ media: 'print' });
    expect(await talk.page.locator('.hand-over').isVisible()).toBe(true);
    for (const other of ['#box', '#so-far', '.hand-over-tools', '.caution', '.top nav'])
      expect(await talk.page.locator(other).first().isVisible()).toBe(false);
    await talk.page.emulateMedia({ media: 'screen' });
  });

  test('a square to scan opens the same talk on another device, where it goes on', async () => {
    await talk.page.click('.hand-over-keep button');
    await talk.page.waitForURL('**/keep');
    const address = await talk.page.locator('#address').inputValue();
    const { data, info } = await sharp(await talk.page.locator('.qr').screenshot())
      .ensureAlpha()
      .raw()
      .toBuffer({ resolveWithObject: true });
    expect(qr.default(new Uint8ClampedArray(data), info.width, info.height)?.data).toBe(address);
    expect(await shutsOut(talk.page)).toEqual([]);

    const phone = await visit(await person(browser, { width: 360 }), address);
    expect(await phone.page.locator('h1').textContent()).toContain('Go on with this conversation here?');
    expect(await shutsOut(phone.page)).toEqual([]);
    await phone.page.click('button.go');
    await phone.page.waitForURL(`${site.base}/**`);
    await phone.say('It also smells of nothing, if that helps');
    await leave(phone);

    await talk.page.goto(site.base);
    expect(await talk.page.locator('#thread').textContent()).toContain('It also smells of nothing');
    // Once there is a link, the card carries the square, so that it is on paper too.
    expect(await talk.page.locator('.hand-over .qr').count()).toBe(1);
  });
});

describe('changing what one said', () => {
  test('any earlier answer can be changed, after being told what that takes back', async () => {
    const talk = await arrive({ width: 1280 });
    await talk.say('my pc makes a clicking noise');
    const first = await talk.question();
    await talk.answer(['not-sure']);
    await talk.answer(['not-sure']);
    const change = talk.page.locator('#thread .change').first();
    await change.locator('summary').click();
    expect(await change.locator('li').count()).toBe(2);
    await change.locator('button').click();
    await expect.poll(() => talk.question()).toBe(first);
    expect(await talk.page.locator('.taken-back').count()).toBe(2);
    expect(await shutsOut(talk.page)).toEqual([]);
    await leave(talk);
  });

  test('back, start again, a person and stop are there at a question', async () => {
    const talk = await arrive();
    await talk.say('my pc makes a clicking noise');
    const first = await talk.question();
    await talk.answer(['not-sure']);
    await talk.always('back');
    expect(await talk.question()).toBe(first);
    await talk.always('again');
    await talk.say('no boot device found');
    await talk.always('person');
    expect(await talk.page.locator('.hand-over').count()).toBe(1);
    await leave(talk);
  });
});

describe('nothing is lost', () => {
  test('a reload shows the same, and what was typed and not sent is still there', async () => {
    const talk = await arrive();
    await talk.say('my pc makes a clicking noise');
    await talk.answer(['not-sure']);
    const question = await talk.question();
    const words = async () => (await talk.page.locator('#thread').textContent())!.replace(/\s+/g, ' ').trim();
    const said = await words();
    await talk.page.fill('#text', 'half a sentence');
    await talk.page.reload();
    expect(await talk.question()).toBe(question);
    expect(await words()).toBe(said);
    expect(await talk.page.locator('#text').inputValue()).toBe('half a sentence');
    await leave(talk);
  });

  test('two tabs stay in step', async () => {
    const talk = await arrive();
    const other = await visit(talk.page.context(), site.base);
    await talk.say('my pc makes a clicking noise');
    const first = await talk.question();
    await expect.poll(() => other.question()).toBe(first);
    await other.answer(['not-sure']);
    await expect.poll(() => talk.question()).toBe(await other.question());
    await leave(talk);
  });

  test('offline one is told so; what is written meanwhile is sent once when it is back', async () => {
    const talk = await arrive();
    await talk.say('my pc makes a clicking noise');
    await talk.page.context().setOffline(true);
    await talk.page.fill('#text', 'I am not sure');
    await talk.page.click('.send');
    await talk.page.locator('#away:not([hidden])').waitFor();
    expect(await talk.page.locator('#waiting').textContent()).toContain('I am not sure');
    expect(await shutsOut(talk.page)).toEqual([]);
    await talk.page.context().setOffline(false);
    await talk.page.locator('#waiting').waitFor({ state: 'detached' });
    expect(await talk.page.locator('#away').isHidden()).toBe(true);
    expect(await talk.page.locator('.bubble', { hasText: 'I am not sure' }).count()).toBe(1);
    await leave(talk);
  });

  test('the server is killed and comes back: said meanwhile, even with the page closed, arrives once', async () => {
    const talk = await arrive();
    await talk.say('my pc makes a clicking noise');
    const question = await talk.question();
    await site.stop('SIGKILL');
    await talk.page.fill('#text', 'I am not sure');
    await talk.page.click('.send');
    await talk.page.locator('#away:not([hidden])').waitFor();
    await site.start();
    await expect.poll(() => talk.question(), { timeout: 30_000 }).not.toBe(question);
    expect(await talk.page.locator('#away').isHidden()).toBe(true);

    const next = await talk.question();
    await site.stop();
    await talk.page.fill('#text', 'not sure about that either');
    await talk.page.click('.send');
    await talk.page.locator('#away:not([hidden])').waitFor();
    await talk.page.close();
    await site.start();
    const again = await visit(talk.page.context(), site.base);
    await expect.poll(() => again.question(), { timeout: 30_000 }).not.toBe(next);
    await again.page.locator('#waiting').waitFor({ state: 'detached' });
    expect(await again.page.locator('.bubble', { hasText: 'not sure about that either' }).count()).toBe(1);
    await leave(again);
  });
});

describe('somebody in a hurry', () => {
  test('a double click answers one question, not two', async () => {
    const talk = await arrive();
    await talk.say('my pc makes a clicking noise');
    await talk.page.waitForTimeout(420);
    const before = await talk.page.locator('#thread .person').count();
    await talk.page.locator('#now .answers button').last().dblclick();
    await expect.poll(() => talk.page.locator('#thread .person').count()).toBe(before + 1);
    await talk.page.reload();
    expect(await talk.page.locator('#thread .person').count()).toBe(before + 1);
    await leave(talk);
  });

  test('40,000 characters and more are taken, cut with a word about it, and folded away', async () => {
    const talk = await arrive();
    await talk.page.fill('#text', `my pc makes a clicking noise ${'x'.repeat(45_000)}`);
    await talk.page.click('.send');
    await talk.page.locator('.long').waitFor({ timeout: 30_000 });
    expect(await talk.page.locator('#thread').textContent()).toContain('kept the first 40,000');
    expect(await tooWide(talk.page)).toBeLessThanOrEqual(0);
    await leave(talk);
  });

  test('by keyboard alone: Enter sends, focus is on the question, and what is new is read out', async () => {
    const talk = await arrive({ width: 1280 });
    await talk.page.fill('#text', 'my pc makes a clicking noise');
    await talk.page.keyboard.press('Enter');
    await talk.page.locator('#now .answers').waitFor();
    expect(await talk.page.locator('#live').textContent()).toContain((await talk.question())!);
    await talk.page.waitForTimeout(420);
    await talk.page.locator('#now .answers button').last().focus();
    const question = await talk.question();
    await talk.page.keyboard.press('Enter');
    await expect.poll(() => talk.question()).not.toBe(question);
    expect(await talk.page.evaluate('document.activeElement.id')).toBe('question');
    await leave(talk);
  });

  test('a HEIC picture is refused with a way out', async () => {
    const talk = await arrive();
    await talk.say('my pc makes a clicking noise');
    const heic = Buffer.concat([Buffer.from([0, 0, 0, 24]), Buffer.from('ftypheic0000mif1heic')]);
    await talk.page.setInputFiles('#picture-box', {
      name: 'IMG_1.HEIC',
      mimeType: 'image/heic',
      buffer: heic,
    });
    await talk.page.locator('#away:not([hidden])').waitFor();
    expect(await talk.page.locator('#away').textContent()).toContain('Most Compatible');
    expect(await talk.page.locator('#waiting').count()).toBe(0);
    await leave(talk);
  });
});

describe('without JavaScript', () => {
  test('the whole talk by forms, a picture too', async () => {
    const context = await person(browser, { javaScript: false });
    const page = await context.newPage();
    await page.goto(site.base);
    await page.fill('#text', 'my pc makes a clicking noise');
    await page.click('.send');
    expect(await tooWide(page)).toBeLessThanOrEqual(0);
    await page.setInputFiles('#picture-box', {
      name: 'a.jpg',
      mimeType: 'image/jpeg',
      buffer: await photo(),
    });
    await page.click('.picture-box noscript button, .picture-box button');
    expect(await page.locator('.shot').count()).toBe(1);
    for (let asked = 0; asked < 25 && (await page.locator('.hand-over').count()) === 0; asked++) {
      const answers = page.locator('#now .answers button');
      if ((await answers.count()) > 0) await answers.last().click();
      else {
        await page.fill('#text', 'Room 12, 555-0142');
        await page.click('.send');
      }
    }
    expect(await page.locator('.hand-over-number').textContent()).toMatch(/^R-\d+$/);
    expect(await tooWide(page)).toBeLessThanOrEqual(0);
    await context.close();
  });
});

test.each([
  ['de-DE', 'Was ist los?', 'Zurück'],
  ['fr-CA', "Qu'est-ce qui ne va pas ?", 'Retour'],
  ['es-MX', '¿Qué pasa?', 'Atrás'],
])('a browser in %s gets the standing words in its language', async (locale, title, back) => {
  const talk = await arrive({ width: 360, locale });
  expect(await talk.question()).toBe(title);
  await talk.say('my pc makes a clicking noise');
  await talk.answer(['not-sure']);
  expect(await talk.page.locator('#standing button[value="back"]').textContent()).toBe(back);
  expect(await shutsOut(talk.page)).toEqual([]);
  expect(await tooWide(talk.page)).toBeLessThanOrEqual(0);
  await leave(talk);
});
