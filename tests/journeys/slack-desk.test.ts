/** The desk at work in its Slack channel, through the running server with signed requests. S and B numbers: see DEVELOPERS.md. */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, test, vi } from 'vitest';
import { loadKept } from '#library/kept.ts';
import { cardOf } from '#tickets/card.ts';
import { reseat } from '../support/reseat.ts';
import { DESK, type DeskSite, deskSite, offered, textOf } from '../support/slack/desk.ts';
import { answersIn, type FakeView, pressables } from '../support/slack/person.ts';
import { until } from '../support/slack/site.ts';

let folder: string;
let database: string;
let site: DeskSite;
beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'reseat-desk-'));
  database = join(folder, 'reseat.db');
  site = await deskSite({ database });
});
afterAll(async () => {
  await site.close();
  rmSync(folder, { recursive: true });
});
beforeEach(() => {
  site.slack.responses.length = 0;
});
afterEach(() => {
  site.slack.untroubled();
  expect(site.slack.faults).toEqual([]);
});

const labels = (post: { blocks: never[] | unknown[] }) =>
  pressables(post.blocks as never[]).map(({ label }) => label);

describe('a ticket in the desk’s channel', () => {
  test('is one message with what a technician needs, all details in its thread, and the same as stored (B3)', async () => {
    const { card, row, ada } = await site.ticket();
    const stored = await row();
    expect(card.text).toContain(stored.ticket.title);
    expect(textOf(card)).toMatch(/[◆▲■●] (CRITICAL|HIGH|MEDIUM|LOW) · R-/);
    const { site: organisation, catalogue } = loadKept('flows').library!;
    const known = cardOf(stored, { site: organisation, faults: catalogue.faults });
    for (const { label, texts } of known.lines) {
      expect(card.text).toContain(label);
      expect(card.text).toContain(texts[0]!.slice(0, 40));
    }
    const [details] = site.below(card);
    for (const { question, answer } of stored.ticket.answers) {
      expect(textOf(details!)).toContain(question.slice(0, 20));
      expect(textOf(details!)).toContain(answer.slice(0, 20));
    }
    expect(labels(card)).toEqual(
      expect.arrayContaining([
        'Take it',
        'Ask the person',
        'Close',
        'All details',
        'Add a note',
        'Set the priority',
      ]),
    );
    expect(ada.last().text).toContain(stored.ticket.reference);
  });

  test('is taken, asked about, answered, noted, ranked and closed; one message all the time, the news below it', async () => {
    const { ada, card, row } = await site.ticket();
    await site.bo.press(card, offered(card, 'Take it'));
    expect((await row()).takenBy).toBe('Bo Lind');
    await until(() => textOf(card).includes('Bo Lind has it'));
    expect(labels(card)).not.toContain('Take it');

    const ask = await site.opens(site.bo, card, 'Ask the person');
    const asked = await site.bo.fill(ask, { text: 'Which colour is the *light*? <!channel>' });
    expect(asked.status).toBe(200);
    await until(() => ada.last().text.includes('Which colour'));
    expect(ada.last().text).not.toContain('<!channel>');
    await ada.say('It is <https://evil.example|blue> & <!here>');
    const answered = await until(() =>
      site.below(card).find(({ text }) => text.includes('Ada Holm answered')),
    );
    expect(answered.text).toContain('<@U0BO00001>');
    expect(answered.text).not.toMatch(/<!here>|<https/);

    const note = await site.opens(site.cy, card, 'Add a note');
    await site.cy.fill(note, { text: 'Spare drive is in the cupboard.' });
    await until(() => site.below(card).some(({ text }) => text.includes('Cy Marsh noted: Spare drive')));

    const rank = await site.opens(site.bo, card, 'Set the priority');
    const { priority } = await row();
    const lower = await site.bo.fill(rank, { priority: priority === 'low' ? 'medium' : 'low' });
    if (priority !== 'low')
      expect(await lower.json()).toMatchObject({
        response_action: 'errors',
        errors: { reason: expect.stringMatching(/needs a reason/) },
      });
    await site.bo.fill(rank, { priority: 'critical', reason: 'The board meets at noon.' });
    await until(() => card.text.startsWith('◆ CRITICAL'));

    const close = await site.opens(site.bo, card, 'Close');
    const groups = (
      close.view.blocks as {
        element?: { option_groups?: { label: { text: string }; options: { value: string }[] }[] };
      }[]
    )[0]!.element!.option_groups!;
    const { ticket } = await row();
    expect(groups[0]!.label.text).toBe('Suspected');
    expect(groups[0]!.options[0]!.value).toBe(ticket.suspects[0]!.fault);
    expect(groups.at(-1)!.label.text).toBe('None of these');
    const without = await site.bo.fill(close, { fault: '-' });
    expect(await without.json()).toMatchObject({
      errors: { words: expect.stringMatching(/Say what it was/) },
    });
    await site.bo.fill(close, { fault: ticket.suspects[0]!.fault, words: 'Replaced.' });
    await until(() => textOf(card).includes('Closed. It was'));
    expect(await row()).toMatchObject({ status: 'closed', fault: ticket.suspects[0]!.fault });
    expect(labels(card)).toEqual(['Open it again', 'Bench', 'All details', 'Add a note']);
    await until(() => ada.last().text.includes('is closed'));

    expect(
      site.slack.in(DESK).filter(({ thread, text }) => thread === null && text.includes(ticket.reference)),
    ).toHaveLength(1);

    const again = await site.opens(site.cy, card, 'Open it again');
    await site.cy.fill(again, { text: 'It is back.' });
    await until(() => labels(card).includes('Take it'));
  });

  test('can be handed over and can wait, by the names people go by and times they choose', async () => {
    const { card, row } = await site.ticket();
    const hand = await site.opens(site.bo, card, 'Hand it to somebody');
    await site.bo.fill(hand, { to: site.cy.user });
    await until(() => textOf(card).includes('Handed to Cy Marsh'));
    await until(() => site.below(card).some(({ text }) => text.includes(`<@${site.cy.user}>`)));
    const wait = await site.opens(site.cy, card, 'Let it wait until');
    const past = await site.cy.fill(wait, { until: '1000000000', reason: '' });
    expect(await past.json()).toMatchObject({ errors: { until: expect.stringMatching(/still to come/) } });
    await site.cy.fill(wait, {
      until: String(Math.floor(Date.now() / 1000) + 86_400),
      reason: 'part ordered',
    });
    await until(() => textOf(card).includes('Handed to Cy Marsh, and it waits* until <!date^'));
    expect((await row()).status).toBe('waiting');
  });

  test('is kept current when somebody acts from a terminal', async () => {
    const { card, number } = await site.ticket();
    const terminal = reseat(database, 'flows', { SLACK_DESK_CHANNEL: DESK });
    const { status, err } = terminal.run(['tickets', 'take', `R-${number}`, '--by', 'Di Voss']);
    expect({ status, err }).toEqual({ status: 0, err: '' });
    await until(() => textOf(card).includes('Di Voss has it'));
    await until(() => site.below(card).some(({ text }) => text.includes('Di Voss took it')));
  });

  test('claimed by two at once goes to one, and the other is told (B3)', async () => {
    const { card, row } = await site.ticket();
    const take = offered(card, 'Take it');
    await Promise.all([site.bo.press(card, take), site.cy.press(card, take)]);
    const { takenBy, life } = await row();
    expect(life.filter(({ kind }) => kind === 'taken')).toHaveLength(1);
    await until(() => site.whispered().includes(`${takenBy} has R-`));
  });

  test('pressed twice, or delivered twice, is taken once', async () => {
    const { card, row } = await site.ticket();
    const press = site.bo.pressing(card, offered(card, 'Take it'));
    const [one, two] = await Promise.all([site.bo.send(press), site.bo.send(press)]);
    expect([one.status, two.status]).toEqual([200, 200]);
    expect((await row()).life.filter(({ kind }) => kind === 'taken')).toHaveLength(1);
  });

  test('shows all of it in a form', async () => {
    const { card, row } = await site.ticket();
    const { view } = await site.opens(site.bo, card, 'All details');
    const { ticket } = await row();
    expect(JSON.stringify(view)).toContain(ticket.person.mail);
    expect(JSON.stringify(view)).toContain('ASKED AND ANSWERED');
  });
});

describe('who does not belong to the desk', () => {
  test('is told so kindly whatever they press, and nothing changes', async () => {
    const { card, row } = await site.ticket();
    const before = (await row()).life.length;
    const opened = site.slack.views.length;
    for (const what of pressables(card.blocks)) {
      site.slack.responses.length = 0;
      expect((await site.eve.press(card, what)).status).toBe(200);
      await until(() => site.whispered().includes('Only the desk can do that'));
    }
    expect(site.slack.views).toHaveLength(opened);
    expect((await row()).life).toHaveLength(before);
  });

  test('cannot send a form that they did not open, or opened while they belonged to it', async () => {
    const { card, row } = await site.ticket();
    const form = await site.opens(site.bo, card, 'Add a note');
    const sent = await site.eve.fill(form, { text: 'mine' });
    expect(await sent.json()).toMatchObject({ response_action: 'update' });
    expect((await row()).life.filter(({ kind }) => kind === 'note')).toEqual([]);
  });

  test('acts once they are let in, and no more once they are out', async () => {
    const { card, row } = await site.ticket();
    site.slack.members.get(DESK)!.push(site.eve.user);
    site.later(120_000);
    await site.eve.press(card, offered(card, 'Take it'));
    expect((await row()).takenBy).toBe('Eve Stone');
    site.slack.members.set(DESK, [site.bo.user, site.cy.user]);
    site.later(120_000);
    await site.eve.press(card, offered(card, 'All details'));
    await until(() => site.whispered().includes('Only the desk'));
  });

  test('nobody acts while Slack does not tell who belongs to it', async () => {
    const { card, row } = await site.ticket();
    site.later(120_000);
    site.slack.trouble('conversations.members', { is: 'status', status: 503 }, 5);
    await site.bo.press(card, offered(card, 'Take it'));
    await until(() => site.whispered().includes('try again in a moment'));
    expect((await row()).takenBy).toBeNull();
    site.slack.untroubled();
    site.later(120_000);
    await site.bo.press(card, offered(card, 'Take it'));
    expect((await row()).takenBy).toBe('Bo Lind');
  });
});

describe('when Slack is in the way', () => {
  test('a press that is too old for a form gets a fresh button (S20)', async () => {
    const { card } = await site.ticket();
    site.slack.trouble('views.open', { is: 'error', error: 'expired_trigger_id' });
    await site.bo.press(card, offered(card, 'Ask the person'));
    const told = await until(
      () => site.slack.responses.at(-1) as { text: string; blocks: never[] } | undefined,
    );
    expect(told.text).toContain('press once more');
    const before = site.slack.views.length;
    await site.bo.press(card, pressables(told.blocks)[0]!);
    await until(() => site.slack.views.length > before);
  });

  test('a card that somebody deleted comes back, with its details', async () => {
    const { card, number } = await site.ticket();
    card.deleted = true;
    await site.bo.press(card, offered(card, 'Take it'));
    const fresh = await until(() =>
      site.slack.in(DESK).find(({ thread, text }) => thread === null && text.includes(`R-${number} `)),
    );
    expect(fresh.ts).not.toBe(card.ts);
    await until(() => site.below(fresh).length >= 2);
    await site.cy.press(fresh, offered(fresh, 'Hand it to somebody'));
    await until(() => site.slack.views.at(-1)!.view.callback_id === 'desk:hand');
  });

  test.each(['is_archived', 'not_in_channel', 'missing_scope'])(
    'with %s the person is told all the same, the ticket waits, the operator hears of it, and it appears when that is over (S19)',
    async error => {
      const before = site.logged.length;
      site.slack.trouble('chat.postMessage', { is: 'error', error }, 100, ({ channel }) => channel === DESK);
      const ada = site.as(`U0WAIT${error.length}`);
      await ada.say('my laptop says no bootable device found');
      await until(() => ada.question());
      await ada.say('I want to talk to a person');
      await until(() => /R-\d+/.test(ada.last().text));
      const [, number] = /(R-\d+)/.exec(ada.last().text)!;
      const logged = await until(() =>
        site.logged.slice(before).find(({ event }) => event === 'slack-desk-closed'),
      );
      expect(logged.details).toMatchObject({ channel: DESK, error });
      site.slack.untroubled();
      site.later(61_000);
      await until(() => {
        const shown = site.slack.in(DESK).find(({ text }) => text.includes(`${number!} `));
        return shown !== undefined && site.below(shown).length > 0;
      });
    },
  );

  test('a card of which nobody knows whether it went is marked, and the one that is not kept says so when pressed', async () => {
    site.slack.trouble(
      'chat.postMessage',
      { is: 'reset', done: true },
      1,
      ({ channel, thread_ts }) => channel === DESK && thread_ts === undefined,
    );
    const before = site.slack.in(DESK).length;
    const ada = site.as('U0TWICE01');
    await ada.say('my laptop says no bootable device found');
    await until(() => ada.question());
    await ada.say('I want to talk to a person');
    await until(() => site.slack.in(DESK).length > before);
    site.later(10_000);
    const [lost, kept] = await until(() => {
      const cards = site.slack
        .in(DESK)
        .slice(before)
        .filter(({ thread }) => thread === null);
      return cards.length === 2 && site.below(cards[1]!).length > 0 && cards;
    });
    expect(textOf(kept!)).toContain('may be here twice');
    await site.bo.press(lost!, offered(lost!, 'Add a note'));
    await until(() => lost!.text.includes('shown in another message'));
    await site.bo.press(kept!, offered(kept!, 'Take it'));
    await until(() => textOf(kept!).includes('Bo Lind has it'));
    expect(textOf(kept!)).not.toContain('may be here twice');
  });
});

describe('the bench', () => {
  test('a calculator as a form: what is wrong at its field, the result on top, and as a note on the ticket (S22)', async () => {
    const { card, row } = await site.ticket();
    const bench = await site.opens(site.bo, card, 'Bench');
    const before = site.slack.views.length;
    const fill = pressables(bench.view.blocks as never[]).find(({ value }) =>
      value.startsWith('copy-time '),
    )!;
    await site.bo.pressIn(bench, fill);
    const form = await until(() => site.slack.views[before]);
    expect(form.method).toBe('views.push');
    const wrong = await site.bo.fill(form, { sets: 'name: photos', from: 'spinning', link: 'usb-2' });
    expect(await wrong.json()).toMatchObject({
      response_action: 'errors',
      errors: { sets: 'Line 1, gigabytes: give gigabytes, from 0 to 1000000' },
    });
    const right = await site.bo.fill(form, {
      sets: 'name: photos; gigabytes: 300',
      from: 'spinning',
      link: 'usb-2',
    });
    const { response_action, view } = (await right.json()) as {
      response_action: string;
      view: FakeView['view'];
    };
    expect(response_action).toBe('push');
    const result = { method: 'push', view, trigger: null, id: 'VRESULT1' };
    await site.bo.pressIn(result, pressables(view.blocks as never[])[0]!);
    await until(() => site.slack.views.at(-1)!.id === 'VRESULT1');
    const note = (await row()).life.at(-1)!;
    expect(note).toMatchObject({
      kind: 'note',
      by: 'Bo Lind',
      text: expect.stringMatching(/^Worked out, copy-time:/),
    });
  });

  test('a desk flow begins in the technician’s own messages, and its record comes back to the ticket', async () => {
    const { card, row } = await site.ticket();
    const bench = await site.opens(site.cy, card, 'Bench');
    const begin = pressables(bench.view.blocks as never[]).find(({ value }) =>
      value.startsWith('desk-bench '),
    )!;
    await site.cy.pressIn(bench, begin);
    const question = await until(() => site.cy.question());
    expect(answersIn(question).length).toBeGreaterThan(0);
    await until(() => JSON.stringify(site.slack.views.at(-1)).includes('direct message'));
    await site.cy.say('stop');
    await vi.waitFor(async () =>
      expect((await row()).life).toContainEqual(expect.objectContaining({ kind: 'note', by: 'Cy Marsh' })),
    );
  });

  test('opens from a shortcut too, and tells others in a form that they may not', async () => {
    await site.bo.global('work:bench');
    await until(() => JSON.stringify(site.slack.views.at(-1)).includes('At the bench'));
    await site.eve.global('work:bench');
    await until(() => JSON.stringify(site.slack.views.at(-1)).includes('Only the desk'));
  });
});

describe('an outage', () => {
  test('is declared from a form, shown in the channel, told to people, and ended there', async () => {
    const before = site.slack.in(DESK).length;
    await site.bo.global('desk:outage');
    const form = await until(
      () => site.slack.views.at(-1)!.view.callback_id === 'desk:outage' && site.slack.views.at(-1)!,
    );
    const empty = await site.bo.fill(form, { symptom: 'share-missing', text: ' ' });
    expect(await empty.json()).toMatchObject({
      response_action: 'errors',
      errors: { text: expect.any(String) },
    });
    await site.bo.fill(form, { symptom: 'share-missing', text: 'The file server is <down>.' });
    await site.bo.fill(form, { symptom: 'share-missing', text: 'The file server is <down>.' });
    const shown = await until(() => site.slack.in(DESK)[before]);
    expect(await site.store.outages({ open: true })).toHaveLength(1);
    expect(textOf(shown)).toContain('&lt;down&gt;');
    await site.eve.press(shown, offered(shown, 'It is over'));
    await until(() => site.whispered().includes('Only the desk'));
    await site.cy.press(shown, offered(shown, 'It is over'));
    expect(await site.store.outages({ open: true })).toEqual([]);
    await until(() => textOf(shown).includes('✓ OVER'));
    expect(pressables(shown.blocks)).toEqual([]);
  });
});
