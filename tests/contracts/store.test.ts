/** What store.ts promises, held against every database alike. Delivery and what lists show are in the two suites beside it. */
import { expect, test } from 'vitest';
import type { Entry } from '#engine/entries.ts';
import type { Script } from '#engine/script.ts';
import type { Store } from '#store/store.ts';
import { at, inTurn, onEveryDatabase, said, ticketRow } from '../store/databases.ts';

const chat = at('fake:a');
const entries: Entry[] = [{ kind: 'note', at: 3, words: 'it clicks, "loudly" \u{1F50A} \0 \uD800' }];
const script = { format: 1, symptom: 'drive-noise' } as Script;
const turn = (store: Store, id: string, now = 1) => inTurn(store, tx => store.openChat(tx, chat, id, now));
const oneToAHundred = Array.from({ length: 100 }, (_, index) => index + 1);

onEveryDatabase(given => {
  test('what has happened is new once', async () => {
    const store = await given.open();
    expect(await inTurn(store, tx => store.remember(tx, 'press:1', 1))).toBe(true);
    expect(await inTurn(store, tx => store.remember(tx, 'press:1', 2))).toBe(false);
    expect(await inTurn(store, tx => store.remember(tx, 'press:2', 2))).toBe(true);
  });

  test('a happening that arrives many times at once, at two processes, is new exactly once', async () => {
    const stores = [await given.open(), await given.open()];
    const answers = await Promise.all(
      oneToAHundred.map(index =>
        inTurn(stores[index % 2]!, tx => stores[index % 2]!.remember(tx, 'same', 1)),
      ),
    );
    expect(answers.filter(Boolean)).toHaveLength(1);
  });

  test('the first words create the conversation', async () => {
    const store = await given.open();
    expect(await turn(store, 'c1', 7)).toEqual({
      id: 'c1',
      chat: 'fake:a',
      current: true,
      version: 1,
      number: null,
      address: chat,
      script: null,
      symptom: null,
      entries: [],
      outcome: null,
      fault: null,
      ticket: false,
      outage: null,
      askedNumber: 0,
      askedAt: 0,
      dueAt: null,
      dueKind: null,
      openedAt: 7,
      heardAt: 7,
    });
  });

  test('later words find it, one version on, and keep the newest address', async () => {
    const store = await given.open();
    await turn(store, 'c1', 7);
    const moved = { ...chat, to: { room: '8' } };
    const found = await inTurn(store, tx => store.openChat(tx, moved, 'c2', 9));
    expect(found).toMatchObject({ id: 'c1', version: 2, openedAt: 7, address: moved });
    expect(await store.conversation('c2')).toBeNull();
  });

  test('what comes from inside finds a conversation by its id, or is told that there is none', async () => {
    const store = await given.open();
    await turn(store, 'c1');
    expect(await inTurn(store, tx => store.lockConversation(tx, 'c1'))).toMatchObject({
      id: 'c1',
      version: 2,
    });
    expect(await inTurn(store, tx => store.lockConversation(tx, 'c9'))).toBeNull();
  });

  test('a hundred turns at once, in two processes, on one chat: each sees what the one before it left', async () => {
    const stores = [await given.open(), await given.open()];
    const versions = await Promise.all(
      oneToAHundred.map(index => {
        const store = stores[index % 2]!;
        return inTurn(store, async tx => {
          const { id, version, entries } = await store.openChat(tx, chat, `c${index}`, 1);
          await store.change(tx, id, { entries: [...entries, { kind: 'note', at: index, words: 'more' }] });
          return version;
        });
      }),
    );
    expect(versions.toSorted((a, b) => a - b)).toEqual(oneToAHundred);
    const kept = (await stores[0]!.currentOf('fake:a'))!.entries.map(entry => entry.at);
    expect(kept.toSorted((a, b) => a - b)).toEqual(oneToAHundred);
  });

  test('a turn that fails leaves nothing, and says why', async () => {
    const store = await given.open();
    const failing = inTurn(store, async tx => {
      await store.remember(tx, 'press:1', 1);
      await store.openChat(tx, chat, 'c1', 1);
      await store.keepScript(tx, 'h1', script, 1);
      await store.send(tx, [said('never')], 1);
      await store.saveTicket(tx, ticketRow(1001));
      await store.keepFile(tx, 'c1', { id: 'f1', name: 'a', type: 'b', content: new Uint8Array(1) }, 1);
      throw new Error('the reason');
    });
    await expect(failing).rejects.toThrow('the reason');
    expect(await store.counts()).toEqual({ conversations: 0, open: 0, tickets: 0, waiting: 0, dead: 0 });
    expect(await store.script('h1')).toBeNull();
    expect(await store.file('f1')).toBeNull();
    expect(await inTurn(store, tx => store.remember(tx, 'press:1', 1))).toBe(true);
  });

  test('a change keeps everything that it does not name, and is no turn', async () => {
    const store = await given.open();
    await turn(store, 'c1');
    const change = {
      number: 1001,
      address: { ...chat, to: {} },
      script: 'h1',
      symptom: 'drive-noise',
      entries,
      outcome: 'fixed',
      fault: 'cable-loose',
      ticket: true,
      outage: 'o1',
      askedNumber: 4,
      dueAt: 1_900_000_000_000,
      dueKind: 'left',
      heardAt: 1_800_000_000_000,
    } as const;
    await inTurn(store, tx => store.change(tx, 'c1', change));
    await inTurn(store, tx => store.change(tx, 'c1', { dueAt: null, dueKind: null }));
    await inTurn(store, tx => store.change(tx, 'c1', {}));
    const changed = { ...change, version: 1, current: true, askedAt: 0, dueAt: null, dueKind: null };
    expect(await store.conversation('c1')).toMatchObject(changed);
  });

  test('a change of a conversation that is not there fails', async () => {
    const store = await given.open();
    await expect(inTurn(store, tx => store.change(tx, 'c9', { fault: 'x' }))).rejects.toThrow('c9');
  });

  test('a chat has one current conversation: a new one begins when the former has stepped back', async () => {
    const store = await given.open();
    await turn(store, 'c1');
    await expect(inTurn(store, tx => store.begin(tx, chat, 'c2', 2))).rejects.toThrow();
    const begun = await inTurn(store, async tx => {
      await store.openChat(tx, chat, 'unused', 2);
      await store.change(tx, 'c1', { current: false });
      return store.begin(tx, chat, 'c2', 2);
    });
    expect(begun).toMatchObject({ id: 'c2', current: true, version: 1, openedAt: 2 });
    expect(await store.currentOf('fake:a')).toEqual(begun);
    expect(await turn(store, 'unused', 3)).toMatchObject({ id: 'c2', version: 2 });
    expect(await store.conversation('c1')).toMatchObject({ current: false, version: 2 });
    expect(await store.currentOf('fake:b')).toBeNull();
  });

  test('numbers begin at 1001 and have no gaps, whatever was rolled back', async () => {
    const stores = [await given.open(), await given.open()];
    const numbers = await Promise.all(
      oneToAHundred.map(index =>
        inTurn(stores[index % 2]!, async tx => {
          const number = await stores[index % 2]!.nextNumber(tx);
          if (index % 3 === 0) throw new Error('rolled back');
          return number;
        }).catch(() => null),
      ),
    );
    const taken = numbers.filter(number => number !== null).toSorted((a, b) => a - b);
    expect(taken).toEqual(taken.map((_, index) => 1001 + index));
    expect(taken).toHaveLength(67);
  });

  test('a script is kept once under its hash and can be read in a turn and outside', async () => {
    const store = await given.open();
    await inTurn(store, tx => store.keepScript(tx, 'h1', script, 1));
    await inTurn(store, tx => store.keepScript(tx, 'h1', script, 2));
    expect(await store.script('h1')).toEqual(script);
    expect(await inTurn(store, tx => store.script('h1', tx))).toEqual(script);
    expect(await store.script('h2')).toBeNull();
  });

  test('scripts that open conversations still use are listed with them', async () => {
    const store = await given.open();
    for (const [id, hash, outcome] of [
      ['c1', 'h1', null],
      ['c2', 'h2', 'fixed'],
      ['c3', 'h1', null],
      ['c4', null, null],
    ] as const)
      await inTurn(store, async tx => {
        await store.openChat(tx, at(`fake:${id}`), id, Number(id.slice(1)));
        await store.change(tx, id, { script: hash, outcome });
      });
    expect(await store.scriptsInUse()).toEqual([{ hash: 'h1', conversations: ['c1', 'c3'] }]);
  });

  test('timers come when they are due, the earliest first, and no more than asked for', async () => {
    const store = await given.open();
    for (const [id, dueAt] of [
      ['c1', 30],
      ['c2', 10],
      ['c3', 20],
      ['c4', null],
    ] as const)
      await inTurn(store, async tx => {
        await store.openChat(tx, at(`fake:${id}`), id, 1);
        await store.change(tx, id, { dueAt, dueKind: dueAt === null ? null : 'nudge' });
      });
    const due = async (now: number, limit: number) =>
      (await store.dueConversations(now, limit)).map(({ id }) => id);
    expect(await due(9, 10)).toEqual([]);
    expect(await due(20, 10)).toEqual(['c2', 'c3']);
    expect(await due(99, 2)).toEqual(['c2', 'c3']);
    expect((await store.dueConversations(10, 1))[0]).toEqual({ id: 'c2', version: 1, dueKind: 'nudge' });
  });

  test('a file comes back byte by byte', async () => {
    const store = await given.open();
    const content = Uint8Array.from({ length: 100_000 }, (_, index) => index % 256);
    const file = { id: 'f1', name: 'screen \0\u{1F4F7}.png', type: 'image/png', content };
    await inTurn(store, tx => store.keepFile(tx, 'c1', file, 1));
    const found = (await store.file('f1'))!;
    expect({ ...found, content: null }).toEqual({
      id: 'f1',
      conversation: 'c1',
      name: 'screen \uFFFD\u{1F4F7}.png',
      type: 'image/png',
      content: null,
    });
    expect(Buffer.compare(found.content, content)).toBe(0);
    expect(await store.file('f2')).toBeNull();
  });

  test('a covered picture takes the place of the one that was sent', async () => {
    const store = await given.open();
    const file = { id: 'f1', name: 'a.webp', type: 'image/webp', content: new Uint8Array([1, 2, 3]) };
    await inTurn(store, tx => store.keepFile(tx, 'c1', file, 1));
    await inTurn(store, tx => store.keepFile(tx, 'c1', { ...file, id: 'f2' }, 1));
    await store.coverFile('f1', { type: 'image/jpeg', content: new Uint8Array([9]) });
    expect(await store.file('f1')).toMatchObject({ name: 'a.webp', type: 'image/jpeg', conversation: 'c1' });
    expect([...(await store.file('f1'))!.content]).toEqual([9]);
    expect([...(await store.file('f2'))!.content]).toEqual([1, 2, 3]);
  });

  test('an empty file is a file', async () => {
    const store = await given.open();
    const file = { id: 'f1', name: 'a', type: 'b', content: new Uint8Array(0) };
    await inTurn(store, tx => store.keepFile(tx, 'c1', file, 1));
    expect((await store.file('f1'))?.content).toHaveLength(0);
  });

  test('everything is there after a restart', async () => {
    const first = await given.open();
    await inTurn(first, async tx => {
      await first.remember(tx, 'text:1', 1);
      await first.openChat(tx, chat, 'c1', 1);
      await first.change(tx, 'c1', { number: await first.nextNumber(tx), entries, script: 'h1' });
      await first.keepScript(tx, 'h1', script, 1);
      await first.send(tx, [said('one'), said('two')], 1);
      await first.saveTicket(tx, ticketRow(1001));
      await first.keepFile(tx, 'c1', { id: 'f1', name: 'a', type: 'b', content: Uint8Array.of(7) }, 1);
    });
    const [conversation, counts] = [await first.conversation('c1'), await first.counts()];
    await first.close();
    const second = await given.open();
    expect(await second.conversation('c1')).toEqual(conversation);
    expect(conversation).toMatchObject({ number: 1001, entries });
    expect(await second.counts()).toEqual(counts);
    expect(await second.ticket(1001)).toEqual(ticketRow(1001));
    expect(await second.firstWaiting('fake:c1')).toMatchObject({ messages: [{ text: 'one' }] });
    expect([...(await second.file('f1'))!.content]).toEqual([7]);
    expect(await inTurn(second, tx => second.remember(tx, 'text:1', 2))).toBe(false);
    expect(await inTurn(second, tx => second.nextNumber(tx))).toBe(1002);
  });

  test('processes that start on a new database at the same moment all come up', async () => {
    const stores = await Promise.all([given.open(), given.open(), given.open(), given.open()]);
    for (const [index, store] of stores.entries())
      expect(await inTurn(store, tx => store.remember(tx, 'same', 1))).toBe(index === 0);
  });

  test('a conversation is counted as open until it has an outcome or a newer one has begun', async () => {
    const store = await given.open();
    for (const [id, change] of [
      ['c1', {}],
      ['c2', { outcome: 'left' }],
      ['c3', { current: false }],
    ] as const)
      await inTurn(store, async tx => {
        await store.openChat(tx, at(`fake:${id}`), id, 1);
        await store.change(tx, id, change);
        await store.send(tx, [said('hello', id)], 1);
        await store.saveTicket(tx, ticketRow(1000 + Number(id.slice(1))));
      });
    await store.giveUp((await store.firstWaiting('fake:c1'))!.id, 'gone', 2);
    expect(await store.counts()).toEqual({ conversations: 3, open: 1, tickets: 3, waiting: 2, dead: 1 });
  });
});
