/** The web chat: 200 people at once, ten turns each, over real HTTP against a server in a process of its own; and what a page weighs. */
import { Agent, request } from 'node:http';
import { launch, person } from '../support/browser.ts';
import { serving } from '../support/serving.ts';
import { openQuestion } from '../support/web.ts';
import { say } from './figures.ts';

const PEOPLE = 200;
const TURNS = 10;

export async function web(): Promise<void> {
  const site = await serving();
  try {
    await site.start();
    await firstQuestion(site.base);
    await weigh(site.base);
    await crowd(site.base);
  } finally {
    await site.remove();
  }
}

interface Answer {
  status: number;
  body: string;
  cookie: string | null;
}

/** A person's own connection, from an address of their own: this machine has a whole net of them. */
function talkFrom(base: string, index: number) {
  const { hostname, port } = new URL(base);
  const localAddress = `127.0.${1 + Math.floor(index / 250)}.${1 + (index % 250)}`;
  const agent = new Agent({ keepAlive: true, maxSockets: 1 });
  let cookie = '';
  const call = (method: 'GET' | 'POST', path: string, fields?: Record<string, string>) =>
    new Promise<Answer>((resolve, reject) => {
      const body = fields === undefined ? '' : new URLSearchParams(fields).toString();
      const headers = {
        accept: method === 'POST' ? 'application/json' : 'text/html',
        'content-type': 'application/x-www-form-urlencoded',
        'content-length': Buffer.byteLength(body),
        ...(cookie ? { cookie } : {}),
      };
      const sent = request({ hostname, port, localAddress, agent, method, path, headers }, response => {
        let text = '';
        response.setEncoding('utf8');
        response.on('data', chunk => {
          text += chunk;
        });
        response.on('end', () => {
          const set = response.headers['set-cookie']?.[0]?.split(';')[0] ?? null;
          if (set !== null) cookie = set;
          resolve({ status: response.statusCode ?? 0, body: text, cookie: set });
        });
      });
      sent.on('error', reject);
      sent.end(body);
    });
  return { call, end: () => agent.destroy() };
}

async function crowd(base: string): Promise<void> {
  const times: number[] = [];
  let errors = 0;
  const started = performance.now();
  await Promise.all(
    Array.from({ length: PEOPLE }, async (_, index) => {
      const talk = talkFrom(base, index);
      const first = await talk.call('GET', '/');
      const csrf = /name="csrf" value="([^"]+)"/.exec(first.body)?.[1] ?? '';
      let next: { path: string; fields: Record<string, string> } = {
        path: '/say',
        fields: {
          text: index % 2 === 0 ? 'my pc makes a clicking noise' : 'no bootable device found on my laptop',
        },
      };
      for (let turn = 0; turn < TURNS; turn++) {
        const began = performance.now();
        const { status, body } = await talk.call('POST', next.path, {
          ...next.fields,
          csrf,
          id: `bench-${index}-${turn}`,
        });
        times.push(performance.now() - began);
        if (status !== 200) errors += 1;
        next = nextOf(status === 200 ? JSON.parse(body).parts.now : '');
      }
      talk.end();
    }),
  );
  const seconds = (performance.now() - started) / 1000;
  const sorted = times.toSorted((a, b) => a - b);
  const at = (share: number) => Math.round(sorted[Math.floor((sorted.length - 1) * share)] ?? 0);
  say(
    `web: ${PEOPLE} people at once, ${TURNS} turns`,
    `p50 ${at(0.5)} ms, p99 ${at(0.99)} ms, ${errors} errors; ${Math.round(times.length / seconds)} turns a second`,
  );
}

/** The last answer is mostly "not sure", which leads furthest. */
function nextOf(now: string): { path: string; fields: Record<string, string> } {
  const { conversation, question, answers } = openQuestion(now);
  const answer = answers.at(-1);
  return answer === undefined
    ? { path: '/say', fields: { text: 'first time, nothing was tried' } }
    : { path: '/answer', fields: { conversation, question, answer } };
}

async function weigh(base: string): Promise<void> {
  const page = await (await fetch(base)).text();
  const addresses = [...page.matchAll(/(?:href|src)="(\/static\/[^"]+)"/g)].map(found => found[1]!);
  let plain = Buffer.byteLength(page);
  let sent = plain;
  for (const address of new Set(addresses)) {
    const { call, end } = talkFrom(base, 0);
    plain += Buffer.byteLength((await call('GET', address)).body);
    end();
    const packed = await fetch(base + address, { headers: { 'accept-encoding': 'gzip' } });
    sent += Number(packed.headers.get('content-length'));
    await packed.arrayBuffer();
  }
  say(
    'web: weight of the first page',
    `${kilo(plain)}, ${kilo(sent)} as sent, in ${new Set(addresses).size + 1} files`,
  );
}

const kilo = (bytes: number) => `${(bytes / 1000).toFixed(1)} kB`;

async function firstQuestion(base: string): Promise<void> {
  const browser = await launch();
  const page = await (await person(browser)).newPage();
  const opened = performance.now();
  await page.goto(base);
  const loaded = performance.now();
  await page.fill('#text', 'my pc makes a clicking noise');
  const sent = performance.now();
  await page.click('.send');
  await page.locator('#now .answers').waitFor();
  const asked = performance.now();
  await browser.close();
  say(
    'web: a browser, nothing cached',
    `page in ${Math.round(loaded - opened)} ms, first question ${Math.round(asked - sent)} ms after sending`,
  );
}
