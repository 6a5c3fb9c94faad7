/** What is behind the conversation: a service that throttles, fails, hangs or refuses; sign-in that is away; restarts. */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { type Running, running } from '../support/teams/running.ts';
import type { Person } from '../support/teams/teams.ts';

const open: Running[] = [];
afterAll(async () => {
  for (const each of open.splice(0)) await each.close();
});
const started = async (database?: string, env?: Record<string, string>) => {
  const each = await running(database, env);
  open.push(each);
  return each;
};
const asked = (person: Person) => person.shown().length;
const posts = ({ teams }: Running, conversation: string) =>
  teams.calls.filter(call => call.what === 'post' && call.conversation === conversation);
const handedOver = async (reseat: Running, person: Person) => {
  await person.say('the drive in my pc is clicking');
  await reseat.settled();
  await person.press('person');
  await reseat.settled();
  return Number(/R-(\d+)/.exec(person.words())![1]);
};

describe('a service that', () => {
  let reseat: Running;
  beforeAll(async () => {
    reseat = await started();
  });
  let people = 0;
  const somebody = () => reseat.person({ name: `Person ${people++}` });

  test('throttles is left alone as long as it says, while others are served', async () => {
    const [ada, ben] = [somebody(), somebody()];
    reseat.teams.fail('post', { status: 429, retryAfter: '2' });
    await ada.say('my usb stick does not show up');
    await reseat.teams.until(() => posts(reseat, ada.conversation).length === 1);
    await ben.say('my usb stick does not show up');
    await reseat.teams.until(() => asked(ben) === 1);
    expect(asked(ada)).toBe(0);
    await reseat.settled();
    const [first, second] = posts(reseat, ada.conversation);
    expect(second!.at - first!.at).toBeGreaterThanOrEqual(2000);
    expect([posts(reseat, ada.conversation).length, asked(ada)]).toEqual([2, 1]);
  });

  test.each([
    [429, undefined],
    [412, undefined],
    [503, '1'],
  ])('answers %i and took nothing is asked again, once for each answer', async (status, retryAfter) => {
    const ada = somebody();
    reseat.teams.fail('post', { status, ...(retryAfter === undefined ? {} : { retryAfter }) });
    await ada.say('my usb stick does not show up');
    await reseat.settled();
    expect([posts(reseat, ada.conversation).length, asked(ada)]).toEqual([2, 1]);
  });

  test('fails three times gets each message once for each try, and what was taken twice answers nothing twice', async () => {
    const ada = somebody();
    reseat.teams.fail('post', { status: 503 }, { status: 502, take: true }, { status: 500 });
    await ada.say('my usb stick does not show up');
    await reseat.settled();
    // Four tries, no more: the SDK's own would have made sixteen of them. One was taken although it failed.
    expect([posts(reseat, ada.conversation).length, asked(ada)]).toEqual([4, 2]);
    const [older] = ada.shown();
    const press = ada.pressing('say:answer', { answer: 'none' });
    await ada.send({ ...press, replyToId: older!.id });
    await ada.send(press);
    await reseat.settled();
    const current = await reseat.store.currentOf(`teams:${press.conversation.tenantId}:${ada.conversation}`);
    expect(current!.entries.filter(({ kind }) => kind === 'answer')).toHaveLength(1);
  });

  test('hangs holds up neither the answer to what people do, nor anybody else', async () => {
    const reseat = await started();
    const [ada, ben] = [reseat.person({ name: 'Ada' }), reseat.person({ name: 'Ben' })];
    reseat.teams.always(({ what, conversation }) =>
      what === 'post' && conversation === ada.conversation ? { hang: true } : null,
    );
    expect((await ada.say('my usb stick does not show up')).status).toBe(200);
    await ben.say('my usb stick does not show up');
    await reseat.teams.until(() => asked(ben) === 1);
    expect((await ada.say('it is the blue one')).status).toBe(200);
    expect(asked(ada)).toBe(0);
  });

  test('does not know the old card any more gets the next question all the same', async () => {
    const ada = somebody();
    await ada.say('my usb stick does not show up');
    await reseat.settled();
    reseat.teams.fail('update', { status: 404 });
    await ada.press('say:answer', { answer: 'none' });
    await reseat.settled();
    expect(asked(ada)).toBe(2);
    expect(reseat.logged.map(({ event }) => event)).toContain('teams-not-redrawn');
  });

  test('says that the person has blocked the bot is not asked again, and the desk reads it on the ticket', async () => {
    const ada = somebody();
    const number = await handedOver(reseat, ada);
    const ticket = await reseat.store.ticket(number);
    reseat.teams.always(({ what, conversation }) =>
      what === 'post' && conversation === ada.conversation
        ? { status: 403, code: 'MessageWritesBlocked' }
        : null,
    );
    await reseat.wiring.take({
      kind: 'desk',
      identity: 'ask-1',
      at: Date.now(),
      conversation: ticket!.conversation,
      by: 'Tom Reed',
      action: { do: 'ask', text: 'Which bay is it in?' },
    });
    await reseat.settled();
    const life = JSON.stringify((await reseat.store.ticket(number))!.life);
    expect(life).toContain('blocked or removed');
    expect(posts(reseat, ada.conversation).filter(({ status }) => status === 403)).toHaveLength(1);
    expect(await reseat.store.counts()).toMatchObject({ dead: 1 });
    expect(reseat.logged.map(({ event }) => event)).toContain('undeliverable');
  });
});

describe('the token', () => {
  /** An application of its own: the SDK keeps tokens for the whole process. */
  const app = (nth: number) => `22222222-0000-4000-8000-00000000000${nth}`;
  const tokens = ({ teams }: Running) => teams.calls.filter(({ what }) => what === 'token');

  test('is fetched once, however many write at the same time', async () => {
    const reseat = await started(':memory:', { MicrosoftAppId: app(1) });
    const people = Array.from({ length: 20 }, (_, index) =>
      reseat.person({ name: `P${index}`, app: app(1) }),
    );
    await Promise.all(people.map(each => each.say('my usb stick does not show up')));
    await reseat.settled();
    expect(people.map(asked)).toEqual(people.map(() => 1));
    expect(tokens(reseat)).toHaveLength(1);
    expect(
      new Set(reseat.teams.calls.filter(({ what }) => what === 'post').map(call => call.authorization)),
    ).toEqual(new Set(['Bearer a-token']));
  });

  test('that cannot be had leaves everything waiting, tells the operator once, and then all goes out in order', async () => {
    const reseat = await started(':memory:', { MicrosoftAppId: app(2) });
    // Not 5xx: after one of those the sign-in library asks nobody for a minute, which is longer than a test should take.
    const ada = reseat.person({ app: app(2) });
    reseat.teams.always(({ what }) => (what === 'token' ? { status: 401 } : null));
    await ada.installed();
    await ada.say('my usb stick does not show up');
    await reseat.teams.until(() => tokens(reseat).length >= 1);
    await reseat.teams.until(() => reseat.logged.some(({ event }) => event === 'teams-needs-the-operator'));
    expect(asked(ada)).toBe(0);
    expect(await (await fetch(`${reseat.base}/readyz`)).text()).toContain('signing in fails');
    // Far longer than any number of tries would have lasted.
    await reseat.teams.until(() => {
      reseat.later(120_000);
      reseat.wake();
      return tokens(reseat).length > 14;
    });
    expect(reseat.logged.filter(({ event }) => event === 'teams-needs-the-operator')).toHaveLength(1);
    expect(asked(ada)).toBe(0);
    reseat.teams.always(null);
    await reseat.teams.until(() => {
      reseat.later(120_000);
      reseat.wake();
      return asked(ada) >= 2;
    });
    await reseat.settled();
    const [hello, question] = ada.shown();
    expect(JSON.stringify(hello)).toContain('Hello, this is Reseat');
    expect(JSON.stringify(question)).toContain('is one of these true?');
    expect(await (await fetch(`${reseat.base}/readyz`)).text()).toBe('ready\n');
  });

  test('that Teams refuses is the operator’s matter; nothing is lost', async () => {
    const reseat = await started();
    const ada = reseat.person();
    reseat.teams.fail('post', { status: 401 });
    await ada.say('my usb stick does not show up');
    await reseat.teams.until(() => reseat.logged.some(({ event }) => event === 'teams-needs-the-operator'));
    reseat.later(120_000);
    await reseat.settled();
    expect(asked(ada)).toBe(1);
  });
});

describe('after a restart', () => {
  test('the desk still reaches the person, where they wrote from last', async () => {
    const folder = mkdtempSync(join(tmpdir(), 'reseat-teams-'));
    const database = join(folder, 'reseat.db');
    const before = await running(database);
    const ada = before.person();
    const number = await handedOver(before, ada);
    const { conversation } = (await before.store.ticket(number))!;
    // Teams has moved the conversation meanwhile; the newer address counts.
    await ada.say('it clicks every second', { serviceUrl: `${before.teams.url}moved/` });
    await before.settled();
    expect(posts(before, ada.conversation).at(-1)!.base).toBe('/teams/moved/');
    await before.close();

    const after = await running(database);
    open.push(after);
    // The stand-in of the second start listens elsewhere; that is what the stored address is led to.
    const kept = await after.store.conversation(conversation);
    const reference = JSON.parse(kept!.address.to.reference!);
    expect(reference.serviceUrl).toBe(`${before.teams.url}moved/`);
    await after.person().say('still there', { serviceUrl: after.teams.url });
    await after.settled();
    await after.wiring.take({
      kind: 'desk',
      identity: 'ask-2',
      at: Date.now(),
      conversation,
      by: 'Tom Reed',
      action: { do: 'ask', text: 'Which bay is it in?' },
    });
    await after.settled();
    expect(after.person().words()).toContain('Which bay is it in?');
    rmSync(folder, { recursive: true });
  });
});
