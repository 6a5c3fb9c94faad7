/** The only file that knows the SDK: authentication of what comes in, and sending. README.md says what moving to its successor touches. */
import {
  type Activity,
  CloudAdapter,
  ConfigurationBotFrameworkAuthentication,
  type TurnContext,
} from 'botbuilder';
import type { Reference } from './incoming.ts';
import type { TeamsSettings } from './settings.ts';

/** What is sent, in the protocol's own words. Where to and to whom is the reference's matter. */
export interface Outgoing {
  type: 'message' | 'typing';
  text?: string;
  textFormat?: 'plain' | 'markdown';
  /** Shown where only one line is, such as a notification. */
  summary?: string;
  attachments?: { contentType: string; content: unknown }[];
  entities?: Record<string, unknown>[];
  channelData?: Record<string, unknown>;
}

/** What an HTTP request is answered with. */
export interface Answer {
  status: number;
  body?: unknown;
}

export interface Posted {
  /** Teams' id of the message. */
  id: string | null;
  /** Where it stands, when that was made for it. */
  conversation: string;
}

export interface Member {
  id: string;
  name: string | null;
}

export interface Adapter {
  /** Authenticates the request as the SDK does it, then runs `turn`, whose answer matters for an invoke only. */
  receive(
    body: Record<string, unknown>,
    authorization: string,
    turn: (activity: unknown) => Promise<Answer>,
  ): Promise<Answer>;
  post(to: Reference, activity: Outgoing, signal: AbortSignal): Promise<Posted>;
  update(to: Reference, id: string, activity: Outgoing, signal: AbortSignal): Promise<void>;
  /** A thread of its own in a team's channel. */
  thread(to: Reference, activity: Outgoing, signal: AbortSignal): Promise<Posted>;
  /** Their own chat with this bot: the one that is there, or a new one. */
  own(to: Reference, signal: AbortSignal): Promise<string>;
  /** Of the conversation, or of the team of its channel; null: they do not belong to it. */
  member(to: Reference, user: string, signal: AbortSignal): Promise<Member | null>;
  /** The first `most` of them. */
  members(to: Reference, most: number, signal: AbortSignal): Promise<Member[]>;
  /** For files that lie with Teams' message service. */
  token(serviceUrl: string): Promise<string>;
}

/** The token or its signature is not what it should be. */
export class NotAuthentic extends Error {
  override name = 'NotAuthentic';
}

/** Teams said no. `after`: milliseconds that it told us to wait. */
export class Refused extends Error {
  override name = 'Refused';
  readonly status: number;
  readonly code: string;
  readonly after: number | null;
  constructor(status: number, code: string, after: number | null) {
    super(`${status} ${code}`);
    this.status = status;
    this.code = code;
    this.after = after;
  }
}

/** We could not get a token to send with: nothing was sent. */
export class NoToken extends Error {
  override name = 'NoToken';
}

/** Members that are asked for at once; Teams gives 500 at most. */
const PAGE = 200;
/** Milliseconds. Below the time that a delivery is given, so that it is known that nothing was sent. */
const SIGN_IN = 8000;

/** The SDK keeps these for itself. Through `enter` errors arrive as they are. */
class Door extends CloudAdapter {
  enter(authorization: string, activity: Activity, logic: (context: TurnContext) => Promise<void>) {
    return this.processActivity(authorization, activity, logic);
  }
  connectors(appId: string) {
    return this.botFrameworkAuthentication.createConnectorFactory(this.createClaimsIdentity(appId));
  }
}

type ConnectorClient = Awaited<ReturnType<ReturnType<Door['connectors']>['create']>>;

/** The public cloud's, as the SDK has them. */
const PUBLIC = {
  ToChannelFromBotLoginUrl: 'https://login.microsoftonline.com/botframework.com',
  ToChannelFromBotOAuthScope: 'https://api.botframework.com',
  ToBotFromChannelTokenIssuer: 'https://api.botframework.com',
  ToBotFromChannelOpenIdMetadataUrl: 'https://login.botframework.com/v1/.well-known/openidconfiguration',
  ToBotFromEmulatorOpenIdMetadataUrl:
    'https://login.microsoftonline.com/common/v2.0/.well-known/openid-configuration',
  OAuthUrl: 'https://api.botframework.com',
};
/** The cloud of a government, which the SDK knows by this name, and its own scope. */
const GOVERNMENT = { service: 'https://botframework.azure.us', scope: 'https://api.botframework.us' };

export function adapterFor(settings: TeamsSettings): Adapter {
  const { appId, appType, password, tenant, addresses } = settings;
  const authentication = new ConfigurationBotFrameworkAuthentication({
    MicrosoftAppType: appType,
    MicrosoftAppId: appId,
    ...(password === null ? {} : { MicrosoftAppPassword: password }),
    ...(tenant === null ? {} : { MicrosoftAppTenantId: tenant }),
    ...(Object.keys(addresses).length === 0 ? {} : withUsual(addresses)),
  });
  const door = new Door(authentication);
  const factory = door.connectors(appId);
  const scope =
    addresses.ToChannelFromBotOAuthScope ??
    (addresses.ChannelService === GOVERNMENT.service ? GOVERNMENT.scope : PUBLIC.ToChannelFromBotOAuthScope);
  const connectors = new Map<string, Promise<ConnectorClient>>();

  /** One for each service address; there are few. */
  const connector = (serviceUrl: string): Promise<ConnectorClient> => {
    const known = connectors.get(serviceUrl);
    if (known !== undefined) return known;
    const made = factory.create(serviceUrl, scope).then(withoutRetries);
    if (connectors.size >= 100) connectors.clear();
    connectors.set(serviceUrl, made);
    return made;
  };
  let signingIn: Promise<string> | null = null;
  /** Whoever needs a token while one is fetched waits for the same. The SDK keeps it until shortly before it expires. */
  const token = async (serviceUrl: string): Promise<string> => {
    signingIn ??= connector(serviceUrl)
      .then(client => {
        const { credentials } = client as unknown as { credentials: { getToken(): Promise<string> } };
        return unlessAborted(credentials.getToken(), AbortSignal.timeout(SIGN_IN));
      })
      .catch(error => {
        throw new NoToken(messageOf(error));
      })
      .finally(() => {
        signingIn = null;
      });
    return signingIn;
  };
  const calling = async <T>(
    to: Reference,
    signal: AbortSignal,
    call: (client: ConnectorClient) => Promise<T>,
  ): Promise<T> => {
    // Apart from the call, so that a sign-in that fails is known to have sent nothing. The SDK keeps the token.
    await unlessAborted(token(to.serviceUrl), signal);
    try {
      return await unlessAborted(call(await connector(to.serviceUrl)), signal);
    } catch (error) {
      throw refused(error);
    }
  };

  const create = (to: Reference, what: Record<string, unknown>, signal: AbortSignal) =>
    calling(to, signal, client =>
      client.conversations.createConversation(
        {
          bot: { id: to.bot, name: '' },
          ...(to.tenant === '' ? {} : { tenantId: to.tenant }),
          ...what,
        } as never,
        { abortSignal: signal },
      ),
    );

  return {
    async receive(body, authorization, turn) {
      let ran = false;
      let answer: Answer = { status: 200 };
      const logic = async ({ activity }: TurnContext) => {
        ran = true;
        answer = await turn(activity);
      };
      try {
        // The answer to an invoke goes by `answer`: what the SDK would make of the turn is not used.
        await door.enter(authorization, body as unknown as Activity, logic);
      } catch (error) {
        if (ran || isOutage(error)) throw error;
        throw new NotAuthentic(messageOf(error));
      }
      return answer;
    },
    async post(to, activity, signal) {
      const { id } = await calling(to, signal, client =>
        client.conversations.sendToConversation(to.conversation, activity as Partial<Activity>, {
          abortSignal: signal,
        }),
      );
      return { id: id ?? null, conversation: to.conversation };
    },
    async update(to, id, activity, signal) {
      await calling(to, signal, client =>
        client.conversations.updateActivity(to.conversation, id, activity as Partial<Activity>, {
          abortSignal: signal,
        }),
      );
    },
    async thread(to, activity, signal) {
      const made = await create(
        to,
        {
          isGroup: true,
          activity,
          channelData: { channel: { id: to.channel ?? to.conversation }, ...tenantOf(to) },
        },
        signal,
      );
      return { id: made.activityId ?? null, conversation: made.id };
    },
    async own(to, signal) {
      const members = [{ id: to.user.id, name: '' }];
      return (await create(to, { isGroup: false, members, channelData: tenantOf(to) }, signal)).id;
    },
    async member(to, user, signal) {
      try {
        const { id, name } = await calling(to, signal, client =>
          client.conversations.getConversationMember(to.conversation, user, { abortSignal: signal }),
        );
        return { id, name: name ?? null };
      } catch (error) {
        if (error instanceof Refused && error.status === 404) return null;
        throw error;
      }
    },
    async members(to, most, signal) {
      const found: Member[] = [];
      let from: string | undefined;
      do {
        const page = await calling(to, signal, client =>
          client.conversations.getConversationPagedMembers(to.conversation, {
            pageSize: PAGE,
            ...(from === undefined ? {} : { continuationToken: from }),
            abortSignal: signal,
            // The SDK's type wants a token even for the first page.
          } as { pageSize: number; continuationToken: string }),
        );
        found.push(...(page.members ?? []).map(({ id, name }) => ({ id, name: name ?? null })));
        from = page.continuationToken || undefined;
      } while (from !== undefined && found.length < most);
      return found.slice(0, most);
    },
    token,
  };
}

const tenantOf = ({ tenant }: Reference) => (tenant === '' ? {} : { tenant: { id: tenant } });

/** Once one address is set the SDK takes all as given: those that are not set are the public cloud's. */
const withUsual = (addresses: TeamsSettings['addresses']) =>
  addresses.ChannelService === undefined ? { ...PUBLIC, ...addresses } : addresses;

/** Sending again is our delivery's matter: behind its back the SDK would post up to four times. Nor is a token carried elsewhere. */
function withoutRetries(client: ConnectorClient): ConnectorClient {
  const { pipeline } = (
    client as unknown as { client: { pipeline: { removePolicy(of: { name: string }): unknown[] } } }
  ).client;
  for (const name of ['defaultRetryPolicy', 'redirectPolicy']) {
    if (pipeline.removePolicy({ name }).length === 0) throw new Error(`the SDK has no ${name} any more`);
  }
  return client;
}

/** The key metadata could not be fetched: that says nothing about the token. */
const isOutage = (error: unknown): boolean =>
  error instanceof Error &&
  (error.name === 'FetchError' || ('statusCode' in error && Number(error.statusCode) >= 500));

function refused(error: unknown): unknown {
  if (!(error instanceof Error) || !('statusCode' in error) || typeof error.statusCode !== 'number')
    return error;
  const { statusCode, code, response } = error as Error & {
    statusCode: number;
    code?: string;
    response?: { headers?: { get(name: string): string | undefined } };
  };
  return new Refused(
    statusCode,
    code ?? error.message.slice(0, 200),
    waitOf(response?.headers?.get('retry-after')),
  );
}

/** Retry-After: seconds, or a date (RFC 9110, 10.2.3). */
function waitOf(header: string | undefined): number | null {
  if (header === undefined) return null;
  const seconds = Number(header);
  if (Number.isFinite(seconds)) return Math.max(0, seconds * 1000);
  const at = Date.parse(header);
  return Number.isNaN(at) ? null : Math.max(0, at - Date.now());
}

/** The SDK's sign-in knows no signal. */
function unlessAborted<T>(work: Promise<T>, signal: AbortSignal): Promise<T> {
  return new Promise((resolve, reject) => {
    const stop = () => reject(signal.reason);
    // What fails later fails into this, and into nothing else.
    if (signal.aborted) stop();
    signal.addEventListener('abort', stop, { once: true });
    work.then(resolve, reject).finally(() => signal.removeEventListener('abort', stop));
  });
}

const messageOf = (error: unknown) => (error instanceof Error ? error.message : String(error)).slice(0, 300);
