/** Messages of Teams drawn by the official library in a real browser, at the width that Teams gives a card. */
import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import type { Browser, Page } from 'playwright-core';
import { colours, host } from './host.ts';
import type { Json } from './teams.ts';

const LIBRARY = readFileSync(
  fileURLToPath(import.meta.resolve('adaptivecards/dist/adaptivecards.min.js')),
  'utf8',
);
const LETTERS = ['400Regular/SourceSans3_400Regular.ttf', '600SemiBold/SourceSans3_600SemiBold.ttf'].map(
  file =>
    readFileSync(fileURLToPath(import.meta.resolve(`@expo-google-fonts/source-sans-3/${file}`))).toString(
      'base64',
    ),
);

export type Theme = 'light' | 'dark';

/** Pixels. A card in Teams is as wide as its column: most of a phone's screen, 600 at most on a desk. */
export const WIDTHS = { phone: 360, desk: 720 } as const;

export async function drawing(
  browser: Browser,
  activities: Json[],
  width: keyof typeof WIDTHS,
  theme: Theme = 'light',
): Promise<Page> {
  const page = await browser.newPage({
    viewport: { width: WIDTHS[width], height: 720 },
    deviceScaleFactor: 2,
  });
  await page.setContent(`<!doctype html><style>${css(theme)}</style><main></main>`);
  await page.addScriptTag({ content: LIBRARY });
  // The library measures buttons as it draws them, so the letters have to be there first.
  await page.evaluate(async () => {
    const { document } = globalThis as unknown as { document: Json };
    await Promise.all(
      ['400', '600', '700'].map(weight => document.fonts.load(`${weight} 14px "Source Sans 3"`, 'Ab')),
    );
  });
  await page.evaluate(
    ({ activities, config }) => {
      const { AdaptiveCards: AC, document } = globalThis as unknown as {
        AdaptiveCards: Json;
        document: Json;
      };
      for (const activity of activities) {
        const said = document.createElement('div');
        document.querySelector('main').append(said);
        const content = activity.attachments?.[0]?.content;
        if (content === undefined) {
          said.className = 'text';
          // Teams' Markdown is drawn as paragraphs; references are what they stand for.
          for (const paragraph of activity.text.split('\n\n')) {
            const p = document.createElement('p');
            p.innerHTML = paragraph.replace(/\*\*(.+?)\*\*/g, '<b>$1</b>').replace(/\*(.+?)\*/g, '<i>$1</i>');
            said.append(p);
          }
          continue;
        }
        said.className = 'card';
        const card = new AC.AdaptiveCard();
        card.hostConfig = new AC.HostConfig(config);
        card.parse(content);
        said.append(card.render());
      }
    },
    { activities, config: host(theme) },
  );
  return page;
}

/** Buttons and fields near to Teams' own: the library leaves them to its host. */
function css(theme: Theme): string {
  const { text, subtle, page, card, accent } = colours(theme);
  const faces = LETTERS.map(
    (data, index) =>
      `@font-face{font-family:'Source Sans 3';font-weight:${index === 0 ? 400 : 600};src:url(data:font/ttf;base64,${data})}`,
  );
  return `${faces.join('')}
body{margin:0;background:${page};color:${text};font:14px 'Source Sans 3',sans-serif}
main{padding:8px;display:flex;flex-direction:column;gap:10px}
.card,.text{background:${card};border-radius:4px;max-width:600px;box-shadow:0 0 2px #0003}
.text{padding:8px 16px}.text p{margin:6px 0}
.ac-pushButton{font:600 14px 'Source Sans 3',sans-serif;min-height:32px;padding:4px 12px;border:1px solid ${subtle}55;border-radius:4px;background:${card};color:${text};max-width:100%;overflow:hidden;text-overflow:ellipsis;white-space:nowrap}
.ac-input{font:14px 'Source Sans 3',sans-serif;background:${page};color:${text};border:1px solid ${subtle}55;border-radius:4px;padding:6px}
.ac-anchor,a{color:${accent}}`;
}

/** How wide it came out, what stands there, and the words of buttons that are cut off. */
export const seenOn = (page: Page) =>
  page.evaluate(() => {
    const { document } = globalThis as unknown as { document: Json };
    const buttons: Json[] = [...document.querySelectorAll('.ac-pushButton')];
    return {
      width: document.documentElement.scrollWidth,
      cards: document.querySelectorAll('.ac-adaptiveCard').length,
      buttons: buttons.length,
      cut: buttons
        .filter(button =>
          // The words are in an element of their own, which hides what does not fit.
          [button, ...button.querySelectorAll('*')].some(
            each => each.clientWidth > 0 && each.scrollWidth > each.clientWidth + 1,
          ),
        )
        .map(each => each.textContent),
      choices: document.querySelectorAll('.ac-adaptiveCard input[type=radio], .ac-adaptiveCard option')
        .length,
    };
  });
