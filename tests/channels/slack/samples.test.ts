/** What Slack sends, with all the fields that its pages show: each sample becomes one inbound, or none. */
import { readdirSync, readFileSync } from 'node:fs';
import { beforeEach, expect, test } from 'vitest';
import { boltApp } from '#channels/slack/app.ts';
import { take } from '#channels/slack/receiver.ts';
import { saying } from '#channels/slack/say.ts';
import type { FromPerson } from '#talk/inbound.ts';

const FOLDER = 'tests/channels/slack/samples';

let taken: FromPerson[];
let published: string[];
let send: (body: Record<string, unknown>) => Promise<unknown>;
beforeEach(() => {
  taken = [];
  published = [];
  const part = saying({
    slack: {
      call: async () => ({ ok: false, again: false, error: 'nobody asked' }),
      fetchFile: async () => ({ ok: false, again: false, error: 'nobody asked' }),
      signedIn: () => ({ state: 'in', team: 'T0TEST001', user: 'U0RESEAT0' }),
      signedOut: () => undefined,
    },
    store: { currentOf: async () => null },
    take: async inbound => taken.push(inbound),
    profiles: {
      of: (team, user, name = null) => ({ team, user, name, mail: null, locale: null }),
      learn: async () => undefined,
    },
    publish: async (team, user) => void published.push(`${team}:${user}`),
    gone: async () => undefined,
    now: () => 1_764_090_020_000,
    log: () => undefined,
  });
  const nothing = async () => ({});
  boltApp({
    receiver: {
      init: app => {
        send = body => take(app, body);
      },
      start: async () => undefined,
      stop: async () => undefined,
    },
    parts: [part],
    token: 'xoxb-made-up',
    unknown: { action: nothing, view: nothing, shortcut: nothing },
    log: () => undefined,
  });
});

test.each(readdirSync(FOLDER))('%s', async file => {
  const { becomes, body } = JSON.parse(readFileSync(`${FOLDER}/${file}`, 'utf8'));
  await send(body);
  await send(body);
  expect(taken.map(({ kind }) => kind)).toEqual(becomes === null ? [] : [becomes, becomes]);
  // The same happening twice has the same identity, and is somebody's own chat.
  expect(new Set(taken.map(({ identity }) => identity)).size).toBe(becomes === null ? 0 : 1);
  for (const { address } of taken) expect(address.chat).toBe('slack:T0TEST001:U0ADA0001');
  expect(published.length > 0).toBe(['home-opened.json', 'press-home.json'].includes(file));
});

test('words come out as they were typed, and a mention of us is no word', async () => {
  const words = async (file: string) => {
    taken = [];
    await send(JSON.parse(readFileSync(`${FOLDER}/${file}.json`, 'utf8')).body);
    const [inbound] = taken;
    return inbound?.kind === 'text' ? inbound.text : null;
  };
  expect(await words('message-direct')).toBe('my laptop says <no boot device> & beeps');
  expect(await words('mention')).toBe('my usb stick is write protected');
  expect(await words('command')).toBe('my disk is full');
});

test('no two samples are the same happening', async () => {
  for (const file of readdirSync(FOLDER))
    await send(JSON.parse(readFileSync(`${FOLDER}/${file}`, 'utf8')).body);
  expect(new Set(taken.map(({ identity }) => identity)).size).toBe(taken.length);
});
