import { sql } from 'kysely';
import sharp from 'sharp';
import { afterAll, afterEach, beforeAll, describe, expect, test } from 'vitest';
import { within } from '#store/schema.ts';
import { client, openQuestion, type Web, web } from '../../support/web.ts';

const CLICKS = 'my pc makes a clicking noise';

describe('the web chat over HTTP', () => {
  let site: Web;
  beforeAll(async () => {
    site = await web();
  });
  afterAll(() => site.close());
  const begun = async () => {
    const one = client(site.base);
    await one.post('/say', { text: CLICKS });
    return { one, ...openQuestion(await one.page()) };
  };

  test('every page forbids scripts that are not its own, frames, sniffing, and being kept by proxies', async () => {
    const { headers } = await client(site.base).get('/');
    expect(headers.get('content-security-policy')).toBe(
      "default-src 'self'; base-uri 'none'; form-action 'self'; frame-ancestors 'none'; object-src 'none'",
    );
    expect(headers.get('x-content-type-options')).toBe('nosniff');
    expect(headers.get('x-frame-options')).toBe('DENY');
    expect(headers.get('cache-control')).toBe('no-store');
    expect(headers.get('x-powered-by')).toBeNull();
  });

  test('no page has a script or a style written into it', async () => {
    const { one } = await begun();
    const pages = await Promise.all(
      ['/', '/keep', '/nowhere', '/go/x'].map(async path => (await one.get(path)).text()),
    );
    for (const page of pages) {
      expect(page).not.toMatch(/ on[a-z]+=|style=|<style|<script(?! type="module" src=)/);
    }
  });

  test("a person's words are never markup, wherever they come up again", async () => {
    const one = client(site.base);
    const hostile = `${CLICKS} <img src=x onerror=alert(1)> "><script>alert(2)</script> ' **bold** [x](javascript:alert(3))`;
    await one.post('/say', { text: hostile });
    await one.post('/say', { text: hostile });
    const page = await one.page();
    expect(page).toContain('&lt;img src=x onerror=alert(1)&gt;');
    expect(page).not.toMatch(/<img src=x|<script>|href="javascript|<strong>bold/);
  });

  test('after a form, without the script, one is led to where the newest begins: a caution comes before its question', async () => {
    const { one } = await begun();
    const said = await one.post('/say', { text: 'what?' });
    const anchor = said.headers.get('location')!.slice(2);
    const page = await one.page();
    expect(page).toContain(`id="${anchor}"`);
    expect(page.indexOf(`id="${anchor}"`)).toBeLessThan(page.indexOf('id="now"'));
  });

  test('the same form sent twice is taken once', async () => {
    const { one, conversation, question, answers } = await begun();
    const press = { id: 'double-click', conversation, question, answer: answers.at(-1)! };
    await Promise.all([one.post('/answer', press), one.post('/answer', press)]);
    const page = await one.page();
    expect(page.match(/class="person/g)).toHaveLength(2);
    expect(page).not.toContain('You answered that already');
  });

  test('an old button changes nothing and is answered kindly', async () => {
    const { one, conversation, question, answers } = await begun();
    await one.post('/answer', { conversation, question, answer: answers.at(-1)! });
    const next = openQuestion(await one.page());
    await one.post('/answer', { conversation, question, answer: answers[0]! });
    const page = await one.page();
    expect(page).toContain('You answered that already');
    expect(openQuestion(page)).toEqual(next);
  });

  test('without the cookie, the secret, or from another site nothing is taken', async () => {
    const { one } = await begun();
    const before = await one.page();
    const refused = [
      await one.post('/say', { text: 'x', csrf: 'A'.repeat(43) }),
      await one.post('/say', { text: 'x' }, { origin: 'https://elsewhere.example' }),
      await one.post('/say', { text: 'x' }, { origin: 'null' }),
      await one.post('/say', { text: 'x' }, { 'sec-fetch-site': 'cross-site' }),
      await one.post('/say', { text: 'x' }, { 'sec-fetch-site': 'same-site' }),
      await one.post('/keep', {}, { 'sec-fetch-site': 'cross-site' }),
      await client(site.base).post('/say', { text: 'x', csrf: 'x' }, { cookie: '' }),
    ];
    expect(refused.map(({ status }) => status)).toEqual([403, 403, 403, 403, 403, 403, 403]);
    expect(openQuestion(await one.page())).toEqual(openQuestion(before));
    expect((await one.page()).match(/class="person/g)).toHaveLength(1);
  });

  test('words in a form that cannot be taken are given back, to be sent again', async () => {
    const { one } = await begun();
    const page = await (await one.post('/say', { text: 'a long <story>', csrf: 'old' })).text();
    expect(page).toContain('Nothing of what you wrote is lost');
    expect(page).toContain('>a long &lt;story&gt;</textarea>');
    const csrf = /name="csrf" value="([^"]+)"/.exec(page)![1]!;
    expect((await one.post('/say', { text: 'a long <story>', csrf })).status).toBe(303);
  });

  test('a name that was pointed at this machine from outside gets no page', async () => {
    const port = new URL(site.base).port;
    const { request } = await import('node:http');
    const status = await new Promise(resolve =>
      request({ port, host: '127.0.0.1', headers: { host: 'evil.example' } }, response =>
        resolve(response.statusCode),
      ).end(),
    );
    expect(status).toBe(421);
  });

  test("a picture is its chat's alone", async () => {
    const { one } = await begun();
    const content = await sharp({ create: { width: 8, height: 8, channels: 3, background: 'red' } })
      .png()
      .toBuffer();
    expect((await one.upload(content, '../"x".png')).status).toBe(303);
    const path = /src="(\/picture\/[^"]+)"/.exec(await one.page())![1]!;
    const picture = await one.get(path);
    expect(picture.status).toBe(200);
    expect(picture.headers.get('content-type')).toBe('image/png');
    expect(picture.headers.get('content-security-policy')).toContain('sandbox');
    expect((await client(site.base).get(path)).status).toBe(404);
    expect((await one.get('/picture/none')).status).toBe(404);
  });

  test('a picture may come before any words', async () => {
    const one = client(site.base);
    const content = await sharp({ create: { width: 8, height: 8, channels: 3, background: 'blue' } })
      .webp()
      .toBuffer();
    await one.upload(content, 'light.webp');
    const page = await one.page();
    expect(page).toContain('alt="Your picture: light.webp"');
    expect(page).toContain('What is the problem?');
    await one.post('/say', { text: CLICKS });
    expect(openQuestion(await one.page()).answers.length).toBeGreaterThan(0);
  });

  test.each([
    ['a page named .png', Buffer.from('<!doctype html><script>x</script>'), /PNG, JPEG or WebP/],
    ['a program named .png', Buffer.from([0x4d, 0x5a, 0x90, 0, 3]), /PNG, JPEG or WebP/],
    [
      'a HEIC',
      Buffer.concat([Buffer.from([0, 0, 0, 24]), Buffer.from('ftypheic00000000')]),
      /Most Compatible/,
    ],
    ['an empty file', Buffer.alloc(0), /empty/],
    ['a picture that did not arrive whole', Buffer.from([0xff, 0xd8, 0xff, 0xe0, 0, 16]), /damaged/],
  ])('%s is refused, with what to do', async (_, content, words) => {
    const { one } = await begun();
    const response = await one.upload(content, 'a.png');
    expect(response.status).toBe(415);
    expect(await response.text()).toMatch(words);
    expect(await one.page()).not.toContain('class="shot"');
  });

  test('more than 10 MB, or a text beyond all measure, is told to be too large', async () => {
    const { one } = await begun();
    const big = await one.upload(Buffer.alloc(10 * 1024 * 1024 + 100), 'a.png');
    expect([big.status, (await big.text()).includes('10 MB')]).toEqual([415, true]);
    const bigger = await one.upload(Buffer.alloc(11 * 1024 * 1024), 'a.png');
    expect([bigger.status, (await bigger.text()).includes('10 MB')]).toEqual([413, true]);
    const text = await one.post('/say', { text: 'x'.repeat(1_100_000) });
    expect([text.status, (await text.text()).includes('40,000')]).toEqual([413, true]);
  });

  test('what is no form of the page gets one clear answer', async () => {
    const { one } = await begun();
    const odd = [
      await one.post('/say', { id: '!', text: 'x' }),
      await one.post('/answer', { question: 'x' }),
      await one.post('/always', { what: 'delete' }),
      await one.get('/picture', {}),
      await one.get('/nowhere'),
    ];
    expect(odd.map(({ status }) => status)).toEqual([400, 400, 400, 404, 404]);
    const raw = await fetch(`${site.base}/picture`, {
      method: 'POST',
      body: 'x',
      headers: { cookie: one.cookie(), 'content-type': 'multipart/form-data; boundary=b' },
    });
    expect(raw.status).toBe(400);
  });

  test('a link that is wrong opens nothing and says what to do', async () => {
    for (const path of ['/go/x', `/go/${'A'.repeat(43)}`, '/go/%3Cscript%3E']) {
      const response = await client(site.base).get(path);
      expect(response.status).toBe(404);
      expect(await response.text()).toContain('make a new one');
    }
  });

  test('an expired link opens nothing', async () => {
    const { one } = await begun();
    await one.post('/keep');
    const link = /value="http:\/\/[^/]+(\/go\/[\w-]{43})"/.exec(await (await one.get('/keep')).text())![1]!;
    const other = client(site.base);
    expect((await other.get(link)).status).toBe(200);
    site.later(7 * 24 * 3_600_000);
    expect((await other.get(link)).status).toBe(404);
    expect((await other.post(link)).status).toBe(404);
  });

  test('looking at a link, as a preview does, opens nothing; the button does', async () => {
    const { one } = await begun();
    await one.post('/keep');
    const link = /value="http:\/\/[^/]+(\/go\/[\w-]{43})"/.exec(await (await one.get('/keep')).text())![1]!;
    const other = client(site.base);
    await other.get(link);
    expect(await other.page()).not.toContain(CLICKS);
    await other.post('/say', { text: 'no boot device found' });
    expect(await (await other.get(link)).text()).toContain('This browser has a conversation of its own');
    expect((await other.post(link)).status).toBe(303);
    expect(await other.page()).toContain(CLICKS);
  });

  test('news reach an open page at once', async () => {
    const { one } = await begun();
    const stream = await one.get('/events');
    const reader = stream.body!.pipeThrough(new TextDecoderStream()).getReader();
    let heard = '';
    const until = async (words: string) => {
      while (!heard.includes(words)) heard += (await reader.read()).value ?? '';
    };
    await until('event: hello');
    await one.post('/always', { what: 'person' });
    await until('event: news');
    await reader.cancel();
  });

  test('alive and ready are told to whoever asks, by any name', async () => {
    expect(await (await fetch(`${site.base}/healthz`)).text()).toBe('alive\n');
    expect(await (await fetch(`${site.base}/readyz`)).text()).toBe('ready\n');
  });
});

describe('too much', () => {
  let site: Web;
  afterEach(() => site.close());

  test('one chat that floods is told kindly, keeps its words, and is heard again after a moment', async () => {
    site = await web();
    const one = client(site.base);
    await one.post('/say', { text: CLICKS });
    const statuses: number[] = [];
    let last = '';
    for (let time = 0; time < 40; time++) {
      const response = await one.post('/say', { text: `flood ${time}` });
      statuses.push(response.status);
      last = await response.text();
      if (response.status === 429) expect(Number(response.headers.get('retry-after'))).toBeGreaterThan(0);
    }
    expect(statuses.filter(status => status === 429).length).toBeGreaterThan(5);
    expect(last).toContain('not that quickly');
    expect(last).toContain('>flood 39</textarea>');
    site.later(30_000);
    expect((await one.post('/say', { text: 'calm again' })).status).toBe(303);
  });

  test('one address that floods is stopped before anything is read; its neighbour is not', async () => {
    site = await web(':memory:', { RESEAT_PUBLIC_URL: 'http://127.0.0.1' });
    const flood = client(site.base, { 'x-forwarded-for': '192.0.2.1' });
    const calm = client(site.base, { 'x-forwarded-for': '192.0.2.2' });
    const responses = await Promise.all(
      Array.from({ length: 400 }, () => flood.post('/say', { text: 'x', csrf: 'x' })),
    );
    expect(responses.filter(({ status }) => status === 429).length).toBeGreaterThan(50);
    expect((await calm.post('/say', { text: CLICKS })).status).toBe(303);
  });

  test('one address that only looks, and does nothing else, is slowed down too', async () => {
    site = await web(':memory:', { RESEAT_PUBLIC_URL: 'http://127.0.0.1' });
    const looks = client(site.base, { 'x-forwarded-for': '192.0.2.7' });
    const statuses: number[] = [];
    for (let time = 0; time < 30; time++) {
      const some = await Promise.all(Array.from({ length: 30 }, () => looks.get('/picture/none')));
      statuses.push(...some.map(({ status }) => status));
    }
    expect(statuses).toContain(429);
    expect(statuses.slice(0, 300)).not.toContain(429);
  });

  test('a full disk is told in words, nothing is taken, and the words are given back', async () => {
    site = await web();
    const one = client(site.base);
    await one.post('/say', { text: CLICKS });
    const before = await one.page();
    const pages = (limit: string) =>
      site.store.transaction(tx => sql.raw(`pragma max_page_count = ${limit}`).execute(within(tx)));
    await pages('1');
    const text = `not lost ${'x'.repeat(30_000)}`;
    const response = await one.post('/say', { text });
    expect(response.status).toBe(507);
    const page = await response.text();
    expect(page).toContain('My disk is full');
    expect(page).toContain(text);
    expect(site.logged).toContain('web-request-failed');
    await pages('100000');
    expect(openQuestion(await one.page())).toEqual(openQuestion(before));
    expect((await one.post('/say', { text: 'not sure' })).status).toBe(303);
  });
});

describe('where it listens', () => {
  test('behind an address with TLS the cookie is for TLS only, and browsers are told to stay with it', async () => {
    const site = await web(':memory:', { RESEAT_PUBLIC_URL: 'https://reseat.example' });
    const { headers } = await fetch(site.base);
    expect(headers.getSetCookie()[0]).toMatch(/^__Host-reseat=.*; Secure$/);
    expect(headers.get('strict-transport-security')).toContain('max-age');
    await site.close();
  });
});

describe('coming back', () => {
  let site: Web;
  beforeAll(async () => {
    site = await web();
  });
  afterAll(() => site.close());

  test('after hours there is one nudge; an answer of the day before is not taken for the situation of today', async () => {
    const one = client(site.base);
    await one.post('/say', { text: CLICKS });
    const before = await one.page();
    site.later(5 * 3_600_000);
    await expect.poll(async () => (await one.page()).includes('Are you still there?')).toBe(true);
    const page = await one.page();
    expect(page).toContain('Is that still what this is about?');
    // The button that was on the screen the evening before.
    const { conversation, question, answers } = openQuestion(before);
    await one.post('/answer', { conversation, question, answer: answers[0]! });
    expect(openQuestion(await one.page()).answers).toEqual(['same', 'solved', 'new']);
    const asked = openQuestion(await one.page());
    await one.post('/answer', {
      conversation: asked.conversation,
      question: asked.question,
      answer: 'same',
    });
    expect(openQuestion(await one.page()).answers).toEqual(answers);
  });

  test('at a computer that others use, the browser can forget; the words stay with the desk', async () => {
    const one = client(site.base);
    await one.post('/say', { text: CLICKS });
    await one.page();
    const response = await one.post('/forget');
    expect(response.headers.get('clear-site-data')).toBe('"storage"');
    expect(await one.page()).not.toContain(CLICKS);
    expect((await site.store.counts()).conversations).toBeGreaterThan(0);
  });

  test('a new matter stands below the old one, which stays to be read', async () => {
    const one = client(site.base);
    await one.post('/say', { text: CLICKS });
    await one.post('/always', { what: 'stop' });
    await one.post('/say', { text: 'the H: drive is not there any more' });
    const page = await one.page();
    expect(page).toContain('An earlier matter');
    expect(page.indexOf(CLICKS)).toBeLessThan(page.indexOf('the H: drive is not there'));
  });
});
