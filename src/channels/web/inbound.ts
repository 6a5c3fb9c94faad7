/** A form of the page as an inbound. Nothing in it is trusted: what does not fit makes no inbound. */
import type { Always } from '#engine/entries.ts';
import type { Address, FromPerson } from '#talk/inbound.ts';
import { fileName } from '../file-name.ts';

export type Fields = Record<string, unknown>;

export interface From {
  chat: string;
  now: number;
  /** A short hash of a text. */
  digest(text: string): string;
}

const ID = /^[A-Za-z0-9_-]{8,64}$/;
const ALWAYS: readonly string[] = ['back', 'again', 'person', 'stop'] satisfies Always[];

export function addressOf(chat: string): Address {
  const name = `web-${chat.slice('web:'.length, 'web:'.length + 6)}`;
  return { channel: 'web', chat, to: {}, person: { id: name, name: null, mail: null } };
}

function happened(fields: Fields, from: From, text = '') {
  const { id } = fields;
  if (typeof id !== 'string' || !ID.test(id)) return null;
  // A page that was kept by the browser may send other words under the id of earlier ones.
  const identity = text === '' ? `${from.chat}:${id}` : `${from.chat}:${id}:${from.digest(text)}`;
  return { identity, at: from.now, address: addressOf(from.chat) };
}

export function textOf(fields: Fields, from: From): FromPerson | null {
  if (typeof fields.text !== 'string') return null;
  const text = fields.text.replaceAll('\r\n', '\n');
  const what = happened(fields, from, text);
  return what && { ...what, kind: 'text', text };
}

export function pressOf(fields: Fields, from: From): FromPerson | null {
  const { conversation, question, answer } = fields;
  const number = Number(question);
  if (typeof conversation !== 'string' || typeof answer !== 'string' || !Number.isSafeInteger(number))
    return null;
  const what = happened(fields, from);
  return what && { ...what, kind: 'press', conversation, question: number, answer };
}

export function alwaysOf(fields: Fields, from: From): FromPerson | null {
  const { what, to, finding } = fields;
  if (typeof what !== 'string' || !ALWAYS.includes(what)) return null;
  const number = to === undefined ? undefined : Number(to);
  if (number !== undefined && !Number.isSafeInteger(number)) return null;
  const base = happened(fields, from);
  if (base === null) return null;
  return {
    ...base,
    kind: 'always',
    what: what as Always,
    ...(number === undefined ? {} : { to: number }),
    ...(typeof finding === 'string' ? { finding } : {}),
  };
}

export function fileOf(
  fields: Fields,
  file: { name: string; type: string; content: Uint8Array },
  from: From,
): FromPerson | null {
  const what = happened(fields, from);
  return what && { ...what, kind: 'file', ...file, name: fileName(file.name) };
}

/**
 * When a text was written, as far as it matters: before the newest question was delivered if its page had not seen that question.
 * `seen`: the newest question on the page, as `conversation:number`.
 */
export function writtenAt(
  seen: unknown,
  current: { id: string; askedNumber: number; askedAt: number } | null,
  now: number,
): number {
  if (current === null || typeof seen !== 'string') return now;
  const [conversation, number] = seen.split(':');
  if (conversation !== current.id || !/^\d+$/.test(number ?? '')) return now;
  return Number(number) < current.askedNumber ? Math.min(now, current.askedAt - 1) : now;
}
