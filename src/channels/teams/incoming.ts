/** What we read of an activity that Teams sends: our own shape, so that nothing else knows the SDK's. Whatever is strange is left out, never a reason to fail. */
import { z } from 'zod';

const text = z.string().optional().catch(undefined);
const record = z.record(z.string(), z.unknown());
const account = z.object({ id: z.string(), name: text, aadObjectId: text });

const shape = z.object({
  type: z.string(),
  id: text,
  name: text,
  action: text,
  channelId: z.string(),
  serviceUrl: z.string(),
  timestamp: z.union([z.string(), z.date()]).optional().catch(undefined),
  locale: text,
  localTimezone: text,
  from: account,
  recipient: z.object({ id: z.string(), name: text }),
  conversation: z.object({ id: z.string(), conversationType: text, tenantId: text }),
  channelData: z
    .object({
      tenant: z.object({ id: text }).optional().catch(undefined),
      team: z.object({ id: text, aadGroupId: text }).optional().catch(undefined),
      channel: z.object({ id: text }).optional().catch(undefined),
    })
    .optional()
    .catch(undefined),
  text,
  textFormat: text,
  value: z.unknown().optional(),
  replyToId: text,
  entities: z.array(record).optional().catch(undefined),
  attachments: z.array(record).optional().catch(undefined),
  membersAdded: z
    .array(z.object({ id: text }))
    .optional()
    .catch(undefined),
});

export type Kind = 'personal' | 'group' | 'channel';

/** Where to send to, and to whom: what a restart must not lose. */
export interface Reference {
  serviceUrl: string;
  tenant: string;
  /** The thread with it, in a team's channel. */
  conversation: string;
  kind: Kind;
  /** As Teams names this bot here. */
  bot: string;
  /** Teams' name for the person with this bot; `directory` is the organisation's. */
  user: { id: string; name: string | null; directory: string | null };
  /** The team's channel. */
  channel: string | null;
}

/** One activity. `at`: epoch milliseconds by Teams' clock, ours when it tells none. */
export interface Incoming {
  type: string;
  id: string | null;
  /** Of an invoke. */
  name: string | null;
  at: number;
  locale: string | null;
  zone: string | null;
  reference: Reference;
  text: string;
  markedUp: boolean;
  value: unknown;
  /** The message that a press or form belongs to. */
  replyTo: string | null;
  entities: Record<string, unknown>[];
  attachments: Record<string, unknown>[];
  /** Was this bot itself just added to the conversation? */
  welcomed: boolean;
}

const KINDS: Record<string, Kind> = { personal: 'personal', groupChat: 'group', channel: 'channel' };

/** Null when it lacks what every activity of Teams has. */
export function incomingOf(raw: unknown, now: number): Incoming | null {
  const read = shape.safeParse(raw);
  if (!read.success || read.data.channelId !== 'msteams') return null;
  const { data } = read;
  const at = data.timestamp === undefined ? Number.NaN : new Date(data.timestamp).getTime();
  return {
    type: data.type,
    id: data.id ?? null,
    name: data.name ?? null,
    at: Number.isFinite(at) ? at : now,
    locale: data.locale ?? null,
    zone: data.localTimezone ?? null,
    reference: {
      serviceUrl: data.serviceUrl,
      tenant: data.conversation.tenantId ?? data.channelData?.tenant?.id ?? '',
      conversation: data.conversation.id,
      // A conversation of an unknown kind may have readers.
      kind: KINDS[data.conversation.conversationType ?? 'personal'] ?? 'group',
      bot: data.recipient.id,
      user: {
        id: data.from.id,
        name: data.from.name ?? null,
        directory: data.from.aadObjectId ?? null,
      },
      channel: data.channelData?.channel?.id ?? null,
    },
    text: data.text ?? '',
    markedUp: data.textFormat === 'xml',
    value: data.value,
    replyTo: data.replyToId ?? null,
    entities: data.entities ?? [],
    attachments: data.attachments ?? [],
    welcomed:
      data.type === 'conversationUpdate' &&
      (data.membersAdded ?? []).some(member => member.id === data.recipient.id),
  };
}

/** Every tenant that the activity names: none may be a stranger. */
export function tenantsOf(raw: unknown): string[] {
  const read = shape.safeParse(raw);
  if (!read.success) return [];
  const { conversation, channelData } = read.data;
  return [conversation.tenantId, channelData?.tenant?.id].filter(id => id !== undefined);
}
