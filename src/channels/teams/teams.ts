/** Teams, wired: what answers its requests, and the channel that sends to it. Nothing outside this folder knows the platform. */
import type { Store } from '#store/store.ts';
import { adapterFor } from './adapter.ts';
import { deskSide } from './desk/desk.ts';
import type { DeskNeeds } from './desk/desking.ts';
import { ownChats } from './own-chat.ts';
import { PATH, teamsRoutes } from './routes.ts';
import { teamsChannel } from './send.ts';
import type { TeamsSettings } from './settings.ts';

/** `store`: by its interface only. */
export type TeamsNeeds = Omit<DeskNeeds, 'adapter' | 'store' | 'chance'> & {
  store: Pick<Store, 'conversation' | 'history'> & DeskNeeds['store'];
};

/** Milliseconds. Teams shows the person a failure when a press has no answer after some ten seconds. */
const PATIENCE = 7000;

export function teams(needs: TeamsNeeds, settings: TeamsSettings) {
  const { store, take, now, log } = needs;
  const adapter = adapterFor(settings);
  const chance = Math.random;
  const desk =
    settings.desk === null ? null : deskSide({ ...needs, adapter, chance }, settings.desk, settings);
  const channel = teamsChannel({ adapter, settings, desk, take, now, chance, log });
  const own = ownChats(store, adapter, log);
  const router = teamsRoutes({ store, take, adapter, own, settings, desk, now, log, patience: PATIENCE });
  return {
    channel,
    http: { path: PATH, router },
    trouble: () => channel.trouble() ?? desk?.trouble() ?? null,
    start: async () => undefined,
    stop: async () => desk?.stop(),
  };
}
