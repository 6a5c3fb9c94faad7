/** Who may bring something: the SDK's real check, over HTTP, with tokens signed by a key of our own. */
import { SignJWT } from 'jose';
import { afterAll, beforeAll, describe, expect, test, vi } from 'vitest';
import { APP, ISSUER, keys } from '../../support/teams/keys.ts';
import { type Running, running } from '../../support/teams/running.ts';
import type { Json } from '../../support/teams/teams.ts';

let reseat: Running;
beforeAll(async () => {
  reseat = await running();
});
afterAll(() => reseat.close());

let people = 0;
/** Somebody new each time, so that it can be seen whether a turn ran. */
const somebody = () => reseat.person({ name: `Person ${people++}` });

const post = async (body: unknown, headers: Record<string, string> = {}) => {
  const response = await fetch(`${reseat.base}/api/messages`, {
    method: 'POST',
    headers: { 'content-type': 'application/json', ...headers },
    body: typeof body === 'string' ? body : JSON.stringify(body),
  });
  return response.status;
};
const began = async (activity: Json) =>
  (await reseat.store.currentOf(`teams:${activity.conversation.tenantId}:${activity.conversation.id}`)) !==
  null;
const refused = async (activity: Json, authorization: string | null, status: number) => {
  const calls = reseat.teams.calls.filter(({ what }) => what === 'post').length;
  expect(await post(activity, authorization === null ? {} : { authorization })).toBe(status);
  await reseat.settled();
  expect(await began(activity)).toBe(false);
  expect(reseat.teams.calls.filter(({ what }) => what === 'post')).toHaveLength(calls);
};
const activity = (more: Json = {}) => somebody().activity({ text: 'my pc does not start', ...more });
const serviceurl = () => reseat.teams.url;

describe('a token', () => {
  test('that is good lets a message in, and so does one that expired less than five minutes ago', async () => {
    for (const expires of [3600, -240]) {
      const said = activity();
      expect(
        await post(said, { authorization: await reseat.keys.sign({ serviceurl: serviceurl(), expires }) }),
      ).toBe(200);
      expect(await began(said)).toBe(true);
    }
    await reseat.settled();
  });

  test('is needed', async () => {
    await refused(activity(), null, 401);
    await refused(activity(), '', 401);
    await refused(activity(), 'Basic abc', 401);
    await refused(activity(), 'Bearer ', 401);
    await refused(activity(), 'Bearer not.a.token', 401);
  });

  test.each([
    ['of another issuer', { iss: 'https://sts.example/' }],
    ['without an issuer', { iss: null }],
    ['for another bot', { aud: '99999999-0000-4000-8000-000000000000' }],
    ['for nobody', { aud: null }],
    ['that expired ten minutes ago', { expires: -600 }],
    ['for another service address', { serviceurl: 'https://smba.trafficmanager.net/emea/' }],
    ['without a service address', { serviceurl: null }],
    ['of a key that is not published', { kid: 'key-2' }],
  ])('%s is refused', async (_name, claims) => {
    const authorization = await reseat.keys.sign({ serviceurl: serviceurl(), ...claims });
    await refused(activity(), authorization, 401);
  });

  test('signed by another key under the name of ours is refused', async () => {
    const others = await keys();
    await refused(activity(), await others.sign({ serviceurl: serviceurl() }), 401);
  });

  test('signed with the public key as if it were a secret, or not at all, is refused', async () => {
    const now = Math.floor(Date.now() / 1000);
    const claims = { iss: ISSUER, aud: APP, serviceurl: serviceurl(), exp: now + 3600 };
    const secret = new TextEncoder().encode(JSON.stringify(reseat.keys.published[0]));
    const hmac = await new SignJWT(claims).setProtectedHeader({ alg: 'HS256', kid: 'key-1' }).sign(secret);
    await refused(activity(), `Bearer ${hmac}`, 401);
    const part = (value: object) => Buffer.from(JSON.stringify(value)).toString('base64url');
    const none = `${part({ alg: 'none', kid: 'key-1' })}.${part(claims)}.`;
    await refused(activity(), `Bearer ${none}`, 401);
  });

  test('whose key may not speak for Teams is refused', async () => {
    const other = await keys('key-of-another-channel', ['webchat']);
    reseat.keys.published.push(...other.published);
    // Published from the beginning: the SDK has fetched the keys already and does so again after an hour.
    const fresh = await running();
    fresh.keys.published.push(...other.published);
    const said = fresh.person().activity({ text: 'hello' });
    const authorization = await other.sign({ serviceurl: fresh.teams.url });
    const response = await fetch(`${fresh.base}/api/messages`, {
      method: 'POST',
      headers: { 'content-type': 'application/json', authorization },
      body: JSON.stringify(said),
    });
    expect(response.status).toBe(401);
    expect(fresh.logged.map(({ details }) => String(details.why)).join()).toMatch(/endorsement/);
    await fresh.close();
  });
});

describe('an activity', () => {
  const good = async () => ({ authorization: await reseat.keys.sign({ serviceurl: serviceurl() }) });

  test('without a service address, or with one that is not of Teams, is refused though its token is good', async () => {
    for (const serviceUrl of [
      undefined,
      '',
      'https://evil.example/',
      'http://smba.trafficmanager.net/',
      'file:///etc/passwd',
      'https://smba.trafficmanager.net.evil.example/',
      'https://x@smba.trafficmanager.net/',
    ]) {
      const authorization = await reseat.keys.sign({ serviceurl: serviceUrl ?? '' });
      await refused(activity({ serviceUrl }), authorization, serviceUrl === undefined ? 400 : 403);
    }
  });

  test('of another organisation is refused though its token is good', async () => {
    const { authorization } = await good();
    const said = activity();
    await refused({ ...said, conversation: { ...said.conversation, tenantId: 'other' } }, authorization, 403);
    await refused({ ...said, channelData: { tenant: { id: 'other' } } }, authorization, 403);
    await refused(
      { ...said, channelData: {}, conversation: { id: said.conversation.id } },
      authorization,
      403,
    );
  });

  test('of another channel is refused', async () => {
    const { authorization } = await good();
    for (const channelId of ['emulator', 'webchat', 'AseChannel', undefined])
      await refused(activity({ channelId }), authorization, 400);
  });

  test('that is none, or too large, is refused, and the process lives', async () => {
    const headers = await good();
    for (const body of ['{}', '[]', '[1]', '"text"', 'null', '{', '', '{"type":"message"}', '{"type":5}'])
      expect(await post(body, headers)).toBe(400);
    expect(await post({}, {})).toBe(400);
    expect(await post({ ...activity(), text: 'x'.repeat(10_000_000) }, headers)).toBe(413);
    expect((await fetch(`${reseat.base}/api/messages`)).status).toBe(405);
    expect((await fetch(`${reseat.base}/api/messages`, { method: 'DELETE' })).status).toBe(405);
    expect((await fetch(`${reseat.base}/healthz`)).status).toBe(200);
    const said = activity();
    expect(await post(said, headers)).toBe(200);
  });

  test('as strange as it may be, is answered and changes nothing', async () => {
    const headers = await good();
    const base = activity({ text: undefined });
    const strange: Json[] = [
      { type: 'messageReaction', reactionsAdded: [{ type: 'like' }] },
      { type: 'messageUpdate', text: 'my pc does not start' },
      { type: 'messageDelete' },
      { type: 'typing' },
      { type: 'event', name: 'made-up', value: { a: 1 } },
      { type: 'somethingNew', unknown: { deep: [1, 2] } },
      { type: 'conversationUpdate', membersAdded: [{ id: '29:somebody' }] },
      { type: 'conversationUpdate', membersAdded: 'everybody' },
      { type: 'conversationUpdate', membersRemoved: [{ id: base.recipient.id }] },
      { value: { some: 'value' }, attachments: [{ contentType: 'text/html', content: '<p>x</p>' }] },
      {
        value: 7,
        entities: [{ type: 'mention' }, 5],
        attachments: [{ contentType: 'text/html', content: 5 }],
      },
      { text: { not: 'text' }, locale: 5, timestamp: {}, attachments: [{}] },
    ];
    for (const more of strange) expect(await post({ ...base, ...more }, headers)).toBe(200);
    await reseat.settled();
    expect(await began(base)).toBe(false);
  });
});

test('keys that cannot be fetched are not the sender’s fault: the activity is to come again', async () => {
  const fresh = await running();
  fresh.teams.always(({ what }) => (what === 'keys' ? { status: 500 } : null));
  const ada = fresh.person();
  expect((await ada.say('my pc does not start')).status).toBe(503);
  fresh.teams.always(null);
  expect((await ada.say('my pc does not start')).status).toBe(200);
  await fresh.close();
});

test('a new signing key is taken an hour later at most, and one that was withdrawn a day later at most', async () => {
  const fresh = await running();
  const [old] = fresh.keys.published;
  const next = await keys('key-of-tomorrow');
  const status = async (signed: typeof next) => {
    const said = fresh.person().activity({ text: 'hello' });
    const authorization = await signed.sign({ serviceurl: fresh.teams.url });
    const response = await fetch(`${fresh.base}/api/messages`, {
      method: 'POST',
      headers: { 'content-type': 'application/json', authorization },
      body: JSON.stringify(said),
    });
    return response.status;
  };
  const start = Date.now();
  vi.useFakeTimers({ toFake: ['Date'] });
  try {
    vi.setSystemTime(start);
    expect([await status(fresh.keys), await status(next)]).toEqual([200, 401]);
    fresh.keys.published.push(...next.published);
    vi.setSystemTime(start + 61 * 60_000);
    expect([await status(next), await status(fresh.keys)]).toEqual([200, 200]);
    fresh.keys.published.splice(fresh.keys.published.indexOf(old!), 1);
    vi.setSystemTime(start + 26 * 3_600_000);
    expect([await status(next), await status(fresh.keys)]).toEqual([200, 401]);
  } finally {
    vi.useRealTimers();
    await fresh.close();
  }
});

test('where every organisation is served, another one is too', async () => {
  const fresh = await running(':memory:', { MicrosoftAppType: 'MultiTenant' });
  const ada = fresh.person({ tenant: 'another-organisation' });
  expect((await ada.say('my pc does not start')).status).toBe(200);
  await fresh.settled();
  expect(ada.words()).toContain('?');
  await fresh.close();
});
