/** Single calls of the Web API, with Slack's answers played by nock. */
import nock from 'nock';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { type Slack, slackClient } from '#channels/slack/client.ts';

let client: Slack;
let logged: string[];
beforeEach(() => {
  logged = [];
  client = slackClient({ token: 'xoxb-made-up', apiUrl: null, log: event => logged.push(event) });
});
afterEach(() => nock.cleanAll());

const slack = (method: string) => nock('https://slack.com').post(`/api/${method}`);
const post = () =>
  client.call('chat.postMessage', { channel: 'C1', text: 'hello', blocks: [{ type: 'divider' }] });

describe('a call', () => {
  test('carries the token and its arguments, and gives the answer back', async () => {
    let body = '';
    nock('https://slack.com', { reqheaders: { authorization: 'Bearer xoxb-made-up' } })
      .post('/api/chat.postMessage', given => {
        body = JSON.stringify(given);
        return true;
      })
      .reply(200, { ok: true, ts: '1.2', channel: 'C1' });
    expect(await post()).toMatchObject({ ok: true, body: { ts: '1.2', channel: 'C1' } });
    expect(JSON.parse(body)).toMatchObject({ channel: 'C1', text: 'hello', blocks: '[{"type":"divider"}]' });
  });

  test('that is limited is tried again after as long as Slack says, and not before by the library (S17)', async () => {
    slack('chat.postMessage').reply(429, '', { 'retry-after': '7' });
    expect(await post()).toEqual({
      ok: false,
      again: true,
      after: 7000,
      error: 'ratelimited',
      unclear: false,
      patient: true,
    });
    slack('chat.update').reply(200, { ok: true });
    expect(await client.call('chat.update', {})).toMatchObject({ ok: true });
  });

  test.each([500, 502, 503])('that ends with %i may have been done: nobody knows (S18)', async status => {
    slack('chat.postMessage').reply(status, '<html>');
    expect(await post()).toMatchObject({ ok: false, again: true, unclear: true });
  });

  test('whose line breaks may have been done: nobody knows (S18)', async () => {
    slack('chat.postMessage').replyWithError(Object.assign(new Error('reset'), { code: 'ECONNRESET' }));
    expect(await post()).toMatchObject({ ok: false, again: true, unclear: true });
  });

  test('that is aborted ends at once', async () => {
    slack('chat.postMessage').delay(5000).reply(200, { ok: true });
    const called = await client.call('chat.postMessage', { channel: 'C1' }, AbortSignal.timeout(50));
    expect(called).toMatchObject({ ok: false, again: true, unclear: true });
    nock.abortPendingRequests();
  });

  test.each(['channel_not_found', 'is_archived', 'not_in_channel', 'user_disabled', 'invalid_blocks'])(
    'refused with %s is not tried again',
    async error => {
      slack('chat.postMessage').reply(200, { ok: false, error });
      expect(await post()).toEqual({ ok: false, again: false, error });
      expect(logged).toContain('slack-refused');
    },
  );

  test('for which a scope is missing names it', async () => {
    slack('users.info').reply(200, {
      ok: false,
      error: 'missing_scope',
      needed: 'users:read',
      provided: 'chat:write',
    });
    const called = await client.call('users.info', { user: 'U1' });
    expect(called).toEqual({ ok: false, again: false, error: 'missing_scope: users:read' });
  });

  test.each(['internal_error', 'service_unavailable', 'ratelimited'])(
    'met with %s is tried later',
    async error => {
      slack('chat.postMessage').reply(200, { ok: false, error });
      expect(await post()).toMatchObject({ ok: false, again: true, unclear: false });
    },
  );
});

describe('the token', () => {
  test('who we are is asked for once and kept', async () => {
    expect(client.signedIn()).toEqual({ state: 'unknown' });
    slack('auth.test').reply(200, { ok: true, team_id: 'T1', user_id: 'U1' });
    await client.call('auth.test', {});
    expect(client.signedIn()).toEqual({ state: 'in', team: 'T1', user: 'U1' });
  });

  test.each(['token_revoked', 'invalid_auth', 'account_inactive'])(
    'that is refused with %s is told once, and what waits goes on waiting',
    async why => {
      slack('chat.postMessage').times(2).reply(200, { ok: false, error: why });
      expect(await post()).toMatchObject({ ok: false, again: true, error: why });
      await post();
      expect(client.signedIn()).toEqual({ state: 'out', why });
      expect(logged).toEqual(['slack-signed-out']);
    },
  );
});

describe('a file', () => {
  const fetch = (url = 'https://files.slack.com/f/a.png', most = 100) => client.fetchFile(url, most);

  test('is fetched with the token', async () => {
    nock('https://files.slack.com', { reqheaders: { authorization: 'Bearer xoxb-made-up' } })
      .get('/f/a.png')
      .reply(200, 'picture', { 'content-type': 'image/png' });
    const fetched = await fetch();
    expect(fetched.ok && Buffer.from(fetched.content).toString()).toBe('picture');
  });

  test.each([
    'https://evil.example/a.png',
    'http://files.slack.com/a.png',
    'https://slack.com.evil.example/',
    'x',
    '',
  ])('at %s never sees the token', async url => {
    expect(await fetch(url)).toMatchObject({ ok: false, again: false });
  });

  test('larger than is taken is not read to its end', async () => {
    nock('https://files.slack.com')
      .get('/f/a.png')
      .reply(200, 'x'.repeat(101), { 'content-type': 'image/png' });
    expect(await fetch()).toEqual({ ok: false, why: 'too-large' });
  });

  test('that Slack shows its sign-in page for is one that we may not see', async () => {
    nock('https://files.slack.com')
      .get('/f/a.png')
      .reply(200, '<html>', { 'content-type': 'text/html; charset=utf-8' });
    expect(await fetch()).toMatchObject({ ok: false });
  });

  test('is fetched again after as long as Slack says', async () => {
    nock('https://files.slack.com').get('/f/a.png').reply(429, '', { 'retry-after': '3' });
    expect(await fetch()).toMatchObject({ ok: false, again: true, after: 3000 });
  });
});
