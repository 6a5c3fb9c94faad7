/** The chat platforms whose credentials are set, each brought by one function of its folder. Those that are not set are not even loaded. */
import type { Channel } from '#channels/channel.ts';
import type { Mounted } from '#server/mounted.ts';
import type { Wired } from './wired.ts';

export interface Platform {
  channel: Channel;
  /** Null: it answers nothing over HTTP. */
  http: Mounted | null;
  ready(): Promise<boolean>;
  /** After the port is open. */
  start(): Promise<void>;
  /** Lets what has begun end. */
  stop(): Promise<void>;
}

type Needs = Pick<Wired, 'config' | 'store' | 'knowledge' | 'take' | 'log' | 'now' | 'id'>;

export async function platforms(needs: Needs): Promise<Platform[]> {
  const { config } = needs;
  const found: Platform[] = [];
  if (config.slack !== null) {
    const { slack } = await import('#channels/slack/slack.ts');
    found.push(slack(needs, config.slack));
  }
  if (config.teams !== null) {
    const { teams } = await import('#channels/teams/teams.ts');
    found.push(teams(needs, config.teams));
  }
  return found;
}
