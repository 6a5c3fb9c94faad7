/** The same cases on every database that Reseat runs on: a fresh one for each case, closed and removed after it. */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, inject } from 'vitest';
import { openStore } from '#store/open.ts';
import type { NewOutgoing, Store, TicketRow, Tx } from '#store/store.ts';
import type { Address } from '#talk/inbound.ts';
import { freshDatabase } from '../support/postgres.ts';

export interface Given {
  /** Where the case's database is. */
  where(): string;
  /** One more store on it, closed after the case. */
  open(): Promise<Store>;
}

const KINDS = {
  SQLite: async (folder: string) => join(folder, 'new', 'reseat.db'),
  PostgreSQL: () => freshDatabase(inject('postgres')),
};

export function onEveryDatabase(cases: (given: Given) => void): void {
  for (const [name, fresh] of Object.entries(KINDS))
    describe(name, () => {
      let folder: string;
      let where: string;
      let stores: Store[];
      beforeEach(async () => {
        folder = mkdtempSync(join(tmpdir(), 'reseat-store-'));
        where = await fresh(folder);
        stores = [];
      });
      afterEach(async () => {
        await Promise.all(stores.map(store => store.close()));
        rmSync(folder, { recursive: true });
      });
      cases({
        where: () => where,
        async open() {
          const store = await openStore(where);
          stores.push(store);
          return store;
        },
      });
    });
}

export const at = (chat: string): Address => ({
  channel: 'fake',
  chat,
  to: { room: '7' },
  person: { id: 'p1', name: 'Someone', mail: null },
});

export const said = (text: string, conversation = 'c1', lane = `fake:${conversation}`): NewOutgoing => ({
  kind: 'messages',
  lane,
  conversation,
  messages: [{ kind: 'say', text }],
  question: null,
  dueAt: 0,
});

/** The store keeps the document whole and looks at nothing in it, so it may be anything here. */
export const ticketRow = (number: number, rest: Partial<TicketRow> = {}): TicketRow => ({
  number,
  conversation: `c${number}`,
  chat: 'fake:a',
  status: 'open',
  priority: 'medium',
  symptom: 'drive-noise',
  site: 'harbour',
  takenBy: null,
  fault: null,
  outage: null,
  ticket: { format: 1, number, title: 'It clicks' } as TicketRow['ticket'],
  life: [{ kind: 'opened', at: 1, by: 'Reseat' }],
  openedAt: number,
  updatedAt: number,
  ...rest,
});

/** Each in a transaction of its own. */
export const inTurn = <T>(store: Store, work: (tx: Tx) => Promise<T>) => store.transaction(work);
export const sendAll = (store: Store, rows: NewOutgoing[]) => inTurn(store, tx => store.send(tx, rows, 5));
export const saveAll = (store: Store, rows: TicketRow[]) =>
  inTurn(store, async tx => {
    for (const row of rows) await store.saveTicket(tx, row);
  });
