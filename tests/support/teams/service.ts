/**
 * Teams' side for tests, over real HTTP on this machine: it takes what is sent, keeps it as people would see it, and fails as it is told to.
 * It also gives out the sign-in's tokens and the published keys; `redirect.ts` leads the SDK's requests for those here.
 */

import { once } from 'node:events';
import { createServer, type IncomingMessage, type ServerResponse } from 'node:http';
import type { AddressInfo } from 'node:net';
import { activityZodSchema } from '@microsoft/agents-activity';
import type { Json } from '../json.ts';
import type { Keys } from './keys.ts';

export interface Call {
  method: string;
  /** `token`, `keys`, `file`, `post`, `update`, `create`, `member`, `members`. */
  what: string;
  conversation: string;
  /** What stood before the protocol's own path. */
  base: string;
  query: URLSearchParams;
  /** Of an update: the message; of a member: them. */
  id: string | null;
  body: Json;
  authorization: string | null;
  status: number;
  /** Epoch milliseconds. */
  at: number;
}

/** A message as it stands in the conversation now. */
export interface Shown {
  id: string;
  activity: Json;
  updates: number;
}

/** `take`: let it happen all the same, and fail afterwards: what was sent is there. */
export type Fault = { status?: number; retryAfter?: string; hang?: boolean; take?: boolean; code?: string };

export interface Service {
  /** As an activity names it, with its slash. */
  url: string;
  calls: Call[];
  /** Messages of a conversation, oldest first. */
  shown(conversation: string): Shown[];
  /** Fails the next calls of this kind, in order. */
  fail(what: Call['what'], ...faults: Fault[]): void;
  /** Fails every call that fits, until told otherwise. */
  always(fits: ((call: Pick<Call, 'what' | 'conversation' | 'id'>) => Fault | null) | null): void;
  files: Map<string, { content: Uint8Array; type: string }>;
  /** Who belongs to a conversation. */
  members: Map<string, { id: string; name: string }[]>;
  /** Somebody deletes a message. */
  remove(conversation: string, id: string): void;
  /** Activities that an independent schema does not take, or that set what the protocol keeps for the service. */
  wrong: string[];
  /** Resolves when `ready` is true of what was received; looks again whenever something is. */
  until(ready: () => boolean): Promise<void>;
  close(): Promise<void>;
}

/** What only the service sets (activity protocol, A2031, A2041, A2071, A2302). */
const KEPT = ['id', 'timestamp', 'recipient', 'serviceUrl'];

export async function service(keys: Keys): Promise<Service> {
  const calls: Call[] = [];
  const places = new Map<string, Shown[]>();
  const planned = new Map<string, Fault[]>();
  const files: Service['files'] = new Map();
  const members: Service['members'] = new Map();
  const wrong: string[] = [];
  const hanging = new Set<ServerResponse>();
  let always: Parameters<Service['always']>[0] = null;
  const waiting: (() => void)[] = [];
  let last = 0;
  const place = (id: string) => {
    if (!places.has(id)) places.set(id, []);
    return places.get(id)!;
  };
  /** Epoch milliseconds, as Teams names its messages; never the same twice. */
  const nextId = () => {
    last = Math.max(Date.now(), last + 1);
    return String(last);
  };
  const look = (activity: Record<string, unknown>, updating: boolean) => {
    const read = activityZodSchema.safeParse(activity);
    if (!read.success) wrong.push(read.error.message);
    for (const name of KEPT)
      if (name in activity && !(updating && name === 'id')) wrong.push(`${name} is set`);
  };

  const server = createServer(async (request, response) => {
    const call = await read(request);
    calls.push(call);
    const fault = planned.get(call.what)?.shift() ?? always?.(call) ?? null;
    const wake = () => {
      for (const each of waiting.splice(0)) each();
    };
    if (fault === null || fault.take) answer(call);
    if (fault?.hang) {
      hanging.add(response);
      return wake();
    }
    if (fault !== null) {
      call.status = fault.status ?? 500;
      response.writeHead(call.status, {
        'content-type': 'application/json',
        ...(fault.retryAfter === undefined ? {} : { 'retry-after': fault.retryAfter }),
      });
      response.end(JSON.stringify({ error: { code: fault.code ?? 'Planned', message: 'as planned' } }));
      return wake();
    }
    const { status, type = 'application/json', body } = answered(call);
    call.status = status;
    response.writeHead(status, { 'content-type': type });
    response.end(body);
    wake();
  });

  /** What happens in the conversation. */
  function answer(call: Call): void {
    if (call.what === 'post') {
      look(call.body, false);
      call.id = nextId();
      place(call.conversation).push({ id: call.id, activity: call.body, updates: 0 });
    }
    if (call.what === 'create') {
      const { isGroup, members, activity, channelData } = call.body;
      call.id = nextId();
      call.conversation = isGroup ? `${channelData.channel.id};messageid=${call.id}` : `a:${members[0].id}`;
      if (activity !== undefined) {
        look(activity, false);
        place(call.conversation).push({ id: call.id, activity, updates: 0 });
      }
    }
    if (call.what === 'update') {
      const there = place(call.conversation).find(({ id }) => id === call.id);
      look(call.body, true);
      if (there === undefined) call.status = 404;
      else {
        there.activity = call.body;
        there.updates += 1;
      }
    }
  }

  function answered(call: Call): { status: number; type?: string; body: string | Uint8Array } {
    const json = (body: unknown, status = 200) => ({ status, body: JSON.stringify(body) });
    switch (call.what) {
      case 'token':
        return json({
          token_type: 'Bearer',
          expires_in: 3599,
          ext_expires_in: 3599,
          access_token: 'a-token',
        });
      case 'metadata':
        return json({
          issuer: 'https://api.botframework.com',
          jwks_uri: new URL('/v1/.well-known/keys', url).href,
        });
      case 'keys':
        return json({ keys: keys.published });
      case 'file': {
        const file = files.get(call.conversation);
        return file === undefined ? json({}, 404) : { status: 200, type: file.type, body: file.content };
      }
      case 'create':
        return json({ id: call.conversation, activityId: call.id, serviceUrl: url }, 201);
      case 'post':
        return json({ id: call.id }, 201);
      case 'update':
        return call.status === 404
          ? json({ error: { code: 'ActivityNotFound' } }, 404)
          : json({ id: call.id });
      case 'member': {
        const found = members.get(call.conversation)?.find(({ id }) => id === call.id);
        return found === undefined
          ? json({ error: { code: 'MemberNotFoundInConversation' } }, 404)
          : json(found);
      }
      case 'members': {
        const all = members.get(call.conversation) ?? [];
        const from = Number(call.query.get('continuationToken') ?? 0);
        const to = from + Number(call.query.get('pageSize') ?? 50);
        return json({
          members: all.slice(from, to),
          ...(to < all.length ? { continuationToken: String(to) } : {}),
        });
      }
      default:
        return json({ error: { code: 'Unknown' } }, 404);
    }
  }

  server.listen(0, '127.0.0.1');
  await once(server, 'listening');
  const url = `http://127.0.0.1:${(server.address() as AddressInfo).port}/teams/`;
  return {
    url,
    calls,
    shown: conversation => [...(places.get(conversation) ?? [])],
    fail: (what, ...faults) => void planned.set(what, [...(planned.get(what) ?? []), ...faults]),
    always: fits => {
      always = fits;
    },
    files,
    members,
    remove: (conversation, id) => {
      places.set(
        conversation,
        place(conversation).filter(each => each.id !== id),
      );
    },
    wrong,
    async until(ready) {
      while (!ready()) {
        await new Promise<void>(resolve => {
          // Looked at again after a while: what is waited for may not be a call.
          const timer = setTimeout(resolve, 50);
          waiting.push(() => {
            clearTimeout(timer);
            resolve();
          });
        });
      }
    },
    async close() {
      for (const response of hanging) response.destroy();
      server.closeAllConnections();
      server.close();
      await once(server, 'close');
    },
  };
}

async function read(request: IncomingMessage): Promise<Call> {
  const parts: Buffer[] = [];
  for await (const part of request) parts.push(part);
  const text = Buffer.concat(parts).toString();
  const url = new URL(request.url ?? '/', 'http://x');
  const path = url.pathname.split('/').filter(Boolean).map(decodeURIComponent);
  const call: Call = {
    method: request.method ?? '',
    what: 'unknown',
    conversation: '',
    base: '',
    query: url.searchParams,
    id: null,
    body: text.startsWith('{') ? JSON.parse(text) : text,
    authorization: request.headers.authorization ?? null,
    status: 0,
    at: Date.now(),
  };
  if (path.at(-1) === 'token') return { ...call, what: 'token' };
  if (path.at(-1) === 'openidconfiguration') return { ...call, what: 'metadata' };
  if (path.at(-1) === 'keys') return { ...call, what: 'keys' };
  if (path.includes('files') || path.includes('attachments'))
    return { ...call, what: 'file', conversation: path.at(-1) ?? '' };
  const at = path.indexOf('v3');
  const [, conversations, conversation = '', part, id] = path.slice(at);
  if (at === -1 || conversations !== 'conversations') return call;
  call.base = `/${path.slice(0, at).join('/')}/`;
  if (conversation === '') return { ...call, what: 'create' };
  if (part === 'members') return { ...call, what: 'member', conversation, id: id ?? null };
  if (part === 'pagedmembers') return { ...call, what: 'members', conversation };
  if (call.method === 'POST') return { ...call, what: 'post', conversation };
  return call.method === 'PUT' ? { ...call, what: 'update', conversation, id: id ?? null } : call;
}
