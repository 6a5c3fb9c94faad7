/** Teams, wired: what answers its requests, and the channel that sends to it. Nothing outside this folder knows the platform. */
import type { Store } from '#store/store.ts';
import type { Inbound } from '#talk/inbound.ts';
import { adapterFor } from './adapter.ts';
import type { DeskSide } from './desk-side.ts';
import { PATH, teamsRoutes } from './routes.ts';
import { teamsChannel } from './send.ts';
import type { TeamsSettings } from './settings.ts';

/** `store`: by its interface only. */
export interface TeamsNeeds {
  store: Pick<Store, 'conversation' | 'history' | 'script'>;
  take(inbound: Inbound): Promise<unknown>;
  now(): number;
  log(event: string, details: Record<string, unknown>): void;
}

export function teams(needs: TeamsNeeds, settings: TeamsSettings) {
  const { store, take, now, log } = needs;
  const adapter = adapterFor(settings);
  const desk: DeskSide | null = null;
  const channel = teamsChannel({ adapter, settings, desk, take, now, chance: Math.random, log });
  const router = teamsRoutes({ store, take, adapter, settings, desk, now, log });
  return {
    channel,
    http: { path: PATH, router },
    // Teams comes to us; whether it can be reached is seen when something is sent.
    ready: async () => true,
    trouble: channel.trouble,
    start: async () => undefined,
    stop: async () => undefined,
  };
}
