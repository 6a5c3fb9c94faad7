/** The chat platforms whose credentials are set, each brought by one function of its folder. Those that are not set are not even loaded. */
import type { Channel } from '#channels/channel.ts';
import type { Mounted } from '#server/mounted.ts';
import type { Outage } from '#store/store.ts';
import { declareOutage, endOutage } from '#talk/outages.ts';
import type { Wired } from './wired.ts';

export interface Platform {
  channel: Channel;
  /** Null: it answers nothing over HTTP. */
  http: Mounted | null;
  /** What an operator should see to although it serves; null: nothing. */
  trouble?(): string | null;
  /** After the port is open. */
  start(): Promise<void>;
  /** Lets what has begun end. */
  stop(): Promise<void>;
}

/** Each tells how many conversations were told; ending one that is not open is null. */
export interface Outages {
  declare(outage: Outage): Promise<number>;
  end(id: string, by: string): Promise<number | null>;
}

type Needs = Pick<Wired, 'config' | 'store' | 'turning' | 'knowledge' | 'take' | 'log' | 'now' | 'id'>;

export async function platforms(needs: Needs): Promise<Platform[]> {
  const { config, turning } = needs;
  const outages: Outages = {
    declare: outage => declareOutage(turning, outage),
    end: (id, by) => endOutage(turning, id, by),
  };
  const found: Platform[] = [];
  if (config.slack !== null) {
    const { slack } = await import('#channels/slack/slack.ts');
    found.push(slack({ ...needs, outages }, config.slack));
  }
  if (config.teams !== null) {
    const { teams } = await import('#channels/teams/teams.ts');
    found.push(teams({ ...needs, outages }, config.teams));
  }
  return found;
}
