/** A press whose turn takes too long, and what is read of activities. */
import { expect, test } from 'vitest';
import type { Adapter, Outgoing } from '#channels/teams/adapter.ts';
import { decoded, wordsOf } from '#channels/teams/heard.ts';
import { incomingOf } from '#channels/teams/incoming.ts';
import { literally, markdown } from '#channels/teams/markdown.ts';
import { isService, teamsSettings } from '#channels/teams/settings.ts';
import { turned } from '#channels/teams/turns.ts';

const { settings } = teamsSettings({
  MicrosoftAppId: 'an-app',
  MicrosoftAppPassword: 'a-secret',
  MicrosoftAppTenantId: 'ours',
});
const activity = (more: object) => ({
  type: 'message',
  id: '1',
  channelId: 'msteams',
  serviceUrl: 'https://smba.trafficmanager.net/teams/',
  from: { id: '29:ada', name: 'Ada Bright' },
  recipient: { id: '28:an-app' },
  conversation: { id: 'a:1', conversationType: 'personal', tenantId: 'ours' },
  ...more,
});

test('a press that takes too long is answered at once, and is taken once', async () => {
  let release: (() => void) | null = null;
  let taken = 0;
  const posted: Outgoing[] = [];
  const adapter = { post: async (_to: unknown, what: Outgoing) => posted.push(what) } as unknown as Adapter;
  const answer = await turned(
    {
      store: {
        conversation: async () => null,
        history: async () => ({ conversations: [], sent: [] }),
      },
      take: async () => {
        taken += 1;
        await new Promise<void>(resolve => {
          release = resolve;
        });
        return { kind: 'done' };
      },
      adapter,
      own: async () => null,
      settings: settings!,
      desk: null,
      now: () => 0,
      log: () => undefined,
      patience: 5,
    },
    activity({
      type: 'invoke',
      name: 'adaptiveCard/action',
      replyToId: '2',
      value: { action: { type: 'Action.Execute', verb: 'say:answer', data: { c: 'c', q: 1, a: 'yes' } } },
    }),
  );
  expect(answer.body).toMatchObject({ type: 'application/vnd.microsoft.activity.message' });
  expect([taken, posted]).toEqual([1, []]);
  release!();
});

test('the bot’s mention is taken out by what Teams says it is, and others’ names stay', () => {
  const heard = (text: string, ...entities: object[]) =>
    wordsOf(incomingOf(activity({ text, entities }), 0)!);
  const bot = { type: 'mention', text: '<at>Reseat</at>', mentioned: { id: '28:an-app', name: 'Reseat' } };
  const tom = { type: 'mention', text: '<at>Tom</at>', mentioned: { id: '29:tom', name: 'Tom Reed' } };
  expect(heard('<at>Reseat</at> no', bot)).toBe('no');
  expect(heard('no, <at>Reseat</at>', bot)).toBe('no');
  expect(heard('<at>Reseat</at>, <at>Tom</at> says no', bot, tom)).toBe('Tom Reed says no');
  // Not a mention but words: nobody said that it is one.
  expect(heard('Reseat the stick')).toBe('Reseat the stick');
});

test('references are decoded once', () => {
  expect(decoded('a &lt;b&gt; &amp;lt; &#228; &#x1F600; &nope; &#0; &#xD800; &')).toBe(
    'a <b> &lt; ä 😀 &nope; &#0; &#xD800; &',
  );
});

test('what people write is text in Teams’ marks, and our own marks are marks', () => {
  expect(markdown('Ticket **R-1001**, see [the page](https://x.example/a)')).toBe(
    'Ticket **R-1001**, see [the page](https://x.example/a)',
  );
  expect(markdown('- one\n- two\nthree')).toBe('- one\n- two\n\nthree');
  expect(markdown('see [it](javascript:alert(1)) <at>all</at>')).not.toMatch(/\]\(|<at>/);
  const hostile = '# *a* _b_ ~c~ `d` [e](f) <g> & | \\ ! 1. x\n- y\n+ z';
  expect(literally(hostile)).not.toMatch(/[*_~`[\]()<>|\\!]|^[-+]|^\d\./m);
  expect(decoded(literally(hostile))).toBe(hostile);
});

test('an address is of Teams’ service by its host, with TLS', () => {
  const fits = (address: string) => isService(address, settings!);
  expect(fits('https://smba.trafficmanager.net/emea/')).toBe(true);
  expect(fits('https://smba.infra.gov.teams.microsoft.us/')).toBe(true);
  for (const other of [
    'http://smba.trafficmanager.net/',
    'https://teams.microsoft.com.evil.example/',
    'https://evil-teams.microsoft.com.example/',
    'https://notteams.microsoft.com/',
    'https://user@smba.trafficmanager.net/',
    'http://127.0.0.1:3978/',
    'nonsense',
  ])
    expect([other, fits(other)]).toEqual([other, false]);
});
