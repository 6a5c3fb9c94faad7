/** What stands behind the words: who may call, acknowledgements, troubles of Slack, files, the token. Numbers are those of DEVELOPERS.md. */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setTimeout as sleep } from 'node:timers/promises';
import Sqlite from 'better-sqlite3';
import sharp from 'sharp';
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, test } from 'vitest';
import { chatOf } from '#channels/slack/inbound.ts';
import { signed } from '../../support/slack/fake.ts';
import { answersIn, type SlackPerson } from '../../support/slack/person.ts';
import { type SlackSite, slackSite, until } from '../../support/slack/site.ts';

const OPENING = 'my laptop says no bootable device found';

let site: SlackSite;
let ada: SlackPerson;
let people = 0;
let folder: string;
let database: string;
beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'reseat-slack-'));
  database = join(folder, 'reseat.db');
  site = await slackSite({ database });
  await until(() => site.logged.some(({ event }) => event === 'slack-signed-in'));
});
afterAll(async () => {
  await site.close();
  rmSync(folder, { recursive: true });
});
beforeEach(() => {
  ada = site.as(`U0CLEO${String(people++).padStart(4, '0')}`);
  site.logged.length = 0;
});
afterEach(() => {
  site.slack.untroubled();
  expect(site.slack.faults).toEqual([]);
});

const posts = () => site.slack.in(ada.direct);
const current = () => site.store.currentOf(chatOf(site.slack.team, ada.user));
const events = () => site.logged.map(({ event }) => event);
const call = (body: string, headers: Record<string, string>) =>
  fetch(`${site.base}/slack/events`, {
    method: 'POST',
    body,
    headers: { 'content-type': 'application/json', ...headers },
  });
const sign = (body: string, skew = 0) => signed(site.slack.secret, body, skew);

describe('who may call', () => {
  const body = JSON.stringify({ type: 'event_callback', secret: 'in the body' });
  test.each<[string, () => Record<string, string>]>([
    ['no signature', () => ({})],
    ['a wrong signature', () => ({ ...sign(body), 'x-slack-signature': 'v0=00' })],
    [
      'another version of it',
      () => ({ ...sign(body), 'x-slack-signature': sign(body)['x-slack-signature']!.replace('v0', 'v1') }),
    ],
    ['the signature of other words', () => sign(`${body} `)],
    ['a time that is no number', () => ({ ...sign(body), 'x-slack-request-timestamp': 'soon' })],
    ['a time 301 seconds ago', () => sign(body, -301)],
    ['a time 302 seconds ahead', () => sign(body, 302)],
  ])('%s: refused, nothing taken, nothing of it in the log (S5)', async (_, headers) => {
    const before = (await site.store.counts()).conversations;
    expect((await call(body, headers())).status).toBe(401);
    expect((await site.store.counts()).conversations).toBe(before);
    expect(JSON.stringify(site.logged)).not.toContain('in the body');
    expect(events()).toEqual(['slack-request-refused']);
  });

  test('the question whether this address is ours is answered to Slack alone (S6)', async () => {
    const question = JSON.stringify({ type: 'url_verification', challenge: 'abc', token: 'x' });
    expect(await (await call(question, sign(question))).json()).toEqual({ challenge: 'abc' });
    expect((await call(question, { ...sign(question), 'x-slack-signature': 'v0=00' })).status).toBe(401);
  });

  test("Slack's look at our certificate is answered, and what is smuggled in with it is not taken", async () => {
    const headers = { 'content-type': 'application/x-www-form-urlencoded' };
    const smuggled = new URLSearchParams({ ssl_check: '1', payload: '{"type":"block_actions"}' }).toString();
    expect((await call(smuggled, headers)).status).toBe(200);
    expect(events()).toEqual([]);
  });

  test.each(['', '{', '[]', '7', 'null'])(
    'a signed body that is no happening is refused: %s',
    async given => {
      expect((await call(given, sign(given))).status).toBe(400);
    },
  );

  test('a signed happening of a kind nobody knows is acknowledged at once, and so is being slowed down (S7)', async () => {
    for (const given of [
      '{"type":"app_rate_limited","team_id":"T1","minute_rate_limited":1}',
      '{"type":"novelty"}',
      '{}',
    ])
      expect((await call(given, sign(given))).status).toBe(200);
    expect(events()).toContain('slack-slowed-down');
  });

  test('a body without end is not read to its end', async () => {
    const large = 'x'.repeat(4_400_000);
    expect((await call(large, sign(large))).status).toBe(413);
  });
});

describe('an acknowledgement', () => {
  test('does not wait for Slack: with every call hanging all that happens is taken (S3)', async () => {
    for (const method of [
      'chat.postMessage',
      'chat.update',
      'users.info',
      'views.publish',
      'conversations.history',
    ])
      site.slack.trouble(method, { is: 'hang' }, 1000);
    expect((await ada.say(OPENING)).status).toBe(200);
    const conversation = (await current())!;
    expect(conversation.entries).toHaveLength(1);
    const value = `a ${conversation.id} 1 none`;
    const post = { channel: ada.direct, ts: '1.1', text: '', thread: null } as never;
    expect(
      (await ada.press(post, { action_id: 'say:answer:0', type: 'button', value, label: '' })).status,
    ).toBe(200);
    expect((await ada.command('')).status).toBe(200);
    expect((await ada.openHome()).status).toBe(200);
    expect((await ada.submit({ callback_id: 'nobody:knows' }, {})).status).toBe(200);
    expect((await ada.shortcut('x', 'nobody:knows')).status).toBe(200);
    expect((await current())!.entries.filter(({ kind }) => kind === 'answer')).toHaveLength(1);
  });

  test('follows the commit: while the database is locked there is none, then there is (S3)', async () => {
    const other = new Sqlite(database);
    other.exec('begin immediate');
    let status = 0;
    const said = ada.say(OPENING).then(response => {
      status = response.status;
    });
    await sleep(300);
    expect(status).toBe(0);
    other.exec('commit');
    other.close();
    await said;
    expect(status).toBe(200);
    expect((await current())!.entries).toHaveLength(1);
  });

  test('of what could not be committed is none: Slack sends it again, and then it is taken', async () => {
    const event = ada.saying(OPENING);
    const remember = site.store.remember;
    site.store.remember = () => Promise.reject(new Error('the disk is gone'));
    expect((await ada.send(event)).status).toBe(500);
    site.store.remember = remember;
    expect(events()).toContain('slack-turn-failed');
    expect(JSON.stringify(site.logged)).not.toContain('bootable');
    expect((await ada.send(event, { headers: { 'x-slack-retry-num': '1' } })).status).toBe(200);
    await until(() => ada.question());
  });
});

describe('when Slack has troubles', () => {
  test('a limited message waits as told, others do not, and the order stays (S17)', async () => {
    const bo = site.as('U0BO0S17');
    site.slack.trouble(
      'chat.postMessage',
      { is: 'limited', seconds: 2 },
      1,
      ({ channel }) => channel === ada.direct,
    );
    await ada.say(OPENING);
    await until(() => site.slack.called('chat.postMessage').some(({ args }) => args.channel === ada.direct));
    const limited = Date.now();
    await ada.say('none of these');
    await bo.say(OPENING);
    await until(() => site.slack.in(bo.direct).length > 0);
    expect(posts()).toEqual([]);
    await until(() => posts().length === 2);
    expect(posts()[0]!.at - limited).toBeGreaterThanOrEqual(1900);
    expect(posts()[0]!.args.blocks[0].block_id.split(':')[0]).not.toBe(
      posts()[1]!.args.blocks[0].block_id.split(':')[0],
    );
    expect(Number(posts()[0]!.args.blocks[0].block_id.slice(1, -2))).toBeLessThan(
      Number(posts()[1]!.args.blocks[0].block_id.slice(1, -2)),
    );
  });

  test.each([
    ['an error behind it', { is: 'status', status: 503, done: true } as const],
    ['a broken line', { is: 'reset', done: true } as const],
  ])('a message that went all the same, with %s, is found and not sent twice (S18)', async (_, trouble) => {
    site.slack.trouble('chat.postMessage', trouble, 1, ({ channel }) => channel === ada.direct);
    await ada.say(OPENING);
    await until(() =>
      site.slack.called('conversations.history').some(({ args }) => args.channel === ada.direct),
    );
    const post = await until(() => ada.question());
    await sleep(1500);
    expect(posts()).toHaveLength(1);
    await ada.press(post, answersIn(post).at(-1)!);
    await until(() => posts().length === 2 && post.updates === 1);
  });

  test('an answered question that Slack was too busy to redraw is redrawn later, and the talk goes on meanwhile', async () => {
    site.slack.trouble(
      'chat.update',
      { is: 'limited', seconds: 1 },
      2,
      ({ channel }) => channel === ada.direct,
    );
    await ada.say(OPENING);
    const post = await until(() => ada.question());
    await ada.press(post, answersIn(post).at(-1)!);
    await until(() => posts().length === 2);
    expect(post.updates).toBe(0);
    await until(() => post.updates === 1);
  });

  test('a message that did not go is sent again until it does (S18)', async () => {
    site.slack.trouble('chat.postMessage', { is: 'reset' }, 2, ({ channel }) => channel === ada.direct);
    await ada.say(OPENING);
    await until(() => ada.question());
    expect(posts()).toHaveLength(1);
  });

  test('somebody who is gone holds nobody up', async () => {
    site.slack.trouble(
      'chat.postMessage',
      { is: 'error', error: 'user_disabled' },
      1,
      ({ channel }) => channel === ada.direct,
    );
    await ada.say(OPENING);
    await until(() => events().includes('undeliverable'));
    await ada.say('none of these');
    await until(() => posts().length === 1);
  });

  test('blocks that Slack refuses are said as text', async () => {
    site.slack.trouble('chat.postMessage', { is: 'error', error: 'invalid_blocks' });
    await ada.say(OPENING);
    const post = await until(() => posts()[0]);
    expect(post.blocks).toEqual([]);
    expect(post.text).toContain('None of these');
  });
});

describe('the token', () => {
  test('that is revoked is told in /readyz and the log, and what waits goes when it works again', async () => {
    await ada.raw({ type: 'tokens_revoked', tokens: { oauth: [], bot: [site.slack.self] } });
    const ready = await (await fetch(`${site.base}/readyz`)).text();
    expect(ready).toBe('ready\nslack: it does not take our token (token_revoked)\n');
    expect(site.logged).toContainEqual({ event: 'slack-signed-out', details: { why: 'token_revoked' } });
    const refused = { is: 'error', error: 'token_revoked' } as const;
    site.slack.trouble('chat.postMessage', refused, 1, ({ channel }) => channel === ada.direct);
    site.slack.trouble('users.info', refused);
    await ada.say(OPENING);
    await sleep(300);
    expect(posts()).toEqual([]);
    site.later(600_001);
    await until(() => ada.question());
    expect(await (await fetch(`${site.base}/readyz`)).text()).toBe('ready\n');
  });

  test('of an app that was taken out is told too', async () => {
    await ada.raw({ type: 'app_uninstalled' });
    expect(await (await fetch(`${site.base}/readyz`)).text()).toContain('app_uninstalled');
  });

  test('a first event is taken while Slack still thinks about who we are (S25)', async () => {
    const { slack } = site;
    slack.trouble('auth.test', { is: 'slow', milliseconds: 3500 });
    const cold = await slackSite({ slack });
    try {
      const bo = cold.as('U0BO0COLD');
      expect((await bo.say(OPENING)).status).toBe(200);
      await until(() => bo.question());
      expect(cold.logged.map(({ event }) => event)).not.toContain('slack-signed-in');
    } finally {
      await cold.close();
    }
  });
});

describe('a file', () => {
  const attach = async (content: Uint8Array, name: string, more: Record<string, unknown> = {}, text = '') => {
    const id = `F0${people++}`;
    site.slack.files.set(`/files/${id}`, { content, type: 'application/octet-stream' });
    const url_private_download = `${new URL(site.slack.api).origin}/files/${id}`;
    const file = { id, name, size: content.length, url_private_download, ...more };
    return ada.say(text, { subtype: 'file_share', files: [file] });
  };
  const photo = () =>
    sharp({ create: { width: 30, height: 20, channels: 3, background: '#203040' } })
      .withExif({ IFD0: { Make: 'Maker' } })
      .jpeg()
      .toBuffer();
  const kept = async () => {
    const entry = (await current())!.entries.findLast(({ kind }) => kind === 'attached');
    return entry?.kind === 'attached' ? site.store.file(entry.id) : null;
  };
  const said = (part: string) => until(() => posts().find(({ text }) => text.includes(part)));

  test('is fetched with the token, kept as what it is, and without what the camera wrote into it', async () => {
    expect((await attach(await photo(), 'screen.txt')).status).toBe(200);
    await said('I have kept the picture “screen.txt”');
    const file = (await kept())!;
    expect(file.type).toBe('image/jpeg');
    expect((await sharp(file.content).metadata()).exif).toBeUndefined();
  });

  test('comes with its words, and both are taken', async () => {
    await attach(await photo(), 'screen.jpg', {}, OPENING);
    await said('I have kept the picture');
    expect((await current())!.symptom).toBe('boot-no-device');
  });

  test.each<[string, () => Promise<Uint8Array>, Record<string, unknown>, RegExp]>([
    ['too large', photo, { size: 10_485_761 }, /more than 10 MB/],
    ['larger than Slack said', async () => new Uint8Array(10_485_800), {}, /more than 10 MB/],
    ['of another kind', async () => Buffer.from('%PDF-1.7\0 something'), {}, /PNG, JPEG or WebP/],
    ['empty', async () => new Uint8Array(), {}, /empty/],
    [
      'that Slack does not show',
      photo,
      { url_private_download: undefined, url_private: undefined },
      /could not get/,
    ],
  ])('%s is refused kindly', async (_, content, more, words) => {
    await attach(await content(), 'a *file*.bin', more);
    const post = await until(() => posts().find(({ text }) => words.test(text)));
    expect(post.text).toContain('“a file.bin”');
    expect(await kept()).toBeNull();
  });

  test('for which the scope is missing is refused kindly, and an operator reads why', async () => {
    site.slack.files.delete('/files/F0NONE');
    const url_private_download = `${new URL(site.slack.api).origin}/files/F0NONE`;
    await ada.say('', {
      subtype: 'file_share',
      files: [{ id: 'F0NONE', name: 'a.png', size: 3, url_private_download }],
    });
    await until(() => posts().find(({ text }) => text.includes('could not')));
    expect(events()).toContain('slack-file-not-shown');
  });

  test('that Slack has troubles with is fetched later', async () => {
    site.slack.trouble('file', { is: 'limited', seconds: 1 });
    await attach(await photo(), 'later.jpg');
    await said('later.jpg');
  });
});
