/** Pictures of what the desk sees in Teams: `node tests/pictures/teams-desk.ts FOLDER`. */
import { mkdirSync } from 'node:fs';
import { message } from '#channels/teams/render.ts';
import { launch } from '../support/browser.ts';
import { type Dialog, desk } from '../support/teams/desk.ts';
import { drawing } from '../support/teams/drawing.ts';
import type { Json } from '../support/teams/teams.ts';

const [folder] = process.argv.slice(2);
if (folder === undefined) throw new Error('Say into which folder the pictures go.');
mkdirSync(folder, { recursive: true });
const site = await desk();
const browser = await launch();

async function shoot(name: string, activities: Json[]): Promise<void> {
  for (const [width, theme] of [
    ['phone', 'light'],
    ['desk', 'light'],
    ['desk', 'dark'],
  ] as const) {
    const page = await drawing(browser, activities, width, theme);
    await page.locator('main').screenshot({ path: `${folder}/${name}-${width}-${theme}.png` });
    await page.close();
  }
}
const dialog = (name: string, shown: Dialog) => {
  if (shown === null || 'words' in shown) throw new Error(`${name}: ${JSON.stringify(shown)}`);
  return shoot(name, [message(shown.card, '')]);
};

try {
  const ben = site.person({ name: 'Ben Cole' });
  await ben.say('the drive in my pc is clicking, and the report for the board is on it');
  await site.settled();
  for (let turn = 0; turn < 30; turn++) {
    const flat = JSON.stringify(ben.shown().at(-1)!.activity);
    const buttons = [...flat.matchAll(/"a":"([^"]+)"/g)].map(([, id]) => id!);
    const choices = [...flat.matchAll(/"value":"([^"]+)"/g)].map(([, id]) => id!);
    if (buttons.length > 0) await ben.press(buttons.includes('yes') ? 'yes' : buttons[0]!);
    else if (choices.length > 0) await ben.press('say:answer', { answer: choices[0] });
    else if (flat.includes('say:always')) await ben.say('555 0123, room 12');
    else break;
    await site.settled();
  }
  const [card] = site.threads();
  const shown = () => site.teams.shown(card!.conversation).map(({ activity }) => activity);
  await shoot('card', shown().slice(0, 1));
  await dialog('details', await site.bo.opens(card!, 'All details'));
  const ask = await site.bo.opens(card!, 'Ask the person');
  await dialog('ask', ask);
  await dialog('close', await site.bo.opens(card!, 'Close'));
  const more = await site.bo.opens(card!, 'More');
  await dialog('more', more);
  const rank = await site.bo.sends(card!, more, 'Set the priority');
  await dialog('refused', await site.bo.sends(card!, rank, 'Set', { priority: 'low', reason: '' }));
  await dialog('wait', await site.bo.sends(card!, more, 'Let it wait until'));
  const bench = await site.bo.sends(card!, more, 'Bench');
  await dialog('bench', bench);
  const form = await site.bo.sends(card!, bench, 'Fill in', { working: 'array' });
  await dialog('working', form);
  const fill = await site.bo.sends(card!, bench, 'Fill in', { working: 'copy-time' });
  const given = { sets: 'name: photos; gigabytes: 300', from: 'spinning', link: 'usb-2' };
  await dialog('result', await site.bo.sends(card!, fill, 'Work it out', given));
  await site.bo.press(card!, 'Take it');
  await site.bo.sends(card!, ask, 'Ask', { text: 'Is the light on?' });
  await site.settled();
  await ben.say('yes, blue');
  await site.settled();
  await shoot('thread', shown());
  await site.bo.sends(card!, await site.bo.opens(card!, 'Close'), 'Close it', {
    fault: '-',
    words: 'A cat.',
  });
  await site.settled();
  await shoot('closed', shown().slice(0, 1));
  await site.bo.says('outage');
  const thread = '19:desk@thread.tacv2;messageid=1764000000001';
  await site.teams.until(() => site.teams.shown(thread).length > 0);
  const offer = { conversation: thread, id: site.teams.shown(thread)[0]!.id };
  await dialog('outage-form', await site.bo.opens(offer, 'An outage'));
} finally {
  await browser.close();
  await site.close();
}
