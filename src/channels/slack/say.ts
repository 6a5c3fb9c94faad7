/** The person's side: what they write, press, attach, raise in a channel, or begin from the app's home. */
import type { BlockAction, MessageShortcut, SlashCommand } from '@slack/bolt';
import type { Store } from '#store/store.ts';
import type { Address, FromPerson } from '#talk/inbound.ts';
import type { About, Part, Reply } from './app.ts';
import type { Slack } from './client.ts';
import {
  addressOf,
  chatOf,
  pressInbound,
  pressOf,
  type SlackFile,
  saidInbounds,
  timeOf,
  type Where,
} from './inbound.ts';
import type { Profiles } from './profile.ts';
import { wordsFor } from './words.ts';

export interface Saying {
  slack: Slack;
  store: Pick<Store, 'currentOf'>;
  take(inbound: FromPerson): Promise<unknown>;
  profiles: Profiles;
  publish(team: string, user: string): Promise<void>;
  /** For what nobody knows any more. */
  gone(responseUrl: string | undefined, locale: string | null): Promise<void>;
  now(): number;
  log(event: string, details: Record<string, unknown>): void;
}

/** As much of Slack's message events as is read here. */
interface MessageEvent {
  user?: string;
  bot_id?: string;
  subtype?: string;
  channel: string;
  channel_type?: string;
  text?: string;
  ts: string;
  thread_ts?: string;
  files?: SlackFile[];
  hidden?: boolean;
  tab?: string;
  tokens?: { bot?: string[] };
}

/** Subtypes that are a person's own new words; edits, deletions, joins and other bots are not. */
const WORDS = new Set([undefined, 'file_share', 'me_message']);

const NOTHING: Reply = {};

export function saying(on: Saying): Part {
  const { slack, store, profiles, log } = on;

  const ours = (team: string): boolean => {
    const signed = slack.signedIn();
    const fits = signed.state !== 'in' || signed.team === team;
    if (!fits) log('slack-other-workspace', { team });
    return fits;
  };
  const openMatter = async (team: string, user: string): Promise<Address | null> => {
    const current = await store.currentOf(chatOf(team, user));
    if (current === null || current.outcome !== null || current.entries.length === 0) return null;
    return current.address;
  };
  /** Where a matter was raised is kept for as long as it is open. */
  const address = (
    team: string,
    user: string,
    name: string | null,
    open: Address | null,
    where: Where,
  ): Address => {
    const raised = open?.to.raised;
    const channel = open?.to.channel;
    const kept = {
      ...(channel === undefined ? {} : { channel }),
      ...(raised === undefined ? {} : { raised }),
    };
    return addressOf(profiles.of(team, user, name), { ...kept, ...where });
  };
  const all = async (inbounds: FromPerson[]) => {
    for (const inbound of inbounds) await on.take(inbound);
  };
  const learning = (team: string, user: string): Reply => ({ after: () => profiles.learn(team, user) });

  async function message(event: MessageEvent, { team, self }: About): Promise<Reply> {
    const { user, channel, ts, thread_ts: thread, text = '', files = [] } = event;
    if (event.channel_type !== 'im' || !isPersons(event, self) || !ours(team)) return NOTHING;
    const open = await openMatter(team, user!);
    const where = { channel, ...(thread === undefined ? {} : { thread }) };
    await all(saidInbounds({ channel, ts, text, files, self }, address(team, user!, null, open, where)));
    return learning(team, user!);
  }

  async function mention(event: MessageEvent, { team, self }: About): Promise<Reply> {
    const { user, channel, ts, thread_ts: thread, text = '', files = [] } = event;
    if (!isPersons(event, self) || !ours(team)) return NOTHING;
    const open = await openMatter(team, user!);
    const where = { raised: `${channel}:${thread ?? ts}`, fresh: 'yes' };
    const from = address(team, user!, null, open, where);
    await all(saidInbounds({ channel, ts, text, files, self }, from, open !== null || isEmpty(text, self)));
    return learning(team, user!);
  }

  async function home({ user, tab }: MessageEvent, { team }: About): Promise<Reply> {
    if (tab !== 'home' || user === undefined || !ours(team)) return NOTHING;
    return {
      after: async () => {
        await profiles.learn(team, user);
        await on.publish(team, user);
      },
    };
  }

  async function revoked({ tokens }: MessageEvent, { self }: About): Promise<Reply> {
    if (tokens?.bot?.length && (self === null || tokens.bot.includes(self))) slack.signedOut('token_revoked');
    return NOTHING;
  }

  async function action(body: BlockAction): Promise<Reply> {
    const [pressed] = body.actions;
    const team = body.team?.id ?? body.user.team_id ?? '';
    const { id: user } = body.user;
    const name = 'name' in body.user ? (body.user.name ?? null) : null;
    if (pressed === undefined || !ours(team)) return NOTHING;
    const open = await openMatter(team, user);
    if (pressed.action_id === 'say:begin') {
      const identity = `slack:${team}:home:${body.trigger_id}`;
      await on.take({
        kind: 'arrived',
        identity,
        at: on.now(),
        address: address(team, user, name, open, {}),
      });
      return { after: () => on.publish(team, user) };
    }
    const meant = pressOf(pressedValue(pressed));
    const channel = body.channel?.id ?? body.container.channel_id;
    const ts = body.message?.ts ?? body.container.message_ts;
    if (meant === null || channel === undefined || ts === undefined) return gone(body);
    const thread = body.message?.thread_ts;
    // Not the press's channel: what is asked of somebody goes to their own direct message, wherever they pressed.
    const where = thread === undefined ? {} : { thread };
    const identity = `slack:${team}:${channel}:${ts}:${pressed.action_ts}`;
    const at = timeOf(pressed.action_ts);
    await on.take(pressInbound(meant, identity, at, address(team, user, name, open, where)));
    return learning(team, user);
  }

  async function shortcut(body: MessageShortcut): Promise<Reply> {
    const team = body.team?.id ?? '';
    const { id: user, name = null } = body.user;
    if (!ours(team)) return NOTHING;
    const open = await openMatter(team, user);
    const { text = '', files = [] } = body.message as { text?: string; files?: SlackFile[] };
    const from = address(team, user, name, open, {});
    const said = { channel: 'shortcut', ts: body.trigger_id, text, files, self: null };
    await all(
      saidInbounds(said, from, open !== null || text.trim() === '').map(each => ({ ...each, at: on.now() })),
    );
    return learning(team, user);
  }

  async function command(body: SlashCommand): Promise<Reply> {
    const { team_id: team, user_id: user, user_name: name, text, trigger_id } = body;
    if (!ours(team)) return NOTHING;
    const open = await openMatter(team, user);
    const from = address(team, user, name ?? null, open, {});
    const said = { channel: 'command', ts: trigger_id, text, files: [], self: null };
    await all(
      saidInbounds(said, from, open !== null || text.trim() === '').map(each => ({ ...each, at: on.now() })),
    );
    return {
      ack: { response_type: 'ephemeral', text: wordsFor(from.to.locale).command },
      ...learning(team, user),
    };
  }

  const gone = async (body: BlockAction): Promise<Reply> => ({
    after: () => on.gone(body.response_url, profiles.of(body.team?.id ?? '', body.user.id).locale),
  });

  const event =
    (take: (event: MessageEvent, about: About) => Promise<Reply>) =>
    (given: object, about: About): Promise<Reply> =>
      take(given as MessageEvent, about);
  return {
    prefix: 'say',
    action,
    shortcut,
    command,
    events: {
      message: event(message),
      app_mention: event(mention),
      app_home_opened: event(home),
      tokens_revoked: event(revoked),
      app_uninstalled: async () => {
        slack.signedOut('app_uninstalled');
        return NOTHING;
      },
    },
  };
}

const isPersons = ({ user, bot_id, subtype, hidden }: MessageEvent, self: string | null): boolean =>
  user !== undefined && user !== self && user !== 'USLACKBOT' && !bot_id && !hidden && WORDS.has(subtype);

const isEmpty = (text: string, self: string | null): boolean =>
  (self === null ? text : text.replaceAll(`<@${self}>`, '')).trim() === '';

function pressedValue(action: BlockAction['actions'][number]): string {
  if ('selected_option' in action) return action.selected_option?.value ?? '';
  return 'value' in action && typeof action.value === 'string' ? action.value : '';
}
