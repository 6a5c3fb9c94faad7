/** What Slack tells of a person as inbounds. Pure. Identity is of what happened, so that a second delivery is nothing new. */
import type { Always } from '#engine/entries.ts';
import type { Address, FromPerson, Lying } from '#talk/inbound.ts';
import { fileName } from '../file-name.ts';
import { typed } from './text.ts';

/** A person has one chat, wherever they turn to us: their direct message with us. */
export const chatOf = (team: string, user: string): string => `slack:${team}:${user}`;

export interface Who {
  team: string;
  user: string;
  name: string | null;
  mail: string | null;
  /** As the profile says, such as `de-DE`. */
  locale: string | null;
}

export interface Where {
  /** The direct message's channel, where it is known already; a user's id does as well. */
  channel?: string;
  /** Time stamp of the message whose thread this is said in. */
  thread?: string;
  /** A channel's thread in which the matter was raised, as `channel:time stamp`. */
  raised?: string;
}

export function addressOf(who: Who, where: Where = {}): Address {
  const { team, user, name, mail, locale } = who;
  const to = { team, user, ...where, ...(locale === null ? {} : { locale }) };
  return { channel: 'slack', chat: chatOf(team, user), to, person: { id: user, name, mail } };
}

/** A message's time stamp is its time in seconds, and its name within its channel. Epoch milliseconds. */
export const timeOf = (ts: string): number => Math.floor(Number(ts) * 1000);

export interface SlackFile {
  id: string;
  name?: string | null;
  title?: string | null;
  size?: number;
  url_private_download?: string;
  url_private?: string;
}

export interface Said {
  channel: string;
  ts: string;
  text: string;
  files: SlackFile[];
  self: string | null;
}

/** A message to us: its words, and its files apart, because they are fetched later. `carry`: a matter that is open meanwhile is not this. */
export function saidInbounds(
  { channel, ts, text, files, self }: Said,
  address: Address,
  carry = false,
): FromPerson[] {
  const identity = `slack:${address.to.team}:${channel}:${ts}`;
  const at = timeOf(ts);
  const words = typed(text, self);
  const inbounds: FromPerson[] = [];
  if (words !== '' || files.length === 0) {
    if (carry) inbounds.push({ kind: 'arrived', identity, at, address, words });
    else inbounds.push({ kind: 'text', identity, at, address, text: words });
  }
  if (files.length > 0)
    inbounds.push({ kind: 'files', identity: `${identity}:files`, at, address, files: files.map(lying) });
  return inbounds;
}

function lying({ id, name, title, size = 0, url_private_download, url_private }: SlackFile): Lying {
  return { id, name: fileName(name ?? title ?? id), size, url: url_private_download ?? url_private ?? '' };
}

/** What one of our buttons or options carries: short enough for an option's value, whatever the answer's id. */
export type Pressed =
  | { kind: 'answer'; conversation: string; question: number; answer: string }
  | { kind: 'always'; what: Always; to?: number }
  | { kind: 'words'; words: string };

export function pressValue(pressed: Pressed): string {
  switch (pressed.kind) {
    case 'answer':
      return `a ${pressed.conversation} ${pressed.question} ${pressed.answer}`;
    case 'always':
      return pressed.to === undefined ? `s ${pressed.what}` : `s ${pressed.what} ${pressed.to}`;
    case 'words':
      return `w ${pressed.words}`;
  }
}

const ALWAYS: readonly string[] = ['back', 'again', 'person', 'stop'] satisfies Always[];

/** Null: not one of ours, or of a version that is gone. */
export function pressOf(value: string): Pressed | null {
  const [kind, first = '', second, ...rest] = value.split(' ');
  const number = second === undefined ? undefined : Number(second);
  if (kind === 'w') return { kind: 'words', words: value.slice(2) };
  if (number !== undefined && !Number.isSafeInteger(number)) return null;
  if (kind === 'a' && number !== undefined && rest.length === 1)
    return { kind: 'answer', conversation: first, question: number, answer: rest[0]! };
  if (kind === 's' && ALWAYS.includes(first)) {
    const what = first as Always;
    return number === undefined ? { kind: 'always', what } : { kind: 'always', what, to: number };
  }
  return null;
}

/** @param identity of the press: the message's and the action's time stamps */
export function pressInbound(pressed: Pressed, identity: string, at: number, address: Address): FromPerson {
  const base = { identity, at, address };
  switch (pressed.kind) {
    case 'answer': {
      const { conversation, question, answer } = pressed;
      return { ...base, kind: 'press', conversation, question, answer };
    }
    case 'always':
      return {
        ...base,
        kind: 'always',
        what: pressed.what,
        ...(pressed.to === undefined ? {} : { to: pressed.to }),
      };
    case 'words':
      return { ...base, kind: 'text', text: pressed.words };
  }
}
