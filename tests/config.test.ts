import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { SLACK_SETTINGS } from '#channels/slack/settings.ts';
import { TEAMS_SETTINGS } from '#channels/teams/settings.ts';
import { readConfig } from '../src/config.ts';

describe('settings', () => {
  test('an empty environment runs with a database file and the shipped flows', () => {
    expect(readConfig({})).toEqual({
      database: 'data/reseat.db',
      flows: 'flows',
      host: '127.0.0.1',
      port: 3978,
      publicUrl: null,
      nudgeAfter: 4 * 3_600_000,
      leftAfter: 72 * 3_600_000,
      boards: [],
      slack: null,
      teams: null,
    });
  });

  test('every mistake is told at once, in one message', () => {
    expect(() => readConfig({ RESEAT_NUDGE_HOURS: 'soon', RESEAT_LEFT_HOURS: '-1' })).toThrow(
      /RESEAT_NUDGE_HOURS: a number of hours.*RESEAT_LEFT_HOURS: a number of hours above 0/,
    );
  });

  test('a public address is kept without what stands behind it, and has no path', () => {
    expect(readConfig({ RESEAT_PUBLIC_URL: 'https://help.example/' }).publicUrl).toBe('https://help.example');
    expect(() => readConfig({ RESEAT_PUBLIC_URL: 'https://help.example/chat' })).toThrow(/without a path/);
    expect(() => readConfig({ RESEAT_PUBLIC_URL: 'help.example', PORT: '70000' })).toThrow(
      /PORT: a port number.*RESEAT_PUBLIC_URL: an address such as/,
    );
  });

  test('without a bot token Slack is off; half of its settings are told by name', () => {
    expect(readConfig({ SLACK_BOT_TOKEN: '', SLACK_SIGNING_SECRET: ' ' }).slack).toBeNull();
    expect(() => readConfig({ SLACK_SIGNING_SECRET: 'secret' })).toThrow(/SLACK_BOT_TOKEN: missing/);
    expect(() => readConfig({ SLACK_BOT_TOKEN: 'xoxb-1' })).toThrow(/SLACK_SIGNING_SECRET: missing/);
    expect(() => readConfig({ SLACK_BOT_TOKEN: 'secret', SLACK_API_URL: 'slack' })).toThrow(
      /SLACK_BOT_TOKEN: a token that begins with xoxb-.*SLACK_API_URL: an address such as/,
    );
  });

  test("a desk's place alone is enough for a terminal, and must be an id", () => {
    expect(readConfig({ SLACK_DESK_CHANNEL: 'C0123ABCDEF' })).toMatchObject({
      slack: null,
      boards: ['slack:desk:C0123ABCDEF'],
    });
    const conversation = '19:abc@thread.tacv2';
    expect(readConfig({ TEAMS_DESK_CONVERSATION: conversation }).boards).toEqual([
      `teams:desk:${conversation}`,
    ]);
    expect(() => readConfig({ SLACK_DESK_CHANNEL: 'desk', TEAMS_DESK_CONVERSATION: 'desk' })).toThrow(
      /SLACK_DESK_CHANNEL: a channel's id.*TEAMS_DESK_CONVERSATION: a conversation's id/,
    );
    expect(() => readConfig({ SLACK_DESK_GROUP: 'S0123ABCDEF' })).toThrow(/SLACK_BOT_TOKEN: missing/);
  });

  test("Slack's address ends in a slash, whoever forgot it", () => {
    const given = {
      SLACK_BOT_TOKEN: 'xoxb-1',
      SLACK_APP_TOKEN: 'xapp-1',
      SLACK_API_URL: 'http://127.0.0.1:1/api',
    };
    expect(readConfig(given).slack).toEqual({
      botToken: 'xoxb-1',
      signingSecret: null,
      appToken: 'xapp-1',
      apiUrl: 'http://127.0.0.1:1/api/',
      deskChannel: null,
      deskGroup: null,
    });
  });

  test('without an app id Teams is off; half of its settings are told by name', () => {
    expect(readConfig({ MicrosoftAppId: '', MicrosoftAppPassword: '' }).teams).toBeNull();
    expect(() => readConfig({ MicrosoftAppPassword: 'secret' })).toThrow(/MicrosoftAppId: missing/);
    expect(() => readConfig({ MicrosoftAppId: 'an-id' })).toThrow(
      /MicrosoftAppTenantId: missing.*MicrosoftAppPassword: missing/,
    );
    expect(() => readConfig({ MicrosoftAppId: 'an-id', MicrosoftAppType: 'Everybody' })).toThrow(
      /MicrosoftAppType: one of SingleTenant, MultiTenant, UserAssignedMsi/,
    );
  });

  test('Teams serves one organisation, unless it is told to serve every one', () => {
    const given = { MicrosoftAppId: 'an-id', MicrosoftAppPassword: 'secret', MicrosoftAppTenantId: 'ours' };
    expect(readConfig(given).teams).toMatchObject({ appType: 'SingleTenant', tenant: 'ours' });
    expect(readConfig({ ...given, MicrosoftAppType: 'MultiTenant' }).teams).toMatchObject({
      appType: 'MultiTenant',
      tenant: null,
    });
  });

  test('leaving before the nudge makes no sense', () => {
    expect(() => readConfig({ RESEAT_NUDGE_HOURS: '5', RESEAT_LEFT_HOURS: '4' })).toThrow(/longer than/);
  });

  test('the example lists every setting, with values that are accepted', () => {
    const lines = readFileSync('deploy/env.example', 'utf8').matchAll(/^#? ?([A-Z][A-Za-z_]+)=(.*)$/gm);
    const given = Object.fromEntries([...lines].map(([, name, value]) => [name, value]));
    expect(() => readConfig(given)).not.toThrow();
    const named = readFileSync('src/config.ts', 'utf8').matchAll(/^ {2}([A-Z][A-Z_]+):/gm);
    expect(Object.keys(given).sort()).toEqual(
      [
        ...[...named].map(([, name]) => name),
        ...Object.keys(SLACK_SETTINGS),
        ...Object.keys(TEAMS_SETTINGS),
      ].sort(),
    );
  });
});
