/** What store.ts promises about what goes out, held against every database alike. */
import { expect, test } from 'vitest';
import type { NewOutgoing, Store } from '#store/store.ts';
import type { Inbound } from '#talk/inbound.ts';
import { at, inTurn, onEveryDatabase, said, sendAll } from '../store/databases.ts';

const ALL = ['fake:', 'relay:'];
const due = (store: Store, now = 10, limit = 99, lanes = ALL) => store.dueLanes(now, limit, lanes);
const first = async (store: Store, lane = 'fake:c1') => (await store.firstWaiting(lane))!;
const asking = (text: string, question: number) => ({ ...said(text), question }) as NewOutgoing;
const words = (row: NewOutgoing) =>
  row.kind === 'messages' ? row.messages : row.kind === 'relay' ? row.inbound : row;

onEveryDatabase(given => {
  test('a lane gives its rows in the order in which they were created, one after the other', async () => {
    const store = await given.open();
    await sendAll(store, [said('one'), said('aside', 'c2'), said('two')]);
    await sendAll(store, [said('three')]);
    await sendAll(store, []);
    const heard: unknown[] = [];
    for (let row = await store.firstWaiting('fake:c1'); row; row = await store.firstWaiting('fake:c1')) {
      heard.push(words(row));
      await store.sent(row, 'm1', 9);
    }
    expect(heard).toEqual(['one', 'two', 'three'].map(text => [{ kind: 'say', text }]));
    expect(await due(store)).toEqual(['fake:c2']);
  });

  test('lanes come when their first row is due, the oldest first, and no more than asked for', async () => {
    const store = await given.open();
    const later = { ...said('later', 'c1'), dueAt: 50 };
    await sendAll(store, [said('a', 'c3'), later, said('b', 'c2'), said('behind it', 'c1')]);
    expect(await due(store, 10)).toEqual(['fake:c3', 'fake:c2']);
    expect(await due(store, 50)).toEqual(['fake:c3', 'fake:c1', 'fake:c2']);
    expect(await due(store, 50, 2)).toEqual(['fake:c3', 'fake:c1']);
  });

  test('only the wanted lanes come, by name or by beginning, whatever signs are in them', async () => {
    const store = await given.open();
    const lanes = ['fake:c1', 'fake:c12', 'web:c1', 'relay:c1', 'f%:c1', 'faked', '\u{1F50A}:c1'];
    await sendAll(
      store,
      lanes.map(lane => said('x', 'c1', lane)),
    );
    expect(await due(store, 10, 99, ['fake:', 'relay:'])).toEqual(['fake:c1', 'fake:c12', 'relay:c1']);
    expect(await due(store, 10, 99, ['fake:c1'])).toEqual(['fake:c1']);
    expect(await due(store, 10, 99, ['f%:'])).toEqual(['f%:c1']);
    expect(await due(store, 10, 99, ['\u{1F50A}:'])).toEqual(['\u{1F50A}:c1']);
    expect(await due(store, 10, 99, [])).toEqual([]);
  });

  test('whoever holds a lane keeps others out until the lease ends or is given back', async () => {
    const [store, other] = [await given.open(), await given.open()];
    await sendAll(store, [said('one')]);
    expect(await store.lease('fake:c1', 'us', 10, 40)).toBe(true);
    expect(await due(other, 39)).toEqual([]);
    expect(await other.lease('fake:c1', 'them', 39, 69)).toBe(false);
    expect(await store.lease('fake:c1', 'us', 39, 60)).toBe(true);
    expect(await other.lease('fake:c1', 'them', 59, 89)).toBe(false);
    expect(await due(other, 60)).toEqual(['fake:c1']);
    expect(await other.lease('fake:c1', 'them', 60, 90)).toBe(true);
    await store.release('fake:c1', 'us');
    expect(await store.lease('fake:c1', 'us', 61, 91)).toBe(false);
    await other.release('fake:c1', 'them');
    expect(await store.lease('fake:c1', 'us', 62, 92)).toBe(true);
  });

  test('of many who reach for a lane at once, one gets it', async () => {
    const stores = [await given.open(), await given.open()];
    const got = await Promise.all(
      Array.from({ length: 40 }, (_, index) => stores[index % 2]!.lease('fake:c1', `o${index}`, 10, 40)),
    );
    expect(got.filter(Boolean)).toHaveLength(1);
  });

  test('an attempt is on record before its end is known', async () => {
    const store = await given.open();
    await sendAll(store, [said('one')]);
    const row = await first(store);
    expect(row).toMatchObject({ attempts: 0, attemptedAt: null, error: null, dueAt: 0, lane: 'fake:c1' });
    await store.attempt(row, 21);
    await store.attempt(row, 22);
    expect(await first(store)).toMatchObject({ id: row.id, attempts: 2, attemptedAt: 22 });
  });

  test('a row that is to be tried again holds its lane until then', async () => {
    const store = await given.open();
    await sendAll(store, [said('one'), said('two'), said('aside', 'c2')]);
    await store.postpone(await first(store), 30, 'busy \0 \uD800', 'surely-not');
    expect(await due(store, 29)).toEqual(['fake:c2']);
    expect(await first(store)).toMatchObject({ error: 'busy \uFFFD \uFFFD', dueAt: 30 });
    expect(await due(store, 30)).toEqual(['fake:c1', 'fake:c2']);
  });

  test('a row that can never go lets the next one pass, and is counted', async () => {
    const store = await given.open();
    await sendAll(store, [said('one'), said('two')]);
    await store.giveUp((await first(store)).id, 'the room is gone', 9);
    expect(words(await first(store))).toEqual([{ kind: 'say', text: 'two' }]);
    expect(await due(store)).toEqual(['fake:c1']);
    expect(await store.counts()).toMatchObject({ waiting: 1, dead: 1 });
  });

  test('what has gone out is neither postponed nor given up by whoever comes late', async () => {
    const store = await given.open();
    await sendAll(store, [said('one')]);
    const row = await first(store);
    await store.sent(row, null, 9);
    await store.postpone(row, 30, 'late', 'surely-not');
    await store.giveUp(row.id, 'late', 31);
    expect(await store.firstWaiting('fake:c1')).toBeNull();
    expect(await store.counts()).toMatchObject({ waiting: 0, dead: 0 });
  });

  test('the conversation knows its newest question and since when the person sees it', async () => {
    const store = await given.open();
    await inTurn(store, tx => store.openChat(tx, at('fake:a'), 'c1', 1));
    const ask = async (question: number | null, time: number) => {
      await sendAll(store, [{ ...said('?'), question } as NewOutgoing]);
      await store.sent(await store.attempt(await first(store), time - 1), 'm', time);
      const { askedNumber, askedAt, version } = (await store.conversation('c1'))!;
      return [askedNumber, askedAt, version];
    };
    expect(await ask(1, 100)).toEqual([1, 100, 1]);
    expect(await ask(null, 110)).toEqual([1, 100, 1]);
    expect(await ask(3, 120)).toEqual([3, 120, 1]);
    expect(await ask(3, 130)).toEqual([3, 120, 1]);
    expect(await ask(2, 140)).toEqual([3, 120, 1]);
  });

  test('a question whose sending was cut off counts as seen, one that surely did not go does not', async () => {
    const store = await given.open();
    await inTurn(store, tx => store.openChat(tx, at('fake:a'), 'c1', 1));
    await sendAll(store, [{ ...said('?'), question: 4 } as NewOutgoing]);
    const tried = await store.attempt(await first(store), 50);
    expect(await store.conversation('c1')).toMatchObject({ askedNumber: 4, askedAt: 50 });
    await store.postpone(tried, 60, 'busy', 'surely-not');
    expect((await store.conversation('c1'))!.askedAt).toBeGreaterThan(1e15);
    await store.sent(await store.attempt(await first(store), 61), 'm', 70);
    expect(await store.conversation('c1')).toMatchObject({ askedNumber: 4, askedAt: 70 });
  });

  test('a relay carries any happening, bytes too', async () => {
    const store = await given.open();
    const happenings: Inbound[] = [
      {
        kind: 'desk',
        by: 'A technician',
        action: { do: 'note', text: 'seen \u{1F50A}' },
        conversation: 'c1',
        identity: 'i1',
        at: 1,
      },
      {
        kind: 'desk-question',
        address: at('fake:a'),
        conversation: 'c1',
        ask: 'a1',
        ticket: 1001,
        by: 'A technician',
        text: 'Which room?',
        identity: 'i2',
        at: 2,
      },
      {
        kind: 'file',
        name: 'screen.png',
        type: 'image/png',
        content: Buffer.of(0, 127, 128, 255),
        address: at('fake:a'),
        identity: 'i3',
        at: 3,
      },
    ];
    await sendAll(
      store,
      happenings.map(inbound => ({
        kind: 'relay',
        lane: 'relay:c1',
        conversation: 'c1',
        inbound,
        dueAt: 0,
      })),
    );
    for (const inbound of happenings) {
      const row = await first(store, 'relay:c1');
      expect(row).toMatchObject({ kind: 'relay', conversation: 'c1', inbound });
      await store.sent(row, null, 9);
    }
  });

  test('the newest question that can be redrawn comes back, until it has been', async () => {
    const store = await given.open();
    await sendAll(store, [asking('one', 1), asking('two', 2), said('no question')]);
    const rows = [];
    for (let row = await store.firstWaiting('fake:c1'); row; row = await store.firstWaiting('fake:c1')) {
      rows.push(row);
      await store.sent(row, `m${row.id}`, 9);
    }
    const [one, two, three] = rows;
    expect(await store.drawn('c1', one!.id)).toBeNull();
    expect(await store.drawn('c2', three!.id)).toBeNull();
    expect(await store.drawn('c1', three!.id)).toMatchObject({
      id: two!.id,
      ref: `m${two!.id}`,
      question: 2,
    });
    await store.redrawn(two!.id);
    expect(await store.drawn('c1', three!.id)).toMatchObject({ question: 1 });
  });

  test('a place of the desk knows the message that shows a ticket', async () => {
    const store = await given.open();
    const lane = 'fake:desk:room';
    const row = { kind: 'ticket', lane, conversation: 'c1', from: 0, to: 2, dueAt: 0 } as const;
    await sendAll(store, [row, { ...row, from: 2, to: 3 }]);
    expect(await store.cardRef(lane, 'c1')).toBeNull();
    const waiting = await first(store, lane);
    expect(waiting).toMatchObject(row);
    await store.sent(waiting, 'm7', 9);
    expect(await store.cardRef(lane, 'c1')).toBe('m7');
    expect(await store.cardRef(lane, 'c2')).toBeNull();
    expect(await store.cardRef('fake:desk:other', 'c1')).toBeNull();
    expect(await first(store, lane)).toMatchObject({ from: 2, to: 3 });
  });

  test('a file to be fetched keeps where it lies', async () => {
    const store = await given.open();
    const file = { id: 'F1', name: 'a b.png', size: 12, url: 'https://there.example/?a=b' };
    const row = {
      kind: 'fetch',
      lane: 'fake:files:c',
      conversation: 'c1',
      identity: 'm1:F1',
      file,
      dueAt: 0,
    } as const;
    await sendAll(store, [row]);
    expect(await first(store, row.lane)).toMatchObject(row);
  });

  test('a picture to be looked at keeps which one it is', async () => {
    const store = await given.open();
    const row = { kind: 'read', lane: 'read:c1', conversation: 'c1', file: 'f1', dueAt: 0 } as const;
    await sendAll(store, [row]);
    expect(await first(store, row.lane)).toMatchObject(row);
  });
});
