/** What store.ts promises about tickets and outages, held against every database alike. */
import { expect, test } from 'vitest';
import type { Outage, Store, TicketFilter } from '#store/store.ts';
import { at, inTurn, onEveryDatabase, saveAll, ticketRow } from '../store/databases.ts';

const listed = async (store: Store, filter: TicketFilter = {}) =>
  (await store.tickets(filter)).map(({ number }) => number);

const outage: Outage = {
  id: 'o1',
  symptom: 'share-missing',
  site: 'harbour',
  text: 'The shared files are away until noon.',
  declaredBy: 'A technician',
  declaredAt: 5,
  endedAt: null,
};
const save = (store: Store, one: Outage) => inTurn(store, tx => store.saveOutage(tx, one));

onEveryDatabase(given => {
  test('a ticket comes back as it was saved, and saving it again replaces it', async () => {
    const store = await given.open();
    const row = ticketRow(1001, { takenBy: 'A technician \u{1F50A}', outage: 'o1', site: null });
    await saveAll(store, [row]);
    expect(await store.ticket(1001)).toEqual(row);
    const closed = ticketRow(1001, { status: 'closed', fault: 'cable-loose', priority: 'low', updatedAt: 9 });
    await saveAll(store, [closed]);
    expect(await store.ticket(1001)).toEqual(closed);
    expect(await inTurn(store, tx => store.ticket(1001, tx))).toEqual(closed);
    expect(await store.ticket(1002)).toBeNull();
  });

  test('the list begins with the critical ones, and among equals with the one that waits longest', async () => {
    const store = await given.open();
    await saveAll(store, [
      ticketRow(1001, { priority: 'low' }),
      ticketRow(1002, { priority: 'high', openedAt: 40 }),
      ticketRow(1003, { priority: 'high', openedAt: 30 }),
      ticketRow(1004, { priority: 'medium' }),
      ticketRow(1005, { priority: 'critical' }),
    ]);
    expect(await listed(store)).toEqual([1005, 1003, 1002, 1004, 1001]);
    expect(await listed(store, { limit: 2 })).toEqual([1005, 1003]);
  });

  test('a priority that was changed counts from then on', async () => {
    const store = await given.open();
    await saveAll(store, [ticketRow(1001), ticketRow(1002), ticketRow(1002, { priority: 'critical' })]);
    expect(await listed(store)).toEqual([1002, 1001]);
  });

  test('the list can be narrowed, and an empty list narrows nothing', async () => {
    const store = await given.open();
    await saveAll(store, [
      ticketRow(1001),
      ticketRow(1002, { status: 'taken', site: 'hill' }),
      ticketRow(1003, { status: 'closed', priority: 'low' }),
      ticketRow(1004, { symptom: 'raid-alarm', site: null }),
    ]);
    expect(await listed(store, { status: ['open', 'taken'] })).toEqual([1001, 1002, 1004]);
    expect(await listed(store, { priority: ['low'] })).toEqual([1003]);
    expect(await listed(store, { symptom: 'raid-alarm' })).toEqual([1004]);
    expect(await listed(store, { site: 'hill' })).toEqual([1002]);
    expect(await listed(store, { site: 'harbour', status: ['closed'] })).toEqual([1003]);
    expect(await listed(store, { status: [], priority: [] })).toEqual([1001, 1002, 1004, 1003]);
    expect(await listed(store, { site: "'; drop table tickets; --" })).toEqual([]);
  });

  test('a list that nobody limited ends at 200', async () => {
    const store = await given.open();
    const rows = Array.from({ length: 201 }, (_, index) => ticketRow(1001 + index));
    await saveAll(store, rows);
    expect(await listed(store)).toHaveLength(200);
    expect(await listed(store, { limit: 1000 })).toHaveLength(201);
  });

  test("later words find the chat's newest ticket that is not over", async () => {
    const store = await given.open();
    const find = (chat: string) => inTurn(store, tx => store.openTicketOf(tx, chat));
    expect(await find('fake:a')).toBeNull();
    await saveAll(store, [
      ticketRow(1001),
      ticketRow(1002, { status: 'waiting' }),
      ticketRow(1003, { status: 'merged' }),
      ticketRow(1004, { status: 'closed' }),
      ticketRow(1005, { chat: 'fake:b' }),
    ]);
    expect(await find('fake:a')).toEqual({ number: 1002, conversation: 'c1002' });
    await saveAll(store, [ticketRow(1002, { status: 'closed' })]);
    expect(await find('fake:a')).toEqual({ number: 1001, conversation: 'c1001' });
  });

  test('confirmed faults are counted by symptom, over closed tickets alone', async () => {
    const store = await given.open();
    const closed = (number: number, symptom: string | null, fault: string | null) =>
      ticketRow(number, { status: 'closed', symptom, fault });
    await saveAll(store, [
      closed(1001, 'drive-noise', 'fan-worn'),
      closed(1002, 'drive-noise', 'fan-worn'),
      closed(1003, 'drive-noise', 'drive-failing'),
      closed(1004, 'overheating', 'fan-worn'),
      closed(1005, 'overheating', null),
      closed(1006, null, 'fan-worn'),
      ticketRow(1007, { status: 'taken', fault: 'fan-worn' }),
    ]);
    const counts = (await store.confirmedFaults()).map(row => [row.symptom, row.fault, row.tickets]);
    expect(counts.toSorted()).toEqual([
      ['drive-noise', 'drive-failing', 1],
      ['drive-noise', 'fan-worn', 2],
      ['overheating', 'fan-worn', 1],
    ]);
  });

  test('an outage is open until it has ended', async () => {
    const store = await given.open();
    const older = { ...outage, id: 'o2', site: null, declaredAt: 3 };
    await save(store, outage);
    await save(store, older);
    expect(await store.outages({ open: true })).toEqual([older, outage]);
    expect(await inTurn(store, tx => store.openOutages(tx))).toEqual([older, outage]);
    await save(store, { ...outage, endedAt: 9 });
    expect(await store.openOutages()).toEqual([older]);
    expect(await store.outages({ open: false })).toEqual([{ ...outage, endedAt: 9 }]);
  });

  test('an outage concerns who reports the same now, whose open ticket may be about it, and whoever was told of it', async () => {
    const store = await given.open();
    for (const [id, change] of [
      ['c1', { symptom: 'share-missing' }],
      ['c2', { symptom: 'share-missing', outcome: 'left' }],
      ['c3', { symptom: 'share-missing', current: false }],
      ['c4', { symptom: 'drive-noise' }],
      ['c5', { symptom: 'share-missing', outcome: 'known-outage', outage: 'o1' }],
      ['c6', { symptom: 'share-missing', outcome: 'known-outage', outage: 'o9' }],
      ['c7', { symptom: 'share-missing', outcome: 'escalated' }],
      ['c8', { symptom: 'share-missing', outcome: 'escalated' }],
      ['c9', { symptom: 'share-missing', outcome: 'escalated' }],
    ] as const)
      await inTurn(store, async tx => {
        await store.openChat(tx, at(`fake:${id}`), id, Number(id.slice(1)));
        await store.change(tx, id, change);
      });
    await saveAll(store, [
      ticketRow(1, { conversation: 'c7', site: null }),
      ticketRow(2, { conversation: 'c8', status: 'closed' }),
      ticketRow(3, { conversation: 'c9', site: 'elsewhere' }),
    ]);
    const concerned = ['c1', 'c5', 'c7'];
    expect(await store.conversationsFor(outage)).toEqual(concerned);
    expect(await inTurn(store, tx => store.conversationsFor(outage, tx))).toEqual(concerned);
  });

  test('between declaring an outage and listing whom it concerns no report slips through', async () => {
    const [store, other] = [await given.open(), await given.open()];
    const report = (index: number) =>
      inTurn(other, async tx => {
        const { id } = await other.openChat(tx, at(`fake:${index}`), `c${index}`, 1);
        const found = await other.openOutages(tx);
        await other.change(tx, id, { symptom: 'share-missing' });
        return { id, told: found.length > 0 };
      });
    const declare = inTurn(store, async tx => {
      await store.saveOutage(tx, outage);
      return store.conversationsFor(outage, tx);
    });
    const [concerned, ...reports] = await Promise.all([
      declare,
      ...Array.from({ length: 40 }, (_, index) => report(index)),
    ]);
    for (const { id, told } of reports) expect(told || concerned.includes(id), id).toBe(true);
  });

  test('the tickets of a person’s chats come newest first, and no others', async () => {
    const store = await given.open();
    await saveAll(store, [
      ticketRow(1001, { chat: 'fake:a' }),
      ticketRow(1002, { chat: 'fake:b' }),
      ticketRow(1003, { chat: 'fake:a', status: 'closed' }),
    ]);
    const numbers = async (chats: string[], limit = 9) =>
      (await store.ticketsOf(chats, limit)).map(({ number }) => number);
    expect(await numbers(['fake:a'])).toEqual([1003, 1001]);
    expect(await numbers(['fake:a', 'fake:b'], 2)).toEqual([1003, 1002]);
    expect(await numbers([])).toEqual([]);
  });
});
