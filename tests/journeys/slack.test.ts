/** Whole conversations in Slack: signed requests against the running process, Slack's side a stand-in on this machine. */
import { setTimeout as sleep } from 'node:timers/promises';
import sharp from 'sharp';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { chatOf } from '#channels/slack/inbound.ts';
import { openStore } from '#store/open.ts';
import type { Store } from '#store/store.ts';
import { type Serving, serving } from '../support/serving.ts';
import { type FakeSlack, fakeSlack } from '../support/slack/fake.ts';
import { answersIn, person, poster, pressables, type SlackPerson } from '../support/slack/person.ts';
import { until } from '../support/slack/site.ts';

let slack: FakeSlack;
let site: Serving;
let store: Store;
beforeAll(async () => {
  slack = await fakeSlack();
  site = await serving({
    SLACK_BOT_TOKEN: slack.token,
    SLACK_SIGNING_SECRET: slack.secret,
    SLACK_API_URL: slack.api,
  });
  await site.start();
  store = await openStore(site.database);
}, 180_000);
afterAll(async () => {
  await store.close();
  await site.remove();
  await slack.close();
  expect(slack.faults).toEqual([]);
});

const arrive = (user: string): SlackPerson =>
  person(
    slack,
    user,
    poster(() => site.base, slack.secret),
  );
const current = (user: string) => store.currentOf(chatOf(slack.team, user));
const outcome = async (user: string) => (await current(user))?.outcome ?? null;

/** Does something, and waits until something new was said to them. */
async function awaiting(who: SlackPerson, work: () => Promise<Response>): Promise<void> {
  const before = slack.in(who.direct).length;
  expect((await work()).status).toBe(200);
  await until(() => slack.in(who.direct).length > before);
}

/** Presses the first of the wanted answers that is there, else the last; types where nothing is to be pressed. */
async function whole(who: SlackPerson, wanted: string[], texts: string[]): Promise<void> {
  for (let asked = 0; asked < 35 && (await outcome(who.user)) === null; asked++) {
    const post = who.last();
    const answers = answersIn(post);
    const answer =
      wanted.map(id => answers.find(({ value }) => value.endsWith(` ${id}`))).find(Boolean) ?? answers.at(-1);
    await awaiting(who, () =>
      answer === undefined ? who.say(texts[asked % texts.length]!) : who.press(post, answer),
    );
  }
}

const STICK = ['boot-no-device', 'none', 'yes', 'stick', 'seen', 'no-drive', 'fixed', 'not-sure'];
const CLICKS = ['off', 'nowhere', 'me-stopped', 'today', 'brackwater', 'yes', 'not-sure'];

describe('a stick was left in', () => {
  const ada = () => arrive('U0ADA0FIX');
  test('from the first message to solved', async () => {
    await awaiting(ada(), () => ada().say('my pc says no bootable device, I had a usb stick in it'));
    await whole(ada(), STICK, ['no']);
    expect(await outcome('U0ADA0FIX')).toBe('fixed');
    expect(ada().last().text).toContain('then that is solved');
  });

  test('every question looks answered, and nothing can be pressed any more', async () => {
    await until(() => slack.in(ada().direct).every(post => answersIn(post).length === 0));
    const asked = slack
      .in(ada().direct)
      .filter(post => answersIn({ blocks: post.args.blocks } as never).length > 0);
    expect(asked.length).toBeGreaterThan(1);
    for (const post of asked) expect(JSON.stringify(post.blocks)).toMatch(/You answered:|has passed/);
  });

  test('what is written afterwards begins anew', async () => {
    await awaiting(ada(), () => ada().say('my usb stick is write protected'));
    expect((await current('U0ADA0FIX'))?.symptom).toBe('write-protected');
  });
});

describe('a clicking drive, with a photo', () => {
  const bo = () => arrive('U0BO0ESC');

  test('ends with a ticket: number, what happens next, what to do and what not', async () => {
    slack.users.set('U0BO0ESC', {
      id: 'U0BO0ESC',
      real_name: 'Bo Lind',
      profile: { email: 'bo@test.example' },
    });
    await awaiting(bo(), () => bo().say('the hard disk in my pc makes a clicking noise'));
    expect(bo().last().text).toContain('off');
    const photo = await sharp({ create: { width: 300, height: 200, channels: 3, background: '#203040' } })
      .withExif({ IFD0: { Make: 'Maker' } })
      .jpeg()
      .toBuffer();
    slack.files.set('/files/F1', { content: photo, type: 'image/jpeg' });
    const url_private_download = `${new URL(slack.api).origin}/files/F1`;
    const files = [{ id: 'F1', name: 'drive.jpg', size: photo.length, url_private_download }];
    await awaiting(bo(), () => bo().say('', { subtype: 'file_share', files }));
    await until(() => slack.in(bo().direct).some(({ text }) => text.includes('“drive.jpg”')));
    await whole(bo(), CLICKS, ['First time, nothing', 'Room 12, 555-0142']);
    expect(await outcome('U0BO0ESC')).toBe('escalated');
    const card = slack.in(bo().direct).findLast(({ text }) => text.includes('What happens next'))!;
    expect(card.text).toMatch(/Ticket R-\d+/);
    expect(JSON.stringify(card.blocks)).toMatch(/Please do\*.*Please do not\*/);
  });

  test('the ticket knows who it is from, and the photo without what the camera wrote into it', async () => {
    const { number } = (await current('U0BO0ESC'))!;
    const { ticket } = (await store.ticket(number!))!;
    expect(ticket.person).toMatchObject({ name: 'Bo Lind', mail: 'bo@test.example' });
    expect(ticket.attachments).toHaveLength(1);
    const file = await store.file(ticket.attachments[0]!.id);
    expect((await sharp(file!.content).metadata()).exif).toBeUndefined();
  });

  test('a question of the desk reaches the person, and their answer the ticket', async () => {
    const { number } = (await current('U0BO0ESC'))!;
    const { reseat } = await import('../support/reseat.ts');
    const desk = reseat(site.database);
    expect(desk.run(['tickets', 'ask', `R-${number}`, 'Is it <!here> *loud*?']).status).toBe(0);
    const asked = await until(() => slack.in(bo().direct).find(({ text }) => text.includes('The desk asks')));
    expect(JSON.stringify(asked)).not.toContain('<!here>');
    await awaiting(bo(), () => bo().say('Yes, very'));
    await until(() => slack.in(bo().direct).some(({ text }) => text.includes('passed that on to the desk')));
  });
});

describe('the process', () => {
  test('is started again: what came before is known, and the talk goes on (S2)', async () => {
    const cy = arrive('U0CY0AGAIN');
    const opening = cy.saying('my laptop says no bootable device found');
    await awaiting(cy, () => cy.send(opening));
    const post = cy.question()!;
    await site.stop();
    await site.start();
    expect((await cy.send(opening, { headers: { 'x-slack-retry-num': '2' } })).status).toBe(200);
    await awaiting(cy, () => cy.press(post, answersIn(post).at(-1)!));
    expect((await current('U0CY0AGAIN'))!.entries.filter(({ kind }) => kind === 'opened')).toHaveLength(1);
    expect(slack.in(cy.direct)).toHaveLength(2);
  });

  test('is killed between acknowledgement and reply: after the start the question is there (S4)', async () => {
    const di = arrive('U0DI0KILL');
    slack.trouble('chat.postMessage', { is: 'hang' }, 1, ({ channel }) => channel === di.direct);
    expect((await di.say('my laptop says no bootable device found')).status).toBe(200);
    await until(() => slack.called('chat.postMessage').some(({ args }) => args.channel === di.direct));
    await site.stop('SIGKILL');
    expect(slack.in(di.direct)).toEqual([]);
    await site.start();
    const post = await until(() => di.question(), 30_000);
    await awaiting(di, () => di.press(post, answersIn(post).at(-1)!));
    expect((await current('U0DI0KILL'))!.entries.filter(({ kind }) => kind === 'answer')).toHaveLength(1);
  });

  test('is killed when a message went and nobody knows: it is there twice at most, and answers nothing twice (S4)', async () => {
    const ed = arrive('U0ED0TWICE');
    slack.trouble('chat.postMessage', { is: 'hang', done: true }, 1, ({ channel }) => channel === ed.direct);
    await ed.say('my laptop says no bootable device found');
    await until(() => slack.in(ed.direct).length === 1);
    await site.stop('SIGKILL');
    await site.start();
    await until(() => slack.in(ed.direct).length === 2, 30_000);
    const [first, second] = slack.in(ed.direct);
    await ed.press(first!, answersIn(first!).at(-1)!);
    await ed.press(second!, answersIn(second!)[0]!);
    await sleep(500);
    expect((await current('U0ED0TWICE'))!.entries.filter(({ kind }) => kind === 'answer')).toHaveLength(1);
    expect(pressables(second!.blocks).length).toBeGreaterThan(0);
  });

  test('says nothing of what people wrote in its log', () => {
    expect(site.output()).not.toMatch(/bootable|clicking|Room 12/);
  });
});
