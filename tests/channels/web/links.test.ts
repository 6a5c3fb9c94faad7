import { describe, expect, test } from 'vitest';
import { chatOf, cookieHeader, csrfFits, csrfOf, newToken, tokenIn } from '#channels/web/cookie.ts';
import { linkFor, makeLink, opened } from '#channels/web/links.ts';
import { openStore } from '#store/open.ts';

const DAY = 24 * 3_600_000;

describe('who is looking', () => {
  test('the chat is a hash: whoever reads the database finds no cookie in it', () => {
    const token = newToken();
    expect(chatOf(token)).toMatch(/^web:[\w-]{43}$/);
    expect(chatOf(token)).not.toContain(token);
    expect(chatOf(newToken())).not.toBe(chatOf(token));
  });

  test('over TLS the cookie is for this host and TLS alone; always closed to scripts and other sites', () => {
    expect(cookieHeader('t', false)).toMatch(/^reseat=t; Path=\/; Max-Age=\d+; HttpOnly; SameSite=Lax$/);
    expect(cookieHeader('t', true)).toMatch(/^__Host-reseat=t; .*HttpOnly; SameSite=Lax; Secure$/);
  });

  test('only a token of ours is read, under the name that fits', () => {
    const token = newToken();
    expect(tokenIn(`a=b; reseat=${token}`, false)).toBe(token);
    expect(tokenIn(`reseat=${token}`, true)).toBeNull();
    expect(tokenIn('reseat=short', false)).toBeNull();
    expect(tokenIn(undefined, false)).toBeNull();
  });

  test("a form's secret fits its own cookie and no other", () => {
    const token = newToken();
    expect(csrfFits(token, csrfOf(token))).toBe(true);
    for (const other of [csrfOf(newToken()), '', undefined, ['x'], `${csrfOf(token)}x`])
      expect(csrfFits(token, other)).toBe(false);
  });
});

describe('a link to go on elsewhere', () => {
  test('opens its chat, until it expires', async () => {
    const store = await openStore(':memory:');
    const token = newToken();
    expect(await linkFor(store, token, 'https://r.example', 0)).toBeNull();
    await makeLink(store, token, 1000);
    const link = await linkFor(store, token, 'https://r.example', 2000);
    const secret = link!.address.replace('https://r.example/go/', '');
    expect(await opened(store, secret, 2000)).toBe(token);
    expect(await opened(store, secret, 1000 + 7 * DAY - 1)).toBe(token);
    expect(await opened(store, secret, 1000 + 7 * DAY)).toBeNull();
    expect(await linkFor(store, token, 'https://r.example', 1000 + 7 * DAY)).toBeNull();
    await store.close();
  });

  test('nothing that is stored opens anything, and a changed link opens nothing', async () => {
    const store = await openStore(':memory:');
    const token = newToken();
    await makeLink(store, token, 1);
    const kept = await store.newestLink(chatOf(token), 2);
    const secret = (await linkFor(store, token, '', 2))!.address.slice('/go/'.length);
    expect(JSON.stringify(kept)).not.toContain(token);
    expect(JSON.stringify(kept)).not.toContain(secret);
    for (const wrong of [
      kept!.hash,
      kept!.sealed,
      `${secret.slice(0, -1)}${secret.endsWith('A') ? 'B' : 'A'}`,
      '',
      'x'.repeat(5000),
    ])
      expect(await opened(store, wrong, 2)).toBeNull();
    await store.close();
  });

  test('its holder can make it invalid', async () => {
    const store = await openStore(':memory:');
    const token = newToken();
    await makeLink(store, token, 1);
    const secret = (await linkFor(store, token, '', 2))!.address.slice('/go/'.length);
    await store.withdrawLinks(chatOf(token));
    expect(await opened(store, secret, 2)).toBeNull();
    await store.close();
  });
});
