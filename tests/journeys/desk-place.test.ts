/** What the desk sees in a place of its own, and what a channel is told so that answered questions look answered. */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { type FakeChannel, fake } from '#channels/fake/send.ts';
import { isQuestion } from '#engine/messages.ts';
import type { Address, DeskAction } from '#talk/inbound.ts';
import { fewFlows } from '../support/few-flows.ts';
import { type Wiring, wiring } from '../support/wiring.ts';

const BOARD = 'fake:desk:room';
const ADDRESS: Address = {
  channel: 'fake',
  chat: 'fake:ada',
  to: {},
  person: { id: 'ada', name: 'Ada Holm', mail: null },
};

let clock: number;
let ids: number;
let channel: FakeChannel;
let wired: Wiring;
let folder: string;
let flows: string;
beforeEach(async () => {
  [clock, ids] = [1_000_000, 0];
  folder = mkdtempSync(join(tmpdir(), 'reseat-place-'));
  flows = fewFlows();
  channel = fake(() => clock);
  wired = await wiring({
    database: join(folder, 'reseat.db'),
    channels: [channel],
    now: () => clock++,
    id: () => `id${ids++}`,
    flows,
    boards: [BOARD],
    log: () => undefined,
  });
});
afterEach(async () => {
  await wired.close();
  rmSync(folder, { recursive: true });
  rmSync(flows, { recursive: true });
});

const types = async (text: string) => {
  await wired.take({ kind: 'text', identity: `t${ids++}`, at: clock, address: ADDRESS, text });
  await wired.drain();
  return channel.parcels.at(-1)!;
};
const asks = async () => {
  await wired.take({ kind: 'always', what: 'person', identity: `t${ids++}`, at: clock, address: ADDRESS });
  await wired.drain();
};
const acts = async (conversation: string, action: DeskAction) => {
  await wired.take({ kind: 'desk', identity: `d${ids++}`, at: clock, conversation, by: 'Bo Lind', action });
  await wired.drain();
};

describe('the desk’s place', () => {
  test('shows a ticket once and keeps that message current, with what happened below it', async () => {
    const { conversation } = await types('my drive is slow');
    await asks();
    const [first] = channel.cards;
    expect(first).toMatchObject({ lane: BOARD, conversation, ref: null, ticket: { number: 1001 } });
    expect(first!.fresh.map(({ kind }) => kind)).toContain('opened');
    await acts(conversation, { do: 'take' });
    await acts(conversation, { do: 'note', text: 'On my way.' });
    const [taken, noted] = channel.cards.slice(-2);
    expect(taken).toMatchObject({
      ref: 'card-1',
      ticket: { takenBy: 'Bo Lind' },
      fresh: [{ kind: 'taken' }],
    });
    expect(noted).toMatchObject({ ref: 'card-1', fresh: [{ kind: 'note', text: 'On my way.' }] });
  });

  test('waits while it cannot be reached, and holds no person up', async () => {
    await types('my drive is slow');
    channel.next = [
      { ok: true, ref: 'm', at: clock },
      { ok: false, again: true, after: 500, error: 'away' },
    ];
    await asks();
    expect(channel.cards).toEqual([]);
    clock += 600;
    await wired.drain();
    expect(channel.cards).toHaveLength(1);
  });

  test('that somebody has to set right first is waited for, however long that takes', async () => {
    await types('my drive is slow');
    const closed = { ok: false, again: true, after: 500, error: 'archived', patient: true } as const;
    channel.next = [{ ok: true, ref: 'm', at: clock }, ...Array.from({ length: 30 }, () => closed)];
    await asks();
    for (let attempt = 0; attempt < 30; attempt++) {
      clock += 600;
      await wired.drain();
    }
    expect(channel.cards).toMatchObject([{ again: true, ticket: { number: 1001 } }]);
  });

  test('a place of a channel that is not there does not stop the others', async () => {
    await wired.close();
    wired = await wiring({
      database: join(folder, 'other.db'),
      channels: [channel],
      now: () => clock++,
      id: () => `id${ids++}`,
      flows,
      boards: ['gone:desk:room', BOARD],
    });
    await types('my drive is slow');
    await asks();
    expect(channel.cards.map(({ lane }) => lane)).toEqual([BOARD]);
  });
});

describe('a question that is over', () => {
  test('is given back with what was chosen, so that it can be shown as answered', async () => {
    const opened = await types('my drive makes a noise');
    const question = opened.messages.findLast(isQuestion)!;
    const [answer] = question.answers;
    await wired.take({
      kind: 'press',
      identity: 'p1',
      at: clock,
      address: ADDRESS,
      conversation: opened.conversation,
      question: question.number,
      answer: answer!.id,
    });
    await wired.drain();
    expect(opened.before).toBeNull();
    expect(channel.parcels.at(-1)!.before).toMatchObject({
      ref: '1',
      messages: opened.messages,
      question: question.number,
      chosen: answer!.label,
    });
  });

  test('that is asked again below other news is given back as not answered', async () => {
    const { conversation } = await types('there is smoke coming out of my PC');
    await types('1');
    const asked = channel.parcels.at(-1)!.messages.findLast(isQuestion)!.number;
    await acts(conversation, { do: 'take' });
    const { before, messages } = channel.parcels.at(-1)!;
    expect(before).toMatchObject({ question: asked, chosen: null });
    expect(messages.findLast(isQuestion)!.number).toBe(asked);
  });

  test('is given back once', async () => {
    await types('my drive is slow');
    await asks();
    await types('One more thing: the blue one.');
    const given = channel.parcels.map(parcel => parcel.before !== null);
    expect(given).toEqual([false, true, false]);
  });
});
