/** Pictures of what people see in Teams, for the documentation: `npm run pictures:teams`. Given a folder, every picture goes there. */
import { mkdirSync } from 'node:fs';
import sharp from 'sharp';
import { launch } from '../support/browser.ts';
import { drawing } from '../support/teams/drawing.ts';
import { running } from '../support/teams/running.ts';
import type { Json, Person } from '../support/teams/teams.ts';

const FOLDER = process.argv[2] ?? 'docs/pictures';
const ALL = process.argv[2] !== undefined;
const KEPT = ['question-phone', 'hand-over-phone', 'hand-over-desk'];

mkdirSync(FOLDER, { recursive: true });
const reseat = await running();
const browser = await launch();

async function shoot(name: string, activities: Json[]): Promise<void> {
  for (const [width, theme] of [
    ['phone', 'light'],
    ['phone', 'dark'],
    ['desk', 'light'],
  ] as const) {
    const called = `${name}-${width}${theme === 'dark' ? '-dark' : ''}`;
    if (!ALL && !KEPT.includes(called)) continue;
    const page = await drawing(browser, activities, width, theme);
    const picture = await page.locator('main').screenshot();
    await sharp(picture)
      .png({ palette: true, colours: 96, effort: 10 })
      .toFile(`${FOLDER}/teams-${called}.png`);
    await page.close();
  }
}

const newest = (person: Person, count = 1) =>
  person
    .shown()
    .slice(-count)
    .map(({ activity }) => activity);

/** Answers whatever is asked: what is wanted where it is offered, else the last answer. */
async function onward(person: Person, wanted: string[], where: string, story: string): Promise<boolean> {
  const message = person.shown().at(-1)!.activity;
  const flat = JSON.stringify(message);
  const buttons = [...flat.matchAll(/"a":"([^"]+)"/g)].map(([, id]) => id!);
  const choices = [...flat.matchAll(/"value":"([^"]+)"/g)].map(([, id]) => id!);
  const pick = (from: string[]) => wanted.find(each => from.includes(each)) ?? from.at(-1)!;
  if (buttons.length > 0) await person.press(pick(buttons));
  else if (choices.length > 0) await person.press('say:answer', { answer: pick(choices) });
  else if (flat.includes('say:always')) await person.say(flat.includes('ring you') ? where : story);
  else return false;
  await reseat.settled();
  return true;
}

try {
  const ada = reseat.person();
  await ada.installed();
  await reseat.settled();
  await shoot('welcome', newest(ada));
  await ada.say('my usb stick does not show up');
  await reseat.settled();
  await shoot('question', newest(ada));
  for (let turn = 0; turn < 4 && (await onward(ada, ['none', 'yes'], 'room 12', 'since today')); turn++);
  await shoot('try', newest(ada, 3));

  const ben = reseat.person({ name: 'Ben Cole', locale: 'de-DE' });
  await ben.say('the drive in my pc is clicking');
  await reseat.settled();
  await shoot('caution', newest(ben));
  for (
    let turn = 0;
    turn < 25 &&
    (await onward(ben, ['yes', 'desk'], '555 0123, Raum 12', 'seit heute früh, sonst war nichts'));
    turn++
  );
  await shoot('hand-over', newest(ben, 2));

  const cleo = reseat.person({
    name: 'Cleo Dunn',
    kind: 'channel',
    conversation: '19:team@thread.tacv2;messageid=1764000000000',
  });
  const mention = {
    text: '<at>Reseat</at>',
    mentioned: { id: cleo.activity({}).recipient.id },
    type: 'mention',
  };
  await cleo.say('<at>Reseat</at> my network drive S: is gone', { entities: [mention] });
  await reseat.settled();
  await shoot('channel', newest(cleo));
  for (let turn = 0; turn < 14 && !JSON.stringify(newest(cleo)).includes('Input.Text'); turn++)
    if (!(await onward(cleo, ['no'], 'x', 'x'))) break;
  await shoot('channel-words', newest(cleo, 2));
  console.log(reseat.teams.wrong, reseat.logged);
} finally {
  await browser.close();
  await reseat.close();
}
