/** `reseat serve` with Teams, as an operator runs it: whole conversations with signed activities, also over the process's death. */
import { afterAll, beforeAll, expect, test } from 'vitest';
import { openStore } from '#store/open.ts';
import { nextOf, type Served, served } from '../support/teams/served.ts';
import type { Person } from '../support/teams/teams.ts';

let site: Served;
beforeAll(async () => {
  site = await served();
  await site.process.start();
});
afterAll(async () => {
  expect(site.teams.wrong).toEqual([]);
  await site.remove();
});

const answered = async (who: Person, act: () => Promise<{ status: number }>) => {
  const before = who.shown().length;
  expect((await act()).status).toBe(200);
  await site.teams.until(() => who.shown().length > before);
};

/** Answers what is asked until nothing is: what is wanted where it is offered. */
async function toTheEnd(who: Person, wanted: string[], words: string): Promise<void> {
  for (let turn = 0; turn < 30; turn++) {
    const next = nextOf(who, from => wanted.find(each => from.includes(each)) ?? from.at(-1)!, words);
    if (next === null) return;
    await answered(who, () => (next === 'text' ? who.say(words) : who.send(next.activity)));
  }
  throw new Error(who.words());
}

test('a left-in stick is found and the matter ends as fixed, the process killed in the middle', async () => {
  const ada = site.person({ name: 'Ada Bright' });
  await answered(ada, () => ada.say('my pc says no bootable device, I had a usb stick in it'));
  const next = nextOf(ada, from => from.find(id => id === 'none') ?? from[0]!, '');
  await site.process.stop('SIGKILL');
  await site.process.start();
  if (next !== null && next !== 'text') await answered(ada, () => ada.send(next.activity));
  await toTheEnd(ada, ['none', 'no', 'yes', 'fixed', 'works', 'here', 'one'], 'room 12, 555 0123');
  const store = await openStore(site.process.database);
  const { conversations } = await store.history(
    `teams:${ada.activity({}).conversation.tenantId}:${ada.conversation}`,
    5,
  );
  await store.close();
  expect(conversations.map(({ outcome }) => outcome)).toEqual(['fixed']);
});

test('a clicking drive ends with the desk, and the person has the ticket’s number', async () => {
  const ben = site.person({ name: 'Ben Cole' });
  await answered(ben, () => ben.say('the drive in my pc is clicking'));
  await toTheEnd(ben, ['yes', 'off', 'desktop'], 'room 12, 555 0123');
  const number = /R-(\d+)/.exec(ben.words())![1];
  const store = await openStore(site.process.database);
  const ticket = await store.ticket(Number(number));
  await store.close();
  expect(ticket).toMatchObject({ chat: expect.stringContaining(ben.conversation), status: 'open' });
  expect(ben.words()).toContain('What happens next');
});

test('without an app id there is nothing to talk to', async () => {
  const off = await served({ MicrosoftAppId: '', MicrosoftAppPassword: '', MicrosoftAppTenantId: '' });
  await off.process.start();
  const ada = off.person();
  const response = await fetch(`${off.process.base}/api/messages`, {
    method: 'POST',
    headers: { 'content-type': 'application/json' },
    body: JSON.stringify(ada.activity({ text: 'hello' })),
  });
  expect(response.status).toBe(404);
  await off.remove();
});

test('half of the settings is told by name, and nothing starts', async () => {
  const half = await served({ MicrosoftAppPassword: '' });
  await expect(half.process.start()).rejects.toThrow(/MicrosoftAppPassword: missing/);
  await half.teams.close();
});
