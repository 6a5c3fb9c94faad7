/** One person at the web chat, in a real browser. */
import type { BrowserContext, Page } from 'playwright-core';

export interface Visit {
  page: Page;
  /** Errors of the page's scripts and refusals of its policy. */
  faults: string[];
  /** Types and sends, and waits for what comes of it. */
  say(text: string): Promise<void>;
  /** Presses the first of these answers that is there, or the last one; false when there are no answers to press. */
  answer(wanted: string[]): Promise<boolean>;
  press(answer: string): Promise<void>;
  always(what: 'back' | 'again' | 'person' | 'stop'): Promise<void>;
  picture(content: Buffer, name?: string): Promise<void>;
  question(): Promise<string | null>;
  ended(): Promise<boolean>;
}

export async function visit(context: BrowserContext, base: string): Promise<Visit> {
  const page = await context.newPage();
  const faults: string[] = [];
  page.on('pageerror', error => faults.push(String(error)));
  page.on('console', message => {
    if (message.type() === 'error' && /Content Security Policy|Refused/.test(message.text()))
      faults.push(message.text());
  });
  await page.goto(base);
  const newest = () => page.locator('body').getAttribute('data-newest');
  /** Does something, and waits until news of it are on the page. */
  const awaiting = async (work: () => Promise<unknown>) => {
    const before = await newest();
    await work();
    await page.locator(`body:not([data-newest="${before}"])`).waitFor({ state: 'attached' });
    await page.locator('#waiting').waitFor({ state: 'detached' });
  };
  const press = async (answer: string) => {
    // As a person does: not within the moment in which a new question is taken for a double click's second half.
    await page.waitForTimeout(420);
    await awaiting(() => page.click(`#now .answers button[value="${answer}"]`));
  };
  return {
    page,
    faults,
    press,
    say: text =>
      awaiting(async () => {
        await page.fill('#text', text);
        await page.click('.send');
      }),
    async answer(wanted) {
      const buttons = await page.locator('#now .answers button').all();
      const there = await Promise.all(buttons.map(button => button.getAttribute('value')));
      const answer = wanted.find(each => there.includes(each)) ?? there.at(-1);
      if (answer === undefined || answer === null) return false;
      await press(answer);
      return true;
    },
    always: what =>
      awaiting(async () => {
        if (what === 'again') await page.click('.again summary');
        await page.click(`#standing button[value="${what}"]`);
      }),
    picture: (content, name = 'screen.jpg') =>
      awaiting(() => page.setInputFiles('#picture-box', { name, mimeType: 'image/jpeg', buffer: content })),
    question: () =>
      page
        .locator('#question')
        .textContent({ timeout: 500 })
        .catch(() => null),
    ended: async () => (await page.locator('.ending, .hand-over').count()) > 0,
  };
}
