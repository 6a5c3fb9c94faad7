/** Slack's side of Socket Mode: connections that greet, send envelopes, ask to reconnect and break. */
import { createServer } from 'node:http';
import type { AddressInfo } from 'node:net';
import { type WebSocket, WebSocketServer } from 'ws';
import type { Event } from './person.ts';

export interface FakeSocket {
  /** Where `apps.connections.open` sends us. */
  url: string;
  open(): number;
  /** Connections since the start. */
  opened: number;
  /** Envelope ids in the order of their acknowledgements, with what these carried. */
  acknowledged: { id: string; payload: unknown }[];
  /** On the newest connection, or the one that comes next. Resolves with the envelope's id once it is sent. */
  push(event: Event, more?: { id?: string; retry?: number }): Promise<string>;
  raw(envelope: Record<string, unknown>): Promise<void>;
  disconnect(reason: string): void;
  /** Without a word. */
  cut(): void;
  close(): Promise<void>;
}

let envelopes = 0;

export async function fakeSocket(): Promise<FakeSocket> {
  const http = createServer();
  const server = new WebSocketServer({ server: http });
  await new Promise<void>(resolve => http.listen(0, '127.0.0.1', resolve));
  let newest: WebSocket | null = null;
  let waiting: (() => void)[] = [];
  const fake: FakeSocket = {
    url: `ws://127.0.0.1:${(http.address() as AddressInfo).port}/link/?ticket=1`,
    open: () => [...server.clients].filter(({ readyState }) => readyState === 1).length,
    opened: 0,
    acknowledged: [],
    async push({ body }, { id = `envelope-${envelopes++}`, retry = 0 } = {}) {
      const type =
        'command' in body ? 'slash_commands' : body.type === 'event_callback' ? 'events_api' : 'interactive';
      const retried =
        type === 'events_api' ? { retry_attempt: retry, retry_reason: retry > 0 ? 'timeout' : '' } : {};
      await fake.raw({
        type,
        envelope_id: id,
        payload: body,
        accepts_response_payload: type !== 'events_api',
        ...retried,
      });
      return id;
    },
    async raw(envelope) {
      while (newest === null || newest.readyState !== 1)
        await new Promise<void>(resolve => waiting.push(resolve));
      newest.send(JSON.stringify(envelope));
    },
    disconnect: reason => newest?.send(JSON.stringify({ type: 'disconnect', reason })),
    cut: () => newest?.terminate(),
    close: () =>
      new Promise(resolve => {
        for (const client of server.clients) client.terminate();
        server.close(() => http.close(() => resolve()));
      }),
  };
  server.on('connection', socket => {
    fake.opened += 1;
    socket.on('message', data => {
      const { envelope_id: id, payload } = JSON.parse(String(data));
      fake.acknowledged.push({ id, payload });
    });
    socket.send(JSON.stringify({ type: 'hello', num_connections: 1 }));
    newest = socket;
    for (const wake of waiting) wake();
    waiting = [];
  });
  return fake;
}
