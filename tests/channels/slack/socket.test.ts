/** Socket Mode, against a server that greets, drops, asks to reconnect and repeats. Numbers are those of DEVELOPERS.md. */
import { setTimeout as sleep } from 'node:timers/promises';
import { afterEach, beforeEach, expect, test } from 'vitest';
import { chatOf } from '#channels/slack/inbound.ts';
import { type FakeSlack, fakeSlack } from '../../support/slack/fake.ts';
import { answersIn, person, type SlackPerson } from '../../support/slack/person.ts';
import { type SlackSite, slackSite, until } from '../../support/slack/site.ts';
import { type FakeSocket, fakeSocket } from '../../support/slack/socket.ts';

const OPENING = 'my laptop says no bootable device found';
const USER = 'U0ADA0001';

let slack: FakeSlack;
let socket: FakeSocket;
let site: SlackSite;
let ada: SlackPerson;
let closed: boolean;
beforeEach(async () => {
  closed = false;
  slack = await fakeSlack();
  socket = await fakeSocket();
  slack.socketUrl = socket.url;
  site = await slackSite({ slack, env: { SLACK_SIGNING_SECRET: '', SLACK_APP_TOKEN: 'xapp-made-up' } });
  ada = person(slack, USER, async event => {
    await socket.push(event);
    return new Response();
  });
  await until(() => socket.opened === 1);
});
afterEach(async () => {
  expect(slack.faults).toEqual([]);
  if (!closed) await site.close();
  await socket.close();
  await slack.close();
});

const answers = async () =>
  (await site.store.currentOf(chatOf(slack.team, USER)))!.entries.filter(({ kind }) => kind === 'answer');
const posts = () => slack.in(ada.direct);

test('what comes over the connection is answered, acknowledged after the commit, and twice is once (S1)', async () => {
  const event = ada.saying(OPENING);
  const first = await socket.push(event);
  await until(() => socket.acknowledged.some(({ id }) => id === first));
  expect((await site.store.currentOf(chatOf(slack.team, USER)))!.entries).toHaveLength(1);
  // As Slack does it: the same envelope, marked as a first attempt.
  await socket.push(event, { id: first });
  await socket.push(event, { retry: 1 });
  await until(() => socket.acknowledged.length === 3);
  await until(() => ada.question());
  await sleep(300);
  expect(posts()).toHaveLength(1);
});

test('what is not committed is not acknowledged', async () => {
  const remember = site.store.remember;
  site.store.remember = () => Promise.reject(new Error('the disk is gone'));
  const event = ada.saying(OPENING);
  const id = await socket.push(event);
  await until(() => site.logged.some(({ event }) => event === 'slack-turn-failed'));
  await sleep(100);
  expect(socket.acknowledged).toEqual([]);
  site.store.remember = remember;
  await socket.push(event, { id, retry: 1 });
  await until(() => socket.acknowledged.length === 1);
  await until(() => ada.question());
});

test('an acknowledgement carries what is to be shown', async () => {
  await ada.command('');
  const { payload } = await until(() => socket.acknowledged[0]);
  expect(payload).toMatchObject({ response_type: 'ephemeral' });
});

test('asked to reconnect in the middle, nothing is lost and nothing doubled (S23)', async () => {
  await ada.say(OPENING);
  const post = await until(() => ada.question());
  socket.disconnect('refresh_requested');
  const press = ada.pressing(post, answersIn(post).at(-1)!);
  const id = await socket.push(press);
  await until(() => socket.opened === 2);
  // What was not acknowledged is sent again on the new connection.
  if (!socket.acknowledged.some(each => each.id === id)) await socket.push(press, { id });
  await until(() => posts().length === 2);
  await sleep(200);
  expect(await answers()).toHaveLength(1);
  expect(posts()).toHaveLength(2);
});

test('a connection that breaks is opened again, and the talk goes on', async () => {
  await ada.say(OPENING);
  const post = await until(() => ada.question());
  socket.cut();
  await until(() => socket.opened === 2 && socket.open() === 1);
  await ada.press(post, answersIn(post).at(-1)!);
  await until(() => posts().length === 2);
});

test('when no connection can be had, it is tried again, ever more slowly, and said (S23)', async () => {
  slack.trouble('apps.connections.open', { is: 'reset' }, 2);
  socket.cut();
  const troubled = await until(
    () => site.logged.filter(({ event }) => event === 'slack-connection-failed').length === 2,
  );
  expect(troubled).toBe(true);
  await until(() => socket.opened === 2);
  const text = async () => (await fetch(`${site.base}/readyz`)).text();
  await until(() => site.logged.some(({ event }) => event === 'slack-signed-in'));
  for (let turn = 0; turn < 50 && (await text()) !== 'ready\n'; turn++) await sleep(20);
  expect(await text()).toBe('ready\n');
});

test('too many connections: it comes back without spinning (S23)', async () => {
  socket.disconnect('too_many_websockets');
  await until(() => socket.opened === 2);
  socket.disconnect('too_many_websockets');
  await until(() => socket.opened === 3);
  await sleep(700);
  expect(socket.opened).toBe(3);
  expect(slack.called('apps.connections.open').length).toBe(3);
});

test.each([
  { type: 'events_api', envelope_id: 'slow', payload: { type: 'app_rate_limited', team_id: 'T1' } },
  { type: 'events_api', envelope_id: 'slow', payload: {} },
  { type: 'events_api', envelope_id: 'slow' },
])('being slowed down is acknowledged and ends nothing (S7): %j', async envelope => {
  await socket.raw(envelope);
  await until(() => socket.acknowledged.some(({ id }) => id === 'slow'));
  await ada.say(OPENING);
  await until(() => ada.question());
});

test('noise on the line is no harm', async () => {
  await socket.raw({ type: 'novelty', envelope_id: 'new', payload: { type: 'novelty' } });
  await socket.raw({});
  await ada.say(OPENING);
  await until(() => ada.question());
});

test('asked to end, it lets what has begun end, and closes the connection (S23)', async () => {
  const id = await socket.push(ada.saying(OPENING));
  await until(() => socket.acknowledged.some(each => each.id === id));
  closed = true;
  await site.close();
  await until(() => socket.open() === 0);
  await sleep(500);
  expect(socket.opened).toBe(1);
});
