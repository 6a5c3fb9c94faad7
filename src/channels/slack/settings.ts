/** What an operator sets for Slack. Without a bot token Slack is off; half of it set is told by name. */
import { z } from 'zod';

const given = z
  .string()
  .trim()
  .transform(value => (value === '' ? undefined : value))
  .optional();

const token = (prefix: string) =>
  given.refine(value => value === undefined || value.startsWith(prefix), {
    error: `a token that begins with ${prefix}`,
  });

export const SLACK_SETTINGS = {
  SLACK_BOT_TOKEN: token('xoxb-'),
  /** For requests that come to us. Wins where both are set. */
  SLACK_SIGNING_SECRET: given,
  /** For a connection that we open (Socket Mode). */
  SLACK_APP_TOKEN: token('xapp-'),
  /** Another address for Slack's Web API. */
  SLACK_API_URL: given.refine(value => value === undefined || /^https?:$/.test(protocolOf(value)), {
    error: 'an address such as https://slack.com/api/',
  }),
  /** Id of the channel where the desk sees its tickets. */
  SLACK_DESK_CHANNEL: given.refine(value => value === undefined || /^[CG][A-Z0-9]{5,}$/.test(value), {
    error: "a channel's id such as C0123ABCDEF, not its name",
  }),
  /** Id of a user group whose members belong to the desk beside those of the channel. */
  SLACK_DESK_GROUP: given.refine(value => value === undefined || /^S[A-Z0-9]{5,}$/.test(value), {
    error: "a user group's id such as S0123ABCDEF",
  }),
};

const protocolOf = (address: string) => (URL.canParse(address) ? new URL(address).protocol : '');

export interface SlackSettings {
  botToken: string;
  signingSecret: string | null;
  appToken: string | null;
  /** Where Slack's Web API is, with a slash at its end; null: at Slack. */
  apiUrl: string | null;
  deskChannel: string | null;
  deskGroup: string | null;
}

type Name = keyof typeof SLACK_SETTINGS;
/** Nothing without a token. The desk's place is something: see `Config.boards`. */
const ALONE: Name[] = ['SLACK_SIGNING_SECRET', 'SLACK_APP_TOKEN', 'SLACK_API_URL', 'SLACK_DESK_GROUP'];
export type SlackGiven = { [name in Name]?: string | undefined };

/** Null: Slack is off. `wrong`: mistakes, each naming its setting and what to do. */
export function slackSettings(settings: SlackGiven): { settings: SlackSettings | null; wrong: string[] } {
  const { SLACK_BOT_TOKEN: botToken, SLACK_SIGNING_SECRET: secret, SLACK_APP_TOKEN: appToken } = settings;
  const { SLACK_API_URL: api, SLACK_DESK_CHANNEL: deskChannel, SLACK_DESK_GROUP: deskGroup } = settings;
  if (botToken === undefined) {
    const half = ALONE.find(name => settings[name] !== undefined);
    return {
      settings: null,
      wrong: half === undefined ? [] : [`SLACK_BOT_TOKEN: missing, although ${half} is set`],
    };
  }
  if (secret === undefined && appToken === undefined)
    return {
      settings: null,
      wrong: [
        'SLACK_SIGNING_SECRET: missing (or SLACK_APP_TOKEN, for Socket Mode), although SLACK_BOT_TOKEN is set',
      ],
    };
  return {
    settings: {
      botToken,
      signingSecret: secret ?? null,
      appToken: appToken ?? null,
      apiUrl: api === undefined ? null : api.replace(/\/?$/, '/'),
      deskChannel: deskChannel ?? null,
      deskGroup: deskGroup ?? null,
    },
    wrong: [],
  };
}
