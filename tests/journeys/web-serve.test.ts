/** `reseat serve` as an operator meets it. */
import { spawnSync } from 'node:child_process';
import { once } from 'node:events';
import { createServer } from 'node:http';
import type { AddressInfo } from 'node:net';
import { afterEach, expect, test } from 'vitest';
import { type Serving, serving } from '../support/serving.ts';
import { client, openQuestion } from '../support/web.ts';

const sites: Serving[] = [];
afterEach(async () => {
  for (const site of sites.splice(0)) await site.remove();
});
const started = async (settings?: Record<string, string>) => {
  const site = await serving(settings);
  sites.push(site);
  await site.start();
  return site;
};

test('it prints its address, says nothing else, and ends well when asked to', async () => {
  const site = await started();
  expect(site.output()).toBe(`Reseat is ready: ${site.base}\n`);
  const one = client(site.base);
  await one.get('/events');
  expect(await site.stop()).toBe(0);
});

test('beyond this machine without TLS it warns', async () => {
  const site = await started({ HOST: '0.0.0.0' });
  expect(site.output()).toMatch(/Careful: .*without TLS.*RESEAT_PUBLIC_URL/);
});

test("a desk's place on a platform that it has no secrets of is told of", async () => {
  const site = await started({ TEAMS_DESK_CONVERSATION: '19:abc@thread.tacv2' });
  expect(site.output()).toContain('shown in 19:abc@thread.tacv2 (teams), but MicrosoftAppId is not set here');
});

test('with an address behind TLS it does not', async () => {
  const site = await started({ HOST: '0.0.0.0', RESEAT_PUBLIC_URL: 'https://reseat.example' });
  expect(site.output()).toBe('Reseat is ready: https://reseat.example\n');
});

test('a port that is taken is told in one line, with what to do', async () => {
  const other = createServer().listen(0, '127.0.0.1');
  await once(other, 'listening');
  const { port } = other.address() as AddressInfo;
  const env = { ...process.env, PORT: String(port), RESEAT_DATABASE: ':memory:' };
  const { status, stderr } = spawnSync(process.execPath, ['src/main.ts', 'serve'], {
    env,
    encoding: 'utf8',
  });
  expect(status).toBe(2);
  expect(stderr).toBe(
    `reseat: Cannot listen on 127.0.0.1:${port}: something else listens there already; stop it, or set PORT to another number.\n`,
  );
  other.close();
});

test('what the desk does in another process reaches the open page', async () => {
  const site = await started();
  const one = client(site.base);
  await one.post('/say', { text: 'my pc makes a clicking noise' });
  await one.post('/always', { what: 'person' });
  const number = /hand-over-number">(R-\d+)</.exec(await one.page())![1]!;
  const stream = (await one.get('/events')).body!.pipeThrough(new TextDecoderStream()).getReader();
  let heard = '';
  while (!heard.includes('hello')) heard += (await stream.read()).value ?? '';
  const env = { ...process.env, RESEAT_DATABASE: site.database };
  const asked = spawnSync(
    process.execPath,
    ['src/main.ts', 'tickets', 'ask', number, 'Is the drive in the left bay?'],
    { env, encoding: 'utf8' },
  );
  expect(asked.status).toBe(0);
  while (!heard.includes('news')) heard += (await stream.read()).value ?? '';
  await stream.cancel();
  expect(await one.page()).toContain('Is the drive in the left bay?');
  await one.post('/say', { text: 'Yes, the left one' });
  expect(await one.page()).toContain('passed that on to the desk');
  expect(openQuestion(await one.page()).answers).toEqual([]);
});
