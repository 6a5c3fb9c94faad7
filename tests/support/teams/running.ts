/** Reseat with Teams in this process, over real HTTP, with a clock and a log of one's own. */
import { app } from '#server/app.ts';
import { listen } from '#server/listen.ts';
import type { Store } from '#store/store.ts';
import { platforms } from '../../../src/commands/platforms.ts';
import { open } from '../../../src/commands/serve.ts';
import { readConfig } from '../../../src/config.ts';
import { type Wiring, wiring } from '../wiring.ts';
import { APP, type Keys, keys, TENANT } from './keys.ts';
import { lead } from './lead.ts';
import { type Service, service } from './service.ts';
import { type Person, person, type Where } from './teams.ts';

export interface Running {
  base: string;
  teams: Service;
  keys: Keys;
  store: Store;
  wiring: Wiring;
  /** Events that were logged, with what they say. */
  logged: { event: string; details: Record<string, unknown> }[];
  person(where?: Where): Person;
  /** Resolves when everything that was committed has been sent, or has failed to. */
  settled(): Promise<void>;
  later(milliseconds: number): void;
  /** Delivery looks now. */
  wake(): void;
  close(): Promise<void>;
}

/** The settings of a bot whose keys and service are the stand-in's. */
export const SETTINGS = {
  MicrosoftAppId: APP,
  MicrosoftAppPassword: 'a-secret',
  MicrosoftAppTenantId: TENANT,
  // On this machine, so that a service address on this machine counts; the stand-in answers for it.
  ToBotFromChannelOpenIdMetadataUrl: '',
};

export const settingsFor = ({ url }: Service): Record<string, string> => ({
  ...SETTINGS,
  TEAMS_SERVICE_URL: url,
  ToBotFromChannelOpenIdMetadataUrl: new URL('/v1/.well-known/openidconfiguration', url).href,
});

export async function running(database = ':memory:', env: Record<string, string> = {}): Promise<Running> {
  const signing = await keys();
  const teams = await service(signing);
  lead(teams.url);
  const config = readConfig({ ...settingsFor(teams), ...env });
  let ahead = 0;
  let ids = 0;
  const now = () => Date.now() + ahead;
  const id = () => `made-here-${ids++}`;
  const listeners: (() => void)[] = [];
  const wake = () => {
    for (const listener of listeners) listener();
  };
  const logged: Running['logged'] = [];
  const log = (event: string, details: Record<string, unknown>) => void logged.push({ event, details });
  const wired = await wiring({ database, channels: [], now, id, wake, log, boards: config.boards });
  const { store, take, gathering } = wired;
  const common = {
    config,
    store,
    turning: wired.turning,
    take,
    now,
    id,
    log,
    knowledge: gathering.knowledge,
  };
  const found = await platforms(common);
  const serving = open(
    {
      ...common,
      refresh: gathering.refresh,
      delivering: channels => ({ store, channels, take, now, owner: 'test', log }),
      onCommit: listener => listeners.push(listener),
    },
    found,
  );
  const { host, publicUrl } = config;
  const http = app({
    host,
    publicUrl,
    router: () => serving.router,
    ready: serving.ready,
    troubles: serving.troubles,
  });
  const listening = await listen(http, '127.0.0.1', 0);
  const base = `http://127.0.0.1:${listening.port}`;
  return {
    base,
    teams,
    keys: signing,
    store,
    wiring: wired,
    logged,
    person: where => person(() => base, signing, teams, where),
    async settled() {
      for (;;) {
        wake();
        // Looking into pictures is another's work.
        if ((await store.dueLanes(Number.MAX_SAFE_INTEGER, 1, ['teams:', 'relay:'])).length === 0) return;
        await new Promise(resolve => setTimeout(resolve, 5));
      }
    },
    wake,
    later: milliseconds => {
      ahead += milliseconds;
    },
    async close() {
      serving.farewell();
      await listening.close(0);
      await serving.stop();
      await wired.close();
      await teams.close();
    },
  };
}
