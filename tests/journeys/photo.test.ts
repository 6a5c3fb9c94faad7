/** A photo sent in the web chat, through the real wiring and the real reader. */
import { setTimeout as sleep } from 'node:timers/promises';
import sharp from 'sharp';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { draw } from '../reading/screens/draw.ts';
import { type Client, client, openQuestion, type Web, web } from '../support/web.ts';

let site: Web;
beforeAll(async () => {
  site = await web(':memory:', {}, { looks: true });
});
afterAll(() => site.close());

async function shows(one: Client, text: string): Promise<string> {
  for (;;) {
    const page = await one.page();
    if (page.includes(text)) return page;
    await sleep(200);
  }
}
const photo = (lines: string[]) =>
  sharp(draw({ id: null, style: 'blue', lines }, false))
    .jpeg()
    .toBuffer();

test('what its screen shows is asked about, and the conversation goes on from there', async () => {
  const one = client(site.base);
  await one.post('/say', { text: 'help' });
  await one.upload(await photo(['Stop code: UNMOUNTABLE_BOOT_VOLUME', '20% complete']), 'screen.jpg');
  const page = await shows(one, 'Your photo seems to show');
  expect(page).toContain('UNMOUNTABLE_BOOT_VOLUME');
  const { conversation, question, answers } = openQuestion(page);
  expect(answers).toEqual(['yes', 'no']);
  await one.post('/answer', { conversation, question, answer: 'yes' });
  expect((await site.store.conversation(conversation))?.symptom).toBe('boot-read-error');
});

test('a password on it is gone from what is kept, and the person is told', async () => {
  const one = client(site.base);
  await one.post('/say', { text: 'hello' });
  const sent = await photo(['Sign in to the office', 'User: ada', 'Password: Tr0ub4dor&3', 'Domain: office']);
  await one.upload(sent, 'screen.jpg');
  await shows(one, 'I have covered');
  const picture = /\/picture\/([\w-]+)/.exec(await one.page())![1]!;
  const kept = (await site.store.file(picture))!;
  expect(kept.type).toBe('image/jpeg');
  expect(Buffer.from(kept.content).equals(sent)).toBe(false);
});

test('a reading as a file stands in the talk, can be opened again, and nothing runs in it', async () => {
  const one = client(site.base);
  await one.post('/say', { text: 'hello' });
  await one.upload(Buffer.from('<script>alert(1)</script> { "Wear": 3 }'), 'counters.json');
  const page = await shows(one, 'File: counters.json');
  expect(page).not.toContain('<script>alert');
  const file = /href="(\/picture\/[\w-]+)"/.exec(page)![1]!;
  const got = await one.get(file);
  expect(got.headers.get('content-type')).toBe('text/plain; charset=utf-8');
  expect(got.headers.get('x-content-type-options')).toBe('nosniff');
  expect(got.headers.get('content-security-policy')).toContain('sandbox');
  expect(await got.text()).toContain('"Wear": 3');
});
