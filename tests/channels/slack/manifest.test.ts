/** deploy/slack-manifest.yaml: of the shape that Slack's own library knows, and asking for no more than the code needs (S27). */
import { spawnSync } from 'node:child_process';
import { readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import type { WebClient } from '@slack/web-api';
import { describe, expect, test } from 'vitest';
import { parse } from 'yaml';
import { PATH } from '#channels/slack/http.ts';
import { saying } from '#channels/slack/say.ts';

/** The library does not export the type by name. */
const TYPE = "Parameters<WebClient['apps']['manifest']['validate']>[0]['manifest']";
type Manifest = Parameters<WebClient['apps']['manifest']['validate']>[0]['manifest'];

const text = readFileSync('deploy/slack-manifest.yaml', 'utf8');
const manifest = parse(text) as Manifest;
const scopes = manifest.oauth_config!.scopes!.bot!;

/** Scopes that each method needs; from the pages of the methods, tests/sources.md. Any one of a list does not do: all are asked for. */
const NEEDS: Record<string, string[]> = {
  'auth.test': [],
  'chat.postMessage': ['chat:write'],
  'chat.postEphemeral': ['chat:write'],
  'chat.update': ['chat:write'],
  'conversations.history': ['im:history'],
  'conversations.members': ['channels:read', 'groups:read'],
  'usergroups.users.list': ['usergroups:read'],
  'users.info': ['users:read', 'users:read.email'],
  'views.open': [],
  'views.publish': [],
  'views.push': [],
  'views.update': [],
};
const EVENT_NEEDS: Record<string, string[]> = {
  app_home_opened: [],
  app_mention: ['app_mentions:read'],
  app_uninstalled: [],
  'message.im': ['im:history'],
  tokens_revoked: [],
};

const sources = readdirSync('src/channels/slack', { recursive: true, encoding: 'utf8' })
  .filter(file => file.endsWith('.ts'))
  .map(file => readFileSync(`src/channels/slack/${file}`, 'utf8'));
const called = [
  ...new Set(
    sources.flatMap(source =>
      [
        ...source.matchAll(
          /'((?:auth|chat|conversations|files|reactions|team|usergroups|users|views)\.[a-zA-Z.]+)'/g,
        ),
      ].map(found => found[1]!),
    ),
  ),
];

describe('the manifest', () => {
  test("fits the type of Slack's own library", () => {
    const file = 'tests/channels/slack/.manifest-check.ts';
    const source = `import type { WebClient } from '@slack/web-api';\nexport const manifest: ${TYPE} = ${JSON.stringify(manifest)};\n`;
    writeFileSync(file, source);
    try {
      const options = [
        '--ignoreConfig',
        '--noEmit',
        '--strict',
        '--skipLibCheck',
        '--module',
        'nodenext',
        '--types',
        'node',
      ];
      const { status, stdout } = spawnSync('npx', ['tsc', ...options, file], { encoding: 'utf8' });
      expect(stdout).toBe('');
      expect(status).toBe(0);
    } finally {
      rmSync(file);
    }
  });

  test('asks for the scopes of the methods and events that the code uses, and for no other (S27)', () => {
    expect(called.filter(method => NEEDS[method] === undefined)).toEqual([]);
    const needed = [
      ...called.flatMap(method => NEEDS[method]!),
      ...manifest.settings!.event_subscriptions!.bot_events!.flatMap(event => EVENT_NEEDS[event]!),
      ...(sources.some(source => source.includes('fetchFile(')) ? ['files:read'] : []),
      'commands',
    ];
    expect([...scopes].sort()).toEqual([...new Set(needed)].sort());
  });

  test('says of every scope and event in a comment what it is for', () => {
    for (const name of [...scopes, ...manifest.settings!.event_subscriptions!.bot_events!])
      expect(text).toMatch(new RegExp(`^ +- ${name.replace('.', '\\.')} # .{10,}$`, 'm'));
  });

  test('subscribes to the events that are listened to, and to no other (S27)', () => {
    const listened = Object.keys(saying({} as never).events!).map(event =>
      event === 'message' ? 'message.im' : event,
    );
    expect([...manifest.settings!.event_subscriptions!.bot_events!].sort()).toEqual(listened.sort());
  });

  test('sends everything to the address that listens', () => {
    const { settings, features } = manifest;
    const addresses = [
      settings!.event_subscriptions!.request_url,
      settings!.interactivity!.request_url,
      ...features!.slash_commands!.map(({ url }) => url),
    ];
    expect(new Set(addresses)).toEqual(new Set([`https://reseat.example${PATH}`]));
  });

  test('has names within what Slack takes', () => {
    const { display_information: shown, features } = manifest;
    expect(shown.name.length).toBeLessThanOrEqual(35);
    expect(shown.description!.length).toBeLessThanOrEqual(140);
    expect(features!.bot_user!.display_name).toMatch(/^[a-z0-9._-]{1,80}$/);
    for (const { name, description, callback_id } of features!.shortcuts!) {
      expect(name.length).toBeLessThanOrEqual(24);
      expect(description.length).toBeLessThanOrEqual(150);
      expect(callback_id).toMatch(/^(say|desk|work):/);
    }
    for (const { command } of features!.slash_commands!) expect(command).toMatch(/^\/[a-z]{1,31}$/);
  });
});
