/** People in Teams: what they do reaches Reseat as signed activities, and what Reseat sends is read as they see it. */
import type { Json } from '../json.ts';
import { APP, type Keys, TENANT } from './keys.ts';
import type { Service, Shown } from './service.ts';

export type { Json };

export interface Answered {
  status: number;
  body: Json;
}

export interface Person {
  /** Their conversation with the bot. */
  conversation: string;
  /** An activity of theirs, not sent yet. */
  activity(more: Json): Json;
  /** Signs and sends an activity as it is. */
  send(activity: Json): Promise<Answered>;
  say(text: string, more?: Json): Promise<Answered>;
  /** Presses the action of the newest card that has one with this title, or that carries this answer. */
  press(wanted: string, inputs?: Json): Promise<Answered>;
  /** The same press as an activity, not sent. */
  pressing(wanted: string, inputs?: Json): Json;
  /** What a client sends that knows Action.Submit only. */
  submitting(wanted: string, inputs?: Json): Json;
  installed(): Promise<Answered>;
  shown(): Shown[];
  /** Everything on the screen as words. */
  words(): string;
}

export interface Where {
  name?: string;
  /** Directory id; made of the name unless given. */
  directory?: string;
  conversation?: string;
  kind?: 'personal' | 'channel' | 'groupChat';
  locale?: string;
  zone?: string;
  tenant?: string;
  /** The bot's application id. */
  app?: string;
}

let ids = 0;

/** `base`: where Reseat listens. */
export function person(base: () => string, keys: Keys, teams: Service, where: Where = {}): Person {
  const { name = 'Ada Bright', kind = 'personal', locale = 'en-GB', zone = 'Europe/Berlin' } = where;
  const { tenant = TENANT, app = APP } = where;
  const user = `29:${name.replaceAll(' ', '-')}`;
  const conversation = where.conversation ?? `a:${user}`;
  const directory = where.directory ?? `dir-${name.replaceAll(' ', '-')}`;
  const activity = (more: Json): Json => ({
    type: 'message',
    id: `f:${Date.now()}-${ids++}`,
    timestamp: new Date().toISOString(),
    localTimezone: zone,
    channelId: 'msteams',
    serviceUrl: teams.url,
    from: { id: user, name, aadObjectId: directory },
    recipient: { id: `28:${app}`, name: 'Reseat' },
    conversation: {
      id: conversation,
      conversationType: kind,
      tenantId: tenant,
      ...(kind === 'personal' ? {} : { isGroup: true }),
    },
    channelData: {
      tenant: { id: tenant },
      ...(kind === 'channel' ? { channel: { id: conversation.split(';')[0] } } : {}),
    },
    locale,
    ...more,
  });
  const send = async (what: Json): Promise<Answered> => {
    const response = await fetch(`${base()}/api/messages`, {
      method: 'POST',
      headers: {
        'content-type': 'application/json',
        authorization: await keys.sign({ serviceurl: what.serviceUrl ?? teams.url, aud: app }),
      },
      body: JSON.stringify(what),
    });
    const text = await response.text();
    return { status: response.status, body: text === '' ? null : JSON.parse(text) };
  };
  const action = (wanted: string) => {
    for (const message of teams.shown(conversation).toReversed()) {
      const found = actionsOf(cardOf(message)).find(each =>
        [each.title, each.verb, each.data?.a, each.data?.w].includes(wanted),
      );
      if (found !== undefined) return { message, found };
    }
    throw new Error(`nothing to press called ${wanted} in: ${wordsOf(teams.shown(conversation))}`);
  };
  const pressing = (wanted: string, inputs: Json = {}) => {
    const { message, found } = action(wanted);
    return activity({
      type: 'invoke',
      name: 'adaptiveCard/action',
      replyToId: message.id,
      value: {
        action: { type: 'Action.Execute', verb: found.verb, data: { ...found.data, ...inputs } },
        trigger: 'manual',
      },
    });
  };
  return {
    conversation,
    activity,
    send,
    say: (text, more = {}) => send(activity({ text, textFormat: 'plain', ...more })),
    pressing,
    submitting(wanted, inputs = {}) {
      const { message, found } = action(wanted);
      return activity({ replyToId: message.id, value: { ...found.fallback.data, ...inputs } });
    },
    press: (wanted, inputs) => send(pressing(wanted, inputs)),
    installed: () =>
      send(activity({ type: 'conversationUpdate', membersAdded: [{ id: user }, { id: `28:${app}` }] })),
    shown: () => teams.shown(conversation),
    words: () => wordsOf(teams.shown(conversation)),
  };
}

export const cardOf = ({ activity }: Shown): Json => activity.attachments?.[0]?.content ?? null;

/** Every action of a card, in its order. */
export function actionsOf(value: Json): Json[] {
  if (Array.isArray(value)) return value.flatMap(actionsOf);
  if (typeof value !== 'object' || value === null) return [];
  const own = typeof value.type === 'string' && value.type.startsWith('Action.') ? [value] : [];
  return [
    ...own,
    ...Object.entries(value).flatMap(([name, inner]) =>
      name === 'fallback' || name === 'data' || name === 'selectAction' ? [] : actionsOf(inner),
    ),
  ];
}

/** Texts, titles and choices, one a line. */
export function textsOf(value: Json): string[] {
  if (Array.isArray(value)) return value.flatMap(textsOf);
  if (typeof value !== 'object' || value === null) return [];
  if (value.type === 'RichTextBlock') return [value.inlines.map((run: Json) => run.text).join('')];
  return Object.entries(value).flatMap(([name, inner]) =>
    ['text', 'title', 'label'].includes(name) && typeof inner === 'string'
      ? [inner]
      : name === 'data' || name === 'fallback' || name === 'fallbackText'
        ? []
        : textsOf(inner),
  );
}

const wordsOf = (shown: Shown[]): string =>
  shown.map(({ activity }) => [activity.text ?? '', ...textsOf(activity.attachments)].join('\n')).join('\n');
