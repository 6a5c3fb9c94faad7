/** What the desk's side of Slack may use. */
import type { Catalogue, Site } from '#engine/catalogue.ts';
import type { Outage, Store } from '#store/store.ts';
import type { Inbound } from '#talk/inbound.ts';
import type { Slack } from '../client.ts';
import type { Profiles } from '../profile.ts';

export interface Desking {
  slack: Pick<Slack, 'call' | 'signedIn'>;
  store: Pick<Store, 'ticket' | 'cardRef' | 'outages'>;
  knowledge(): { catalogue: Catalogue; site: Site; flows: Record<string, { script: { title: string } }> };
  /** Resolves after the commit. */
  take(inbound: Inbound): Promise<Took>;
  /** Each returns how many conversations were told; ending one that is not open is null. */
  outages: {
    declare(outage: Outage): Promise<number>;
    end(id: string, by: string): Promise<number | null>;
  };
  profiles: Profiles;
  now(): number;
  log(event: string, details: Record<string, unknown>): void;
  /** Id of the desk's channel. */
  channel: string;
  /** Id of a user group whose members may act as well. */
  group: string | null;
}

export type Took = { kind: 'known' | 'gone' | 'done' } | { kind: 'refused'; why: string };
