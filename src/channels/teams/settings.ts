/** What an operator sets for Teams: the SDK's own names, checked before the SDK sees them. Without an app id Teams is off, never open. */
import { z } from 'zod';

const text = z
  .string()
  .trim()
  .transform(value => (value === '' ? undefined : value))
  .optional();

/** Addresses for sign-in and key metadata, for clouds of their own; passed through to the SDK. */
const ADDRESSES = [
  'ChannelService',
  'ToChannelFromBotLoginUrl',
  'ToChannelFromBotOAuthScope',
  'ToBotFromChannelTokenIssuer',
  'ToBotFromChannelOpenIdMetadataUrl',
  'ToBotFromEmulatorOpenIdMetadataUrl',
  'OAuthUrl',
  'ValidateAuthority',
  'CallerId',
] as const;

/** Where Teams takes a bot's messages, in the public cloud and the governments'. */
const SERVICE_HOSTS = ['smba.trafficmanager.net', '*.teams.microsoft.com', '*.teams.microsoft.us'];

/** The public cloud's. */
const SERVICE_URL = 'https://smba.trafficmanager.net/teams/';

export const TEAMS_SETTINGS = {
  /** SingleTenant (usual), UserAssignedMsi, or MultiTenant. */
  MicrosoftAppType: text,
  /** The bot's application id. Without it Teams is off. */
  MicrosoftAppId: text,
  /** The bot's secret; none with UserAssignedMsi. */
  MicrosoftAppPassword: text,
  /** The organisation's directory (tenant) id. */
  MicrosoftAppTenantId: text,
  /** Id of the channel conversation where the desk sees its tickets. */
  TEAMS_DESK_CONVERSATION: text.refine(value => value === undefined || /^\S+@thread\.\w+$/.test(value), {
    error: "a conversation's id such as 19:abc@thread.tacv2",
  }),
  /** Where the first message of all goes, before anybody has written; afterwards Teams says it with every activity. */
  TEAMS_SERVICE_URL: text,
  /** Further hosts that may say they are Teams' message service, separated by commas. */
  TEAMS_SERVICE_HOSTS: text,
  ChannelService: text,
  ToChannelFromBotLoginUrl: text,
  ToChannelFromBotOAuthScope: text,
  ToBotFromChannelTokenIssuer: text,
  ToBotFromChannelOpenIdMetadataUrl: text,
  ToBotFromEmulatorOpenIdMetadataUrl: text,
  OAuthUrl: text,
  ValidateAuthority: text,
  CallerId: text,
};

export interface TeamsSettings {
  appType: 'SingleTenant' | 'MultiTenant' | 'UserAssignedMsi';
  appId: string;
  password: string | null;
  /** Null: every tenant is served, which has to be asked for. */
  tenant: string | null;
  /** Where messages go to a place that nobody has written from yet, such as the desk's. */
  serviceUrl: string;
  /** Hosts that messages may come from and go to; `*.` before a name means every host under it. */
  serviceHosts: string[];
  /** A stand-in on this machine counts as a service address too: only where the key metadata itself comes from this machine. */
  loopback: boolean;
  /** Where the desk sees its tickets: a channel's conversation, or a group chat's. Null: not in Teams. */
  desk: string | null;
  addresses: Partial<Record<(typeof ADDRESSES)[number], string>>;
}

const TYPES = ['SingleTenant', 'MultiTenant', 'UserAssignedMsi'] as const;
const LOOPBACK = /^https?:\/\/(localhost|127(\.\d+){3}|\[::1\])(:\d+)?(\/|$)/i;

export type TeamsGiven = { [name in keyof typeof TEAMS_SETTINGS]?: string | undefined };

/** Null: Teams is off. `wrong`: mistakes, each naming its setting and what to do. */
export function teamsSettings(given: TeamsGiven): { settings: TeamsSettings | null; wrong: string[] } {
  const { MicrosoftAppId: appId, MicrosoftAppPassword: password, MicrosoftAppTenantId: tenant } = given;
  if (appId === undefined) {
    const half = (['MicrosoftAppPassword', 'MicrosoftAppTenantId', 'MicrosoftAppType'] as const).find(
      name => given[name] !== undefined,
    );
    const wrong = half === undefined ? [] : [`MicrosoftAppId: missing, although ${half} is set`];
    return { settings: null, wrong };
  }
  const wanted = given.MicrosoftAppType ?? 'SingleTenant';
  const appType = TYPES.find(type => type.toLowerCase() === wanted.toLowerCase());
  const wrong = [
    ...(appType === undefined ? [`MicrosoftAppType: one of ${TYPES.join(', ')}`] : []),
    ...(appType !== 'MultiTenant' && tenant === undefined
      ? ['MicrosoftAppTenantId: missing; it is the directory (tenant) id of your organisation']
      : []),
    ...(appType !== 'UserAssignedMsi' && password === undefined
      ? ["MicrosoftAppPassword: missing; it is the value of the app registration's client secret"]
      : []),
    ...(appType === 'UserAssignedMsi' && password !== undefined
      ? ['MicrosoftAppPassword: must not be set with UserAssignedMsi']
      : []),
  ];
  if (appType === undefined || wrong.length > 0) return { settings: null, wrong };
  const serviceUrl = given.TEAMS_SERVICE_URL ?? SERVICE_URL;
  if (!URL.canParse(serviceUrl))
    return { settings: null, wrong: [`TEAMS_SERVICE_URL: an address such as ${SERVICE_URL}`] };
  const hosts = given.TEAMS_SERVICE_HOSTS?.split(',').map(host => host.trim().toLowerCase()) ?? [];
  return {
    settings: {
      appType,
      appId,
      password: password ?? null,
      tenant: appType === 'MultiTenant' ? null : tenant!,
      serviceUrl,
      serviceHosts: [...SERVICE_HOSTS, ...hosts.filter(host => host !== '')],
      loopback: LOOPBACK.test(given.ToBotFromChannelOpenIdMetadataUrl ?? ''),
      desk: given.TEAMS_DESK_CONVERSATION ?? null,
      addresses: Object.fromEntries(
        ADDRESSES.flatMap(name => (given[name] === undefined ? [] : [[name, given[name]]])),
      ),
    },
    wrong,
  };
}

/** May this be an address of Teams' message service? TLS always, but for a stand-in on this machine. */
export function isService(address: string, { serviceHosts, loopback }: TeamsSettings): boolean {
  if (!URL.canParse(address)) return false;
  const { protocol, hostname, username, password } = new URL(address);
  if (username !== '' || password !== '') return false;
  if (loopback && LOOPBACK.test(address)) return true;
  if (protocol !== 'https:') return false;
  return serviceHosts.some(host =>
    host.startsWith('*.') ? hostname.endsWith(host.slice(1)) : hostname === host,
  );
}
