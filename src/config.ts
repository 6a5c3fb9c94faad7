/** The only file that reads the environment: once, through a schema that reports every mistake at once. deploy/env.example lists all settings. */
import { z } from 'zod';
import { SLACK_SETTINGS, type SlackSettings, slackSettings } from '#channels/slack/settings.ts';
import { TEAMS_SETTINGS, type TeamsSettings, teamsSettings } from '#channels/teams/settings.ts';
import { UserError } from './errors.ts';

const hours = (usual: number) =>
  z.coerce
    .number({ error: 'a number of hours, such as 4' })
    .positive({ error: 'a number of hours above 0' })
    .max(24 * 60, { error: 'at most 1440 hours' })
    .default(usual)
    .transform(value => value * 3_600_000);

/** Only the address itself: pages and forms are at its root. */
const publicUrl = z
  .url({ protocol: /^https?$/, error: 'an address such as https://reseat.example' })
  .refine(given => URL.canParse(given) && ['', '/'].includes(new URL(given).pathname), {
    error: 'an address without a path, such as https://reseat.example',
  })
  .transform(given => new URL(given).origin);

const settings = z.object({
  /** A file path, or a postgres:// address. */
  RESEAT_DATABASE: z.string().min(1).default('data/reseat.db'),
  /** Folder with the flows. */
  RESEAT_FLOWS: z.string().min(1).default('flows'),
  /** Address to listen on; 127.0.0.1 is this machine only. */
  HOST: z.string().min(1).default('127.0.0.1'),
  PORT: z.coerce
    .number({ error: 'a port number, such as 3978' })
    .int({ error: 'a whole port number' })
    .min(0, { error: 'a port number, 0 to 65535' })
    .max(65_535, { error: 'a port number, 0 to 65535' })
    .default(3978),
  /** Where people reach it, when that is not HOST and PORT: the address of a proxy with TLS. */
  RESEAT_PUBLIC_URL: publicUrl.optional(),
  /** Hours without an answer until one nudge. */
  RESEAT_NUDGE_HOURS: hours(4),
  /** Hours without an answer until a conversation counts as left. */
  RESEAT_LEFT_HOURS: hours(72),
  ...SLACK_SETTINGS,
  ...TEAMS_SETTINGS,
});

export interface Config {
  database: string;
  flows: string;
  host: string;
  port: number;
  publicUrl: string | null;
  nudgeAfter: number;
  leftAfter: number;
  /**
   * Lanes of the places where the desk sees its tickets. A terminal needs no more to keep them current: whoever serves, with
   * the secrets, shows them.
   */
  boards: string[];
  /** Null: Slack is off. */
  slack: SlackSettings | null;
  /** Null: Teams is off. */
  teams: TeamsSettings | null;
}

/** `env` is process.env, or a test's own. Throws a UserError that names every wrong setting. */
export function readConfig(env: Record<string, string | undefined>): Config {
  const result = settings.safeParse(env);
  if (!result.success) {
    const wrong = result.error.issues.map(issue => `${issue.path.join('.')}: ${issue.message}`);
    throw new UserError(`Settings to correct: ${wrong.join('; ')}.`);
  }
  const { RESEAT_DATABASE, RESEAT_FLOWS, RESEAT_NUDGE_HOURS, RESEAT_LEFT_HOURS } = result.data;
  const { HOST, PORT, RESEAT_PUBLIC_URL } = result.data;
  if (RESEAT_LEFT_HOURS <= RESEAT_NUDGE_HOURS) {
    throw new UserError('Settings to correct: RESEAT_LEFT_HOURS must be longer than RESEAT_NUDGE_HOURS.');
  }
  const [slack, teams] = [slackSettings(result.data), teamsSettings(result.data)];
  const half = [...slack.wrong, ...teams.wrong];
  if (half.length > 0) throw new UserError(`Settings to correct: ${half.join('; ')}.`);
  const boards = [
    ['slack', result.data.SLACK_DESK_CHANNEL],
    ['teams', result.data.TEAMS_DESK_CONVERSATION],
  ].flatMap(([channel, place]) => (place ? [`${channel}:desk:${place}`] : []));
  return {
    database: RESEAT_DATABASE,
    flows: RESEAT_FLOWS,
    host: HOST,
    port: PORT,
    publicUrl: RESEAT_PUBLIC_URL ?? null,
    nudgeAfter: RESEAT_NUDGE_HOURS,
    leftAfter: RESEAT_LEFT_HOURS,
    boards,
    slack: slack.settings,
    teams: teams.settings,
  };
}
