/** An activity of Teams as an inbound. Nothing in it is trusted: what does not fit makes none. */
import { createHash } from 'node:crypto';
import type { Always } from '#engine/entries.ts';
import type { Address, FromPerson } from '#talk/inbound.ts';
import { wordsOf } from './heard.ts';
import type { Incoming, Reference } from './incoming.ts';
import type { TeamsSettings } from './settings.ts';

/** Who they are in their organisation; with this bot alone where Teams does not tell. */
export const personOf = ({ user }: Reference): string => user.directory ?? user.id;

/** A person in a place. Where others read along, everybody has a chat of their own in it. */
export const chatOf = (reference: Reference): string => {
  const { tenant, conversation, kind } = reference;
  return `teams:${tenant}:${conversation}${kind === 'personal' ? '' : `#${personOf(reference)}`}`;
};

export interface To {
  reference: Reference;
  locale: string | null;
  zone: string | null;
}

export function addressOf({
  reference,
  locale,
  zone,
}: Pick<Incoming, 'reference' | 'locale' | 'zone'>): Address {
  return {
    channel: 'teams',
    chat: chatOf(reference),
    to: {
      reference: JSON.stringify(reference),
      ...(locale === null ? {} : { locale }),
      ...(zone === null ? {} : { zone }),
    },
    person: { id: personOf(reference), name: reference.user.name, mail: null },
  };
}

/** Back from what `addressOf` kept. */
export const toOf = ({ to }: Address): To => ({
  reference: JSON.parse(to.reference!) as Reference,
  locale: to.locale ?? null,
  zone: to.zone ?? null,
});

/** A place that nobody has written from yet, such as the desk's channel. @param tenant the organisation's. */
export const placeOf = (
  conversation: string,
  tenant: string,
  { serviceUrl, appId }: TeamsSettings,
): Reference => ({
  serviceUrl,
  tenant,
  conversation,
  kind: 'channel',
  bot: `28:${appId}`,
  user: { id: '', name: null, directory: null },
  channel: conversation.split(';')[0]!,
});

/** Of a message: two with the same id are one. */
export const identityOf = (incoming: Incoming, what: string): string =>
  `${chatOf(incoming.reference)}:${what}:${incoming.id ?? digest(`${incoming.at}\n${incoming.text}`)}`;

/** Null: there were no words; their mention alone says hello. `moved`: said elsewhere, so it answers no question that is open here. */
export function textOf(incoming: Incoming, moved = false): FromPerson | null {
  const text = wordsOf(incoming);
  const base = { at: incoming.at, address: addressOf(incoming) };
  if (text !== '' && moved)
    return { ...base, kind: 'arrived', identity: identityOf(incoming, 'moved'), words: text };
  if (text !== '') return { ...base, kind: 'text', identity: identityOf(incoming, 'text'), text };
  return incoming.attachments.length > 0
    ? null
    : { ...base, kind: 'arrived', identity: identityOf(incoming, 'hello') };
}

/** The bot was added: once for a chat, however often Teams says so. */
export const welcomeOf = (incoming: Incoming): FromPerson => ({
  kind: 'arrived',
  identity: `${chatOf(incoming.reference)}:installed`,
  at: incoming.at,
  address: addressOf(incoming),
});

/** What our cards carry: conversation, question, whose it is, and what a press means. */
export interface Carried {
  c: string;
  q: number;
  /** In a place with readers: whom it was asked of. */
  u?: string;
  /** An answer's id, where each has a button. */
  a?: string;
  /** A standing word. */
  w?: string;
  /** What was entered: an answer's id, words or a number. */
  answer?: unknown;
}

const ALWAYS: readonly string[] = ['back', 'again', 'person', 'stop'] satisfies Always[];

export function carriedOf(data: Record<string, unknown>): Carried | null {
  const { c, q, u, a, w, answer } = data;
  if (typeof c !== 'string' || !Number.isSafeInteger(q)) return null;
  return {
    c,
    q: q as number,
    ...(typeof u === 'string' ? { u } : {}),
    ...(typeof a === 'string' ? { a } : {}),
    ...(typeof w === 'string' ? { w } : {}),
    answer,
  };
}

/**
 * A press on a card of ours. Its identity is of the card, its question and what was answered: Teams may bring the same press again under a
 * new id. `stale`: the question has passed, so that what was typed into its card must not be taken for an answer to another.
 */
export function pressOf(
  verb: string,
  carried: Carried,
  incoming: Pick<Incoming, 'reference' | 'locale' | 'zone' | 'at' | 'replyTo'>,
  stale: boolean,
): FromPerson | null {
  const { c, q, a, w, answer } = carried;
  const base = { at: incoming.at, address: addressOf(incoming) };
  const identity = (what: string) => `teams:press:${c}:${q}:${incoming.replyTo ?? ''}:${what}`;
  const press = (id: string): FromPerson => ({
    ...base,
    kind: 'press',
    identity: identity(`a:${digest(id)}`),
    conversation: c,
    question: q,
    answer: id,
  });
  switch (verb) {
    case 'say:answer': {
      const id = a ?? (typeof answer === 'string' ? answer : null);
      return id === null ? null : press(id);
    }
    case 'say:always':
      if (w === undefined || !ALWAYS.includes(w)) return null;
      if (stale) return press(`@${w}`);
      return { ...base, kind: 'always', identity: identity(`w:${w}`), what: w as Always };
    case 'say:text':
    case 'say:skip': {
      const text = verb === 'say:skip' ? 'skip' : wordsOfEntry(answer);
      if (text === null) return null;
      if (stale) return press(`@${digest(text)}`);
      return { ...base, kind: 'text', identity: identity(`t:${digest(text)}`), text };
    }
    default:
      return null;
  }
}

const wordsOfEntry = (answer: unknown): string | null => {
  if (typeof answer === 'number' && Number.isFinite(answer)) return String(answer);
  return typeof answer === 'string' && answer.trim() !== '' ? answer.replaceAll('\r\n', '\n').trim() : null;
};

export const digest = (text: string): string =>
  createHash('sha256').update(text).digest('base64url').slice(0, 16);
