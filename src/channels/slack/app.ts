/** One Bolt app for everybody who answers Slack: what comes in goes to the part whose prefix its id bears. */
import {
  App,
  type BlockAction,
  type MessageShortcut,
  type SlackViewAction,
  type SlashCommand,
} from '@slack/bolt';
import type { SlackEvent } from '@slack/types';
import { boltLog, type Log } from './log.ts';
import type { Answer, Held } from './receiver.ts';

/** What a part answers. `ack` goes with the acknowledgement, `after` is done behind it and may take its time. */
export interface Reply {
  ack?: Answer;
  after?: () => Promise<unknown>;
}

/** Everything here resolves after the commit, never before. What a part does not know of, it leaves out. */
export interface Part {
  /** `say` takes action and callback ids that begin with `say:`. */
  prefix: string;
  action?(body: BlockAction): Promise<Reply>;
  view?(body: SlackViewAction): Promise<Reply>;
  shortcut?(body: MessageShortcut): Promise<Reply>;
  /** By the event's type. `team` is the workspace that the app is installed in. */
  events?: Record<string, (event: SlackEvent, about: About) => Promise<Reply>>;
  command?(body: SlashCommand): Promise<Reply>;
}

export interface About {
  id: string;
  team: string;
  /** Our own user there, as far as the event tells. */
  self: string | null;
}

export interface Routing {
  receiver: Held;
  parts: Part[];
  token: string;
  /** For an id that nobody has: a button of an old version. */
  unknown: Pick<Required<Part>, 'action' | 'view' | 'shortcut'>;
  log: Log;
}

export interface Running {
  /** Waits for what goes on behind acknowledgements. */
  settled(): Promise<void>;
}

export function boltApp({ receiver, parts, token, unknown, log }: Routing): Running {
  const behind = new Set<Promise<unknown>>();
  const app = new App({
    receiver,
    authorize: async () => ({ botToken: token }),
    // Our own filter knows more: edited and deleted messages, and other bots.
    ignoreSelf: false,
    convoStore: false,
    logger: boltLog(log),
  });
  app.error(async error => {
    log('slack-turn-failed', { error: String(error.original ?? error) });
    throw error;
  });
  const finish = async (reply: Reply, ack: (answer?: never) => Promise<void>) => {
    await ack(reply.ack as never);
    if (reply.after === undefined) return;
    const work = reply.after().catch(error => log('slack-after-failed', { error: String(error) }));
    behind.add(work);
    void work.finally(() => behind.delete(work));
  };
  const partOf = (id: string) => parts.find(({ prefix }) => id.startsWith(`${prefix}:`));

  app.action(/.*/, async ({ body, ack, action }) => {
    const id = 'action_id' in action ? action.action_id : '';
    const take = partOf(id)?.action ?? unknown.action;
    await finish(await take(body as BlockAction), ack);
  });
  const viewed = async ({ body, ack }: { body: SlackViewAction; ack: unknown }) => {
    const take = partOf(body.view.callback_id)?.view ?? unknown.view;
    await finish(await take(body), ack as (answer?: never) => Promise<void>);
  };
  app.view(/.*/, viewed);
  app.view({ callback_id: /.*/, type: 'view_closed' }, viewed);
  app.shortcut(/.*/, async ({ body, ack }) => {
    const take = partOf(body.callback_id)?.shortcut ?? unknown.shortcut;
    await finish(await take(body as MessageShortcut), ack);
  });
  app.command(/.*/, async ({ body, ack }) => {
    const take = parts.find(({ command }) => command !== undefined)?.command;
    await finish((await take?.(body)) ?? {}, ack as (answer?: never) => Promise<void>);
  });
  app.event(/.*/, async ({ event, body }) => {
    const { authorizations } = body as { authorizations?: { team_id?: string; user_id?: string }[] };
    const about: About = {
      id: body.event_id,
      team: authorizations?.[0]?.team_id ?? body.team_id,
      self: authorizations?.[0]?.user_id ?? null,
    };
    for (const { events } of parts) {
      const take = events?.[event.type];
      if (take !== undefined) await finish(await take(event, about), async () => undefined);
    }
  });
  return {
    async settled() {
      while (behind.size > 0) await Promise.allSettled(behind);
    },
  };
}
