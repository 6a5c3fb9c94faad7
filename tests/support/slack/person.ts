/** One person in Slack: what their client makes Slack send us, signed, and what they see. */
import type { Json } from '../json.ts';
import { type FakeSlack, type Post, signed } from './fake.ts';

export interface Delivery {
  /** Headers such as x-slack-retry-num. */
  headers?: Record<string, string>;
  team?: string;
  /** Seconds added to the signature's time. */
  skew?: number;
  secret?: string;
}

export interface FakeFile {
  id: string;
  name: string;
  size: number;
  url_private_download: string;
}

/** Something that a person can press in a message or a home. */
export interface Pressable {
  action_id: string;
  label: string;
  value: string;
  type: string;
}

export interface Event {
  body: Record<string, unknown>;
  form: boolean;
}

let counter = 0;
const next = () => `${Date.now()}.${counter++}`;

/** Everything pressable in these blocks: buttons, options of menus and radio buttons. */
export function pressables(blocks: Json[]): Pressable[] {
  return blocks.flatMap(block =>
    [...(block.elements ?? []), ...(block.accessory ? [block.accessory] : [])].flatMap((element: Json) => {
      const { action_id, type, value, text, options } = element;
      if (action_id === undefined) return [];
      if (options === undefined) return [{ action_id, type, value, label: text.text }];
      return options.map((option: Json) => ({
        action_id,
        type,
        value: option.value,
        label: option.text.text,
      }));
    }),
  );
}

export type FakeView = FakeSlack['views'][number];

/** A field's state as Slack tells it. */
function stateOf({ type, initial_option, initial_value }: Json, given: string | undefined): Json {
  switch (type) {
    case 'static_select':
      return { type, selected_option: given === undefined ? (initial_option ?? null) : { value: given } };
    case 'users_select':
      return { type, selected_user: given ?? null };
    case 'datetimepicker':
      return { type, selected_date_time: given === undefined ? null : Number(given) };
    default:
      return { type, value: given ?? initial_value ?? null };
  }
}

/** Answers only: not what always works. */
export const answersIn = (post: Post): Pressable[] =>
  pressables(post.blocks).filter(({ action_id }) => /^say:(answer|one)/.test(action_id));

export function person(
  slack: FakeSlack,
  user: string,
  send: (event: Event, how?: Delivery) => Promise<Response>,
) {
  const wrap = (event: Record<string, unknown>, team: string): Event => ({
    form: false,
    body: {
      type: 'event_callback',
      token: 'unused',
      team_id: team,
      api_app_id: 'A0RESEAT0',
      event_id: `Ev${next()}`,
      event_time: Math.floor(Date.now() / 1000),
      authorizations: [{ enterprise_id: null, team_id: team, user_id: slack.self, is_bot: true }],
      event,
    },
  });
  const interaction = (body: Record<string, unknown>, team: string): Event => ({
    form: true,
    body: {
      team: { id: team, domain: 'test' },
      user: { id: user, name: user.toLowerCase(), team_id: team },
      ...body,
    },
  });
  const direct = slack.direct(user);
  const teamOf = (how?: Delivery) => how?.team ?? slack.team;
  const self = {
    user,
    direct,
    /** What would be sent, to be sent as often and in what order one likes. */
    saying(text: string, more: Record<string, unknown> = {}, how?: Delivery): Event {
      const event = {
        type: 'message',
        channel: direct,
        channel_type: 'im',
        user,
        text,
        ts: slack.ts(),
        ...more,
      };
      return wrap(event, teamOf(how));
    },
    pressing(post: Post, what: Pressable, how?: Delivery): Event {
      const { action_id, type, value } = what;
      const isMenu = type !== 'button';
      const action = {
        type,
        action_id,
        block_id: 'b',
        action_ts: slack.ts(),
        ...(isMenu
          ? { selected_option: { value, text: { type: 'plain_text', text: what.label } } }
          : { value }),
      };
      return interaction(
        {
          type: 'block_actions',
          trigger_id: `T${next()}`,
          response_url: slack.responseUrl(),
          channel: { id: post.channel },
          container: { type: 'message', channel_id: post.channel, message_ts: post.ts },
          message: {
            ts: post.ts,
            text: post.text,
            ...(post.thread === null ? {} : { thread_ts: post.thread }),
          },
          actions: [action],
        },
        teamOf(how),
      );
    },
    send,
    say: (text: string, more: Record<string, unknown> = {}, how?: Delivery) =>
      send(self.saying(text, more, how), how),
    press: (post: Post, what: Pressable, how?: Delivery) => send(self.pressing(post, what, how), how),
    mention(channel: string, text: string, more: Record<string, unknown> = {}, how?: Delivery) {
      const event = {
        type: 'app_mention',
        channel,
        user,
        text: `<@${slack.self}> ${text}`,
        ts: slack.ts(),
        ...more,
      };
      return send(wrap(event, teamOf(how)), how);
    },
    raw: (event: Record<string, unknown>, how?: Delivery) => send(wrap(event, teamOf(how)), how),
    command(text: string, how?: Delivery) {
      const body = {
        command: '/reseat',
        text,
        team_id: teamOf(how),
        user_id: user,
        user_name: user.toLowerCase(),
        channel_id: 'C0GENERAL',
        trigger_id: `T${next()}`,
        response_url: slack.responseUrl(),
      };
      return send({ body, form: true }, how);
    },
    shortcut(text: string, callback = 'say:this', more: Record<string, unknown> = {}) {
      const body = {
        type: 'message_action',
        callback_id: callback,
        trigger_id: `T${next()}`,
        response_url: slack.responseUrl(),
        channel: { id: 'C0GENERAL', name: 'general' },
        message: { type: 'message', user: 'U0SOMEONE', text, ts: slack.ts(), ...more },
      };
      return send(interaction(body, slack.team));
    },
    openHome: (how?: Delivery) =>
      send(
        wrap(
          { type: 'app_home_opened', user, channel: direct, tab: 'home', event_ts: slack.ts() },
          teamOf(how),
        ),
        how,
      ),
    pressHome(action_id: string) {
      const view = slack.homes.get(user) as { blocks: Json[] };
      const what = pressables(view.blocks).find(each => each.action_id === action_id)!;
      const action = { type: 'button', action_id, block_id: 'b', action_ts: slack.ts(), value: what.value };
      const body = {
        type: 'block_actions',
        trigger_id: `T${next()}`,
        container: { type: 'view' },
        view,
        actions: [action],
      };
      return send(interaction(body, slack.team));
    },
    submit(view: Record<string, unknown>, values: Record<string, unknown>) {
      const body = {
        type: 'view_submission',
        trigger_id: `T${next()}`,
        view: { ...view, state: { values } },
      };
      return send(interaction(body, slack.team));
    },
    /** Presses something in an open form. */
    pressIn({ view, id }: FakeView, what: Pressable) {
      const { action_id, type, value } = what;
      const body = {
        type: 'block_actions',
        trigger_id: `T${next()}`,
        container: { type: 'view', view_id: id },
        view: { ...view, id },
        actions: [{ type, action_id, block_id: 'b', action_ts: slack.ts(), value }],
      };
      return send(interaction(body, slack.team));
    },
    /** Sends a form: text fields by their words, menus by the option's value. */
    fill({ view, id }: FakeView, given: Record<string, string>) {
      const values = Object.fromEntries(
        (view.blocks as Json[])
          .filter(({ type }) => type === 'input')
          .map(({ block_id, element }) => [block_id, { v: stateOf(element, given[block_id]) }]),
      );
      return self.submit({ ...view, id }, values);
    },
    /** A shortcut that can be called from anywhere. */
    global(callback: string) {
      return send(
        interaction({ type: 'shortcut', callback_id: callback, trigger_id: `T${next()}` }, slack.team),
      );
    },
    last: () => slack.last(direct),
    /** The newest message in which something can be answered. */
    question: () => slack.in(direct).findLast(post => answersIn(post).length > 0),
  };
  return self;
}

export type SlackPerson = ReturnType<typeof person>;

/** Posts to `/slack/events` as Slack does. */
export function poster(base: () => string, secret: string) {
  return async ({ body, form }: Event, { headers = {}, skew = 0, secret: other = secret }: Delivery = {}) => {
    const text = form
      ? 'command' in body
        ? new URLSearchParams(body as Record<string, string>).toString()
        : new URLSearchParams({ payload: JSON.stringify(body) }).toString()
      : JSON.stringify(body);
    const request = () =>
      fetch(`${base()}/slack/events`, {
        method: 'POST',
        body: text,
        headers: {
          'content-type': form ? 'application/x-www-form-urlencoded' : 'application/json',
          ...signed(other, text, skew),
          ...headers,
        },
      });
    // A connection that was kept may have been closed meanwhile; Slack opens another.
    return request().catch(request);
  };
}
