/** Files that lie with the platform: fetched after the commit, in a lane of their own, and what comes of it reaches the person. */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import type { Fetched } from '#channels/channel.ts';
import { type FakeChannel, fake } from '#channels/fake/send.ts';
import type { Address, Lying } from '#talk/inbound.ts';
import { fewFlows } from '../support/few-flows.ts';
import { type Wiring, wiring } from '../support/wiring.ts';

const ADDRESS: Address = {
  channel: 'fake',
  chat: 'fake:ada',
  to: {},
  person: { id: 'ada', name: null, mail: null },
};
const FILE: Lying = { id: 'F1', name: 'screen.png', size: 3, url: 'https://there.example/f1' };

let clock: number;
let channel: FakeChannel & { fetched: Lying[]; then: Fetched[] };
let wired: Wiring;
let folder: string;
let flows: string;
beforeEach(async () => {
  clock = 1_000_000;
  folder = mkdtempSync(join(tmpdir(), 'reseat-files-'));
  flows = fewFlows();
  const fetched: Lying[] = [];
  const then: Fetched[] = [];
  channel = Object.assign(
    fake(() => clock),
    {
      fetched,
      then,
      async fetch(file: Lying): Promise<Fetched> {
        fetched.push(file);
        return then.shift() ?? { ok: true, type: 'image/png', content: new Uint8Array([1, 2, 3]) };
      },
    },
  );
  let ids = 0;
  const given = { now: () => clock, id: () => `id${ids++}`, flows, log: () => undefined };
  wired = await wiring({ ...given, database: join(folder, 'reseat.db'), channels: [channel] });
});
afterEach(async () => {
  await wired.close();
  rmSync(folder, { recursive: true });
  rmSync(flows, { recursive: true });
});

const sends = async (identity: string) => {
  await wired.take({ kind: 'files', identity, at: clock, address: ADDRESS, files: [FILE] });
  await wired.drain();
};
const said = () =>
  channel.parcels.flatMap(({ messages }) => messages.map(each => ('text' in each ? each.text : '')));

describe('a file that lies with the platform', () => {
  test('is kept with the conversation, once, however often it is told of', async () => {
    await sends('m1');
    await sends('m1');
    expect(channel.fetched).toEqual([FILE]);
    const entries = (await wired.store.currentOf(ADDRESS.chat))!.entries;
    expect(entries.filter(({ kind }) => kind === 'attached')).toMatchObject([
      { name: 'screen.png', bytes: 3 },
    ]);
    expect(said().join()).toContain('I have kept the picture “screen.png”');
  });

  test('is fetched again later when it could not be had, and holds no words up meanwhile', async () => {
    channel.then.push({ ok: false, again: true, after: 60_000, error: 'not now' });
    await sends('m1');
    await wired.take({ kind: 'text', identity: 'm2', at: clock, address: ADDRESS, text: 'it clicks' });
    await wired.drain();
    expect(said().length).toBeGreaterThan(0);
    expect(said().join()).not.toContain('screen.png');
    clock += 60_000;
    await wired.drain();
    expect(said().join()).toContain('“screen.png”');
  });

  test('that is refused is said so, with what to do', async () => {
    channel.then.push({ ok: false, refused: 'That is too large. A smaller one will do.' });
    await sends('m1');
    expect(said().join()).toContain('“screen.png”: That is too large. A smaller one will do.');
  });

  test('that can never be had is said so at last', async () => {
    channel.then.push(
      ...Array.from({ length: 12 }, (): Fetched => ({ ok: false, again: true, after: 1, error: 'no' })),
    );
    await sends('m1');
    for (let turn = 0; turn < 12; turn++) {
      clock += 2;
      await wired.drain();
    }
    expect(said().join()).toContain('I could not fetch that. Please send it again.');
  });
});
