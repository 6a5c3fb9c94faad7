/** A real browser out of an npm package, as a phone or as a desk's screen. */
import chromium from '@sparticuz/chromium';
import { type Browser, type BrowserContext, chromium as playwright } from 'playwright-core';

export const launch = async (): Promise<Browser> =>
  playwright.launch({
    executablePath: await chromium.executablePath(),
    args: ['--no-sandbox', '--headless=shell', '--disable-gpu', '--font-render-hinting=none'],
  });

export interface As {
  width?: 360 | 1280;
  dark?: boolean;
  javaScript?: boolean;
  locale?: string;
}

/** One person's browser: cookies, storage and window of their own. */
export async function person(browser: Browser, as: As = {}): Promise<BrowserContext> {
  const { width = 360, dark = false, javaScript = true, locale = 'en-GB' } = as;
  const context = await browser.newContext({
    viewport: width === 360 ? { width, height: 720 } : { width, height: 900 },
    hasTouch: width === 360,
    isMobile: width === 360,
    colorScheme: dark ? 'dark' : 'light',
    reducedMotion: 'reduce',
    javaScriptEnabled: javaScript,
    locale,
    timezoneId: 'Europe/Berlin',
  });
  context.setDefaultTimeout(15_000);
  return context;
}
