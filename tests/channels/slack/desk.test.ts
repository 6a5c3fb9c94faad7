/** What the desk's side does at the edges, through the running server. */
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, test, vi } from 'vitest';
import { DESK, type DeskSite, deskSite, offered, textOf } from '../../support/slack/desk.ts';
import { pressables } from '../../support/slack/person.ts';
import { until } from '../../support/slack/site.ts';

const GROUP = 'S0DESK001';
let site: DeskSite;
beforeAll(async () => {
  site = await deskSite({ env: { SLACK_DESK_GROUP: GROUP } });
});
afterAll(() => site.close());
beforeEach(() => {
  site.slack.responses.length = 0;
});
afterEach(() => {
  site.slack.untroubled();
  expect(site.slack.faults).toEqual([]);
});

describe('somebody of the desk', () => {
  test('acts under one name, also where their first presses come all at once', async () => {
    const tickets = [await site.ticket(), await site.ticket(), await site.ticket(), await site.ticket()];
    const di = site.as('U0DI00001');
    site.slack.users.set(di.user, { id: di.user, real_name: 'Di Voss' });
    site.slack.members.get(DESK)!.push(di.user);
    site.later(61_000);
    await Promise.all(tickets.map(({ card }) => di.press(card, offered(card, 'Take it'))));
    const taken = await Promise.all(tickets.map(async ({ row }) => (await row()).takenBy));
    expect(taken).toEqual(['Di Voss', 'Di Voss', 'Di Voss', 'Di Voss']);
  });
});

describe('a user group', () => {
  test('lets its members act beside those of the channel', async () => {
    const { card, row } = await site.ticket();
    site.slack.members.set(GROUP, [site.eve.user]);
    site.later(61_000);
    await site.eve.press(card, offered(card, 'Take it'));
    expect((await row()).takenBy).toBe('Eve Stone');
  });

  test('that Slack does not tell us of shuts nobody out who is in the channel', async () => {
    const { card, row } = await site.ticket();
    site.slack.trouble('usergroups.users.list', { is: 'error', error: 'missing_scope' }, 9);
    site.later(61_000);
    await site.bo.press(card, offered(card, 'Take it'));
    expect((await row()).takenBy).toBe('Bo Lind');
    expect(site.logged).toContainEqual({
      event: 'slack-desk-members-unknown',
      details: { method: 'usergroups.users.list', error: 'missing_scope' },
    });
  });
});

describe('a press that is too old for a form (S20)', () => {
  test('in a form still leads on: that form becomes the next', async () => {
    const { card } = await site.ticket();
    const bench = await site.opens(site.bo, card, 'Bench');
    site.slack.trouble('views.push', { is: 'error', error: 'expired_trigger_id' });
    const before = site.slack.views.length;
    await site.bo.pressIn(
      bench,
      pressables(bench.view.blocks as never[]).find(({ value }) => value.startsWith('iops '))!,
    );
    const next = await until(() => site.slack.views[before]);
    expect(next).toMatchObject({ method: 'views.update', id: bench.id, view: { callback_id: 'work:form' } });
  });

  test.each(['work:bench', 'desk:outage'])(
    'from the shortcut %s gets a fresh button in a direct message',
    async shortcut => {
      site.slack.trouble('views.open', { is: 'error', error: 'expired_trigger_id' });
      const before = site.slack.in(site.cy.direct).length;
      await site.cy.global(shortcut);
      const told = await until(() => site.slack.in(site.cy.direct)[before]);
      const opened = site.slack.views.length;
      await site.cy.press(told, offered(told, 'Once more'));
      await until(() => site.slack.views.length > opened);
    },
  );
});

describe('a card', () => {
  test('that could not be redrawn for a while is redrawn once, and its thread misses nothing', async () => {
    const { card, row } = await site.ticket();
    const stored = await row();
    site.slack.trouble('chat.update', { is: 'limited', seconds: 1 }, 1, ({ ts }) => ts === card.ts);
    const before = site.slack.called('chat.update').filter(({ args }) => args.ts === card.ts).length;
    const set = (priority: 'critical' | 'high', count: number) =>
      site.take({
        kind: 'desk',
        identity: `set:${card.ts}:${count}`,
        at: Date.now(),
        conversation: stored.conversation,
        by: 'Bo Lind',
        action: { do: 'priority', priority, reason: `reason ${count}` },
      });
    const first = stored.priority === 'critical' ? 'high' : 'critical';
    for (let count = 0; count < 6; count++)
      await set(count % 2 === 0 ? first : first === 'high' ? 'critical' : 'high', count);
    await until(() => site.below(card).filter(({ text }) => text.includes('set the priority')).length === 6);
    const tried = site.slack.called('chat.update').filter(({ args }) => args.ts === card.ts).length - before;
    expect(tried).toBeLessThanOrEqual(3);
    expect(card.text).toContain(`${(await row()).priority.toUpperCase()} ·`);
  });

  test('whose details somebody deleted gets them again, and stays the same message', async () => {
    const { ada, card, row } = await site.ticket();
    site.below(card)[0]!.deleted = true;
    await ada.say('One more thing: it fell down yesterday.');
    await vi.waitFor(async () => expect(JSON.stringify((await row()).life)).toContain('fell down'), 5000);
    await site.bo.press(card, offered(card, 'Take it'));
    await until(() => textOf(card).includes('Bo Lind has it'));
    expect(site.slack.in(DESK).filter(({ text, thread }) => thread === null && text === card.text)).toEqual([
      card,
    ]);
  });

  test('of which a button is no longer known says so', async () => {
    const { card } = await site.ticket();
    await site.bo.press(card, { action_id: 'desk:polish', value: '1', type: 'button', label: '' });
    await until(() => site.whispered().includes('no longer in use'));
    await site.bo.press(card, { action_id: 'desk:take', value: '999999', type: 'button', label: '' });
    await until(() => site.whispered().includes('There is no ticket R-999999'));
  });
});
