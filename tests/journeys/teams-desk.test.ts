/** The desk at work in its channel of Teams, through the running server with signed activities. T and B numbers: see DEVELOPERS.md. */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, beforeEach, describe, expect, test } from 'vitest';
import { message } from '#channels/teams/render.ts';
import { cardOf as knownOf } from '#tickets/card.ts';
import { reseat } from '../support/reseat.ts';
import { wrongWith } from '../support/teams/cards.ts';
import {
  DESK,
  type Desk,
  type Dialog,
  desk,
  idOf,
  type Standing,
  type Technician,
} from '../support/teams/desk.ts';
import { actionsOf, type Json, textsOf } from '../support/teams/teams.ts';

let folder: string;
let database: string;
let site: Desk;
beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'reseat-teams-'));
  database = join(folder, 'reseat.db');
  site = await desk(database);
});
afterAll(async () => {
  // Whatever was sent in all of these: valid to an independent schema, within the limits, and drawn by the official library.
  expect(site.teams.wrong).toEqual([]);
  const sent = site.teams.calls.flatMap(({ what, body }) =>
    what === 'create' ? (body.activity ?? []) : what === 'post' || what === 'update' ? body : [],
  );
  expect([...new Set(sent.flatMap(wrongWith))]).toEqual([]);
  await site.close();
  rmSync(folder, { recursive: true });
});
beforeEach(() => {
  site.teams.always(null);
  // What was learnt of the desk's members is old by now.
  site.later(60_000);
});

const wordsIn = (dialog: Dialog): string =>
  dialog === null ? '' : 'words' in dialog ? dialog.words : textsOf(dialog.card).join('\n');
/** All details, page by page; each is a card that Teams draws. */
async function pagesOf(who: Technician, card: Standing): Promise<string[]> {
  const seen: string[] = [];
  let page = await who.opens(card, 'All details');
  for (;;) {
    if (page === null || 'words' in page) throw new Error(wordsIn(page));
    expect(wrongWith(message(page.card, 'details') as Json)).toEqual([]);
    seen.push(wordsIn(page));
    if (!wordsIn(page).includes('Next page')) return seen;
    page = await who.sends(card, page, 'Next page');
  }
}
const soon = (offset = 86_400_000) => {
  const [date, time] = new Date(Date.now() + offset).toISOString().split('T');
  return { 'until-date': date!, 'until-time': time!.slice(0, 5) };
};

describe('a ticket in the desk’s channel', () => {
  test('is one card in a thread of its own, the same as stored (B3, T26)', async () => {
    const { card, row, ada } = await site.ticket();
    const stored = await row();
    const words = site.words(card);
    const { site: organisation, catalogue } = site.wiring.gathering.knowledge();
    const known = knownOf(stored, { site: organisation, faults: catalogue.faults });
    expect(words).toMatch(/[◆▲■●] (CRITICAL|HIGH|MEDIUM|LOW) · R-/);
    for (const { label, texts } of known.lines) {
      expect(words).toContain(label);
      expect(words).toContain(texts[0]!.slice(0, 40));
    }
    expect(card.conversation).toBe(`${DESK};messageid=${card.id}`);
    expect(site.offered(card)).toEqual([
      'Take it',
      'Ask the person',
      'Add a note',
      'Close',
      'All details',
      'More',
    ]);
    const details = (await pagesOf(site.bo, card)).join('\n');
    for (const { question, answer } of stored.ticket.answers) {
      expect(details).toContain(question.slice(0, 20));
      expect(details).toContain(answer.slice(0, 20));
    }
    expect(ada.words()).toContain(stored.ticket.reference);
  });

  test('is taken, asked about, answered, noted, ranked, closed and opened again; one card all the time, the news below it', async () => {
    const { ada, card, number, row } = await site.ticket();
    const took = await site.bo.press(card, 'Take it');
    expect(took.body).toMatchObject({ statusCode: 200, type: 'application/vnd.microsoft.card.adaptive' });
    expect(textsOf(took.body.value).join('\n')).toContain('Bo Lind has it');
    expect((await row()).takenBy).toBe('Bo Lind');
    await site.settled();
    expect(site.words(card)).toContain('Bo Lind has it');
    expect(site.offered(card)).not.toContain('Take it');
    expect(site.below(card).join('\n')).toContain('Bo Lind took it');

    const ask = await site.bo.opens(card, 'Ask the person');
    expect(
      await site.bo.sends(card, ask, 'Ask', { text: 'Which colour is the *light*? <at>all</at>' }),
    ).toBeNull();
    await site.settled();
    expect(ada.words()).toContain('Which colour');
    await ada.say('It is [blue](https://evil.example) & <at>all</at>');
    await site.settled();
    const answered = site.teams
      .shown(card.conversation)
      .find(({ activity }) => /answered/.test(activity.text))!;
    expect(answered.activity.text).toMatch(/^<at>Bo Lind<\/at>\n/);
    expect(answered.activity.text.replace('<at>Bo Lind</at>', '')).not.toMatch(/<|\]\(/);
    expect(answered.activity.entities).toEqual([
      { type: 'mention', text: '<at>Bo Lind</at>', mentioned: { id: idOf('Bo Lind'), name: 'Bo Lind' } },
    ]);

    const note = await site.cy.opens(card, 'Add a note');
    await site.cy.sends(card, note, 'Add', { text: 'Spare drive is in the cupboard.' });
    await site.settled();
    expect(site.below(card).join('\n')).toContain('Cy Marsh noted: Spare drive');

    const { priority, ticket } = await row();
    const more = await site.bo.opens(card, 'More');
    const rank = await site.bo.sends(card, more, 'Set the priority');
    if (priority !== 'low') {
      const refused = await site.bo.sends(card, rank, 'Set', { priority: 'low', reason: '' });
      expect(wordsIn(refused)).toMatch(/needs a reason/);
      expect(JSON.stringify(refused)).toContain('"value":"low"');
    }
    await site.bo.sends(card, rank, 'Set', { priority: 'critical', reason: 'The board meets at noon.' });
    await site.settled();
    expect(site.words(card)).toContain('◆ CRITICAL');

    const close = await site.bo.opens(card, 'Close');
    const without = await site.bo.sends(card, close, 'Close it', { fault: '-', words: '' });
    expect(wordsIn(without)).toMatch(/Say what it was/);
    const { fault } = ticket.suspects[0]!;
    expect(await site.bo.sends(card, without, 'Close it', { fault, words: 'Replaced.' })).toBeNull();
    await site.settled();
    expect(await row()).toMatchObject({ status: 'closed', fault });
    expect(site.words(card)).toContain('Closed. It was');
    expect(site.offered(card)).toEqual(['Open it again', 'Add a note', 'All details', 'Bench']);
    expect(ada.words()).toContain('is closed');
    expect(site.threads().filter(each => site.words(each).includes(`R-${number}`))).toHaveLength(1);

    const again = await site.cy.opens(card, 'Open it again');
    await site.cy.sends(card, again, 'Open again', { text: 'It is back.' });
    await site.settled();
    expect(site.offered(card)).toContain('Take it');
    // The same press as at first, and yet another one.
    await site.bo.press(card, 'Take it');
    expect((await row()).takenBy).toBe('Bo Lind');
  });

  test('is closed in words where none of the faults fits', async () => {
    const { card, row, ada } = await site.ticket();
    const close = await site.bo.opens(card, 'Close');
    await site.bo.sends(card, close, 'Close it', { fault: '-', words: 'A cat had sat on it.' });
    await site.settled();
    expect(await row()).toMatchObject({ status: 'closed', fault: null });
    expect(ada.words()).toContain('A cat had sat on it.');
  });

  test('can be handed over and can wait, by the names of the desk’s people and their own clock', async () => {
    const { card, row } = await site.ticket();
    const hand = await site.bo.sends(card, await site.bo.opens(card, 'More'), 'Hand it to somebody');
    expect(JSON.stringify(hand)).toContain('"value":"Cy Marsh"');
    expect(JSON.stringify(hand)).not.toContain('Eve Stone');
    await site.cy.opens(card, 'More');
    await site.bo.sends(card, hand, 'Hand over', { to: 'Cy Marsh' });
    await site.settled();
    expect(site.words(card)).toContain('Handed to Cy Marsh');
    expect(site.below(card).at(-1)).toContain('<at>Cy Marsh</at>');
    const wait = await site.cy.sends(card, await site.cy.opens(card, 'More'), 'Let it wait until');
    expect(wordsIn(wait)).toContain('At, by the clock of Europe/Berlin');
    const past = await site.cy.sends(card, wait, 'Let it wait', { ...soon(-86_400_000), reason: 'x' });
    expect(wordsIn(past)).toMatch(/still to come/);
    await site.cy.sends(card, past, 'Let it wait', { 'until-date': '2099-01-02', 'until-time': '09:30' });
    await site.settled();
    expect((await row()).life.at(-1)).toMatchObject({
      kind: 'waiting',
      until: Date.parse('2099-01-02T08:30:00Z'),
    });
    expect(site.words(card)).toContain('Until {{DATE(2099-01-02T08:30:00Z,SHORT)}}');
  });

  test('is kept current when somebody acts from a terminal', async () => {
    const { card, number } = await site.ticket();
    const terminal = reseat(database, 'flows', { TEAMS_DESK_CONVERSATION: DESK });
    const { status, err } = terminal.run(['tickets', 'take', `R-${number}`, '--by', 'Di Voss']);
    expect({ status, err }).toEqual({ status: 0, err: '' });
    await site.settled();
    expect(site.words(card)).toContain('Di Voss has it');
    expect(site.below(card).join('\n')).toContain('Di Voss took it');
  });

  test('claimed by two at once goes to one, and the other is told (B3)', async () => {
    const { card, row } = await site.ticket();
    const answers = await Promise.all([site.bo, site.cy].map(each => each.press(card, 'Take it')));
    const { takenBy, life } = await row();
    expect(life.filter(({ kind }) => kind === 'taken')).toHaveLength(1);
    const told = answers.filter(({ body }) => body.type === 'application/vnd.microsoft.activity.message');
    expect(told.map(({ body }) => body.value)).toEqual([expect.stringContaining(`${takenBy} has R-`)]);
  });

  test('pressed twice, or brought again by Teams under a new id, is done once (T5)', async () => {
    const { card, row } = await site.ticket();
    const press = site.bo.pressing(card, 'Take it');
    await Promise.all([press, press, { ...press, id: 'f:anew' }].map(site.bo.send));
    expect((await row()).life.filter(({ kind }) => kind === 'taken')).toHaveLength(1);
    const form = await site.bo.opens(card, 'Add a note');
    const sent = site.bo.sending(card, form, 'Add', { text: 'once' });
    await Promise.all([sent, { ...sent, id: 'f:again' }, sent].map(site.bo.send));
    // A form opened anew is another one, even with the same words.
    await site.bo.sends(card, await site.bo.opens(card, 'Add a note'), 'Add', { text: 'once' });
    expect((await row()).life.filter(({ kind }) => kind === 'note')).toHaveLength(2);
  });

  test('is taken just as well with a client that knows Action.Submit only (T12)', async () => {
    const [one, other] = [await site.ticket(), await site.ticket()];
    const late = site.cy.submitting(one.card, 'Take it');
    await site.bo.press(one.card, 'Take it');
    expect((await site.bo.send(site.bo.submitting(other.card, 'Take it'))).status).toBe(200);
    // Redrawn at once, and by the delivery as well.
    expect(site.words(other.card)).toContain('Bo Lind has it');
    await site.settled();
    const standing = async ({ row }: typeof one) => {
      const { status, takenBy, life } = await row();
      return { status, takenBy, life: life.map(({ kind, by }) => ({ kind, by: by.replace(/\d+/, '') })) };
    };
    expect(await standing(other)).toEqual(await standing(one));
    expect(site.offered(other.card)).toEqual(site.offered(one.card));
    expect((await site.cy.send(late)).status).toBe(200);
    expect(site.below(one.card).at(-1)).toMatch(/^Bo Lind has R-\d+ already/);
  });

  test('shows all of it, page by page where it is long', async () => {
    const { ada, card, row } = await site.ticket();
    for (let note = 0; note < 9; note++) {
      const form = await site.bo.opens(card, 'Add a note');
      await site.bo.sends(card, form, 'Add', { text: `${note} ${'all of it '.repeat(140)}` });
    }
    await site.settled();
    const seen = await pagesOf(site.bo, card);
    expect(seen.length).toBeGreaterThan(1);
    const { life, ticket } = await row();
    for (const each of life)
      if (each.kind === 'note') expect(seen.join('\n')).toContain(each.text.slice(0, 1300));
    expect(seen.join('\n')).toContain(ticket.opening);
    expect(ada.words()).not.toContain('all of it all of it');
  });
});

describe('a press that the desk does not know', () => {
  test('is answered with an error in good form, and nothing changes (T12)', async () => {
    const { card, row } = await site.ticket();
    const press = site.bo.pressing(card, 'Take it');
    const before = (await row()).life.length;
    for (const [verb, data] of [
      ['desk:unheard-of', { n: 1 }],
      ['desk:constructor', {}],
      ['desk:', {}],
    ] as const) {
      const { status, body } = await site.bo.send({
        ...press,
        value: { action: { type: 'Action.Execute', verb, data } },
      });
      expect(status).toBe(200);
      expect(body).toMatchObject({
        statusCode: 400,
        type: 'application/vnd.microsoft.error',
        value: { code: 'BadRequest', message: expect.any(String) },
      });
    }
    for (const n of [null, 'x', -1, 1e9, 1.5]) {
      const { body } = await site.bo.send({
        ...press,
        value: { action: { type: 'Action.Execute', verb: 'desk:take', data: { n } } },
      });
      expect(body).toMatchObject({ statusCode: 200, value: expect.stringMatching(/no longer|no ticket/) });
    }
    for (const data of [
      { v: 'desk:nothing' },
      { v: 'desk:do', a: 'merge', n: 1001 },
      { v: 'desk:fill', w: 'x' },
    ])
      for (const name of ['task/fetch', 'task/submit']) {
        const { status, body } = await site.bo.send({ ...press, name, value: { data } });
        expect({ status, type: body.task.type }).toEqual({ status: 200, type: 'message' });
      }
    expect((await row()).life).toHaveLength(before);
  });
});

describe('who does not belong to the desk', () => {
  const tries = async (who: Technician, card: Standing) => {
    const all: string[] = [];
    for (const { title, type } of actionsOf(site.drawn(card)))
      all.push(
        type === 'Action.Execute'
          ? String((await who.press(card, title)).body.value)
          : wordsIn(await who.opens(card, title)),
      );
    return all;
  };

  test('is told so kindly whatever they press, and nothing changes (T14)', async () => {
    const { card, row } = await site.ticket();
    const before = (await row()).life.length;
    const told = await tries(site.eve, card);
    expect(told).toHaveLength(6);
    for (const words of told) expect(words).toContain('Only the desk can do that');
    const form = await site.bo.opens(card, 'Add a note');
    expect(wordsIn(await site.eve.sends(card, form, 'Add', { text: 'mine' }))).toContain('Only the desk');
    expect((await site.eve.send(site.eve.submitting(card, 'Take it'))).status).toBe(200);
    expect((await row()).life).toHaveLength(before);
  });

  test('acts once they are let in, and no more once they are out, also with a form that is open', async () => {
    const { card, row } = await site.ticket();
    const members = site.teams.members.get(DESK)!;
    site.teams.members.set(DESK, [...members, { id: idOf('Eve Stone'), name: 'Eve Stone' }]);
    await site.eve.press(card, 'Take it');
    expect((await row()).takenBy).toBe('Eve Stone');
    await site.settled();
    const form = await site.eve.opens(card, 'Add a note');
    site.teams.members.set(DESK, members);
    site.later(60_000);
    expect(wordsIn(await site.eve.sends(card, form, 'Add', { text: 'late' }))).toContain('Only the desk');
    expect((await row()).life.filter(({ kind }) => kind === 'note')).toEqual([]);
  });

  test('nobody acts while Teams does not tell who belongs to it', async () => {
    const { card, row } = await site.ticket();
    for (const fault of [{ status: 503 }, { status: 429 }, { hang: true }]) {
      site.teams.always(({ what }) => (what === 'member' ? fault : null));
      expect(String((await site.bo.press(card, 'Take it')).body.value)).toContain('try again in a moment');
      expect(wordsIn(await site.bo.opens(card, 'Add a note'))).toContain('try again in a moment');
    }
    expect((await row()).takenBy).toBeNull();
    site.teams.always(null);
    await site.bo.press(card, 'Take it');
    expect((await row()).takenBy).toBe('Bo Lind');
  });
});

describe('when Teams is in the way', () => {
  test('a card that somebody deleted comes back once, and that is noted (T26)', async () => {
    const { card, number, row } = await site.ticket();
    site.teams.remove(card.conversation, card.id);
    const form = {
      title: '',
      card: {
        type: 'AdaptiveCard',
        actions: [
          { type: 'Action.Submit', title: 'Add', data: { v: 'desk:do', a: 'note', n: number, f: 'k' } },
        ],
      },
    };
    await site.bo.sends(card, form, 'Add', { text: 'still here' });
    await site.settled();
    const again = site
      .threads()
      .filter(({ conversation, id }) => site.teams.shown(conversation).some(each => each.id === id))
      .filter(each => site.words(each).includes(`R-${number}`));
    expect(again).toHaveLength(1);
    expect(
      (await row()).life.filter(each => each.kind === 'note' && each.text.includes('was deleted')),
    ).toHaveLength(1);
    expect(site.below(again[0]!).join('\n')).toContain('still here');
    await site.cy.press(again[0]!, 'Take it');
    await site.settled();
    expect(site.words(again[0]!)).toContain('Cy Marsh has it');
    expect(site.threads().at(-1)).toEqual(again[0]);
  });

  test('a card of which nobody knows whether it went is marked, and the one that is not kept says so when pressed', async () => {
    const before = site.threads().length;
    site.teams.fail('create', { status: 502, take: true });
    const ada = site.person({ name: 'Ada Twice' });
    await ada.say('my laptop says no bootable device found');
    await site.settled();
    await ada.say('I want to talk to a person');
    site.later(10_000);
    await site.settled();
    const [lost, kept, ...rest] = site.threads().slice(before);
    expect(rest).toEqual([]);
    expect(site.words(kept!)).toContain('may be here twice');
    const { body } = await site.bo.press(lost!, 'Take it');
    expect(textsOf(body.value).join('\n')).toContain('shown in another message');
    await site.settled();
    expect(site.words(kept!)).toContain('Bo Lind has it');
    expect(site.words(kept!)).not.toContain('may be here twice');
  });

  test('with the place closed, the person is told all the same, the ticket waits, the operator hears of it, and it appears when that is over', async () => {
    const before = site.threads().length;
    site.teams.always(({ what }) =>
      what === 'create' ? { status: 403, code: 'BotNotInConversationRoster' } : null,
    );
    const ada = site.person({ name: 'Ada Waits' });
    await ada.say('my laptop says no bootable device found');
    await site.teams.until(() => ada.shown().length > 0);
    await ada.say('I want to talk to a person');
    await site.teams.until(() => /R-\d+/.test(ada.words()));
    await site.teams.until(() => site.logged.some(({ event }) => event === 'teams-desk-closed'));
    const ready = await (await fetch(`${site.base}/readyz`)).text();
    expect(ready).toContain('tickets cannot be shown');
    site.teams.always(null);
    site.later(61_000);
    await site.settled();
    const shown = site
      .threads()
      .slice(before)
      .filter(({ conversation }) => site.teams.shown(conversation).length > 0);
    expect(shown).toHaveLength(1);
    expect(await (await fetch(`${site.base}/readyz`)).text()).not.toContain('tickets cannot be shown');
  });

  test('a card that Teams refuses is shown shorter, with its buttons', async () => {
    site.teams.fail('create', { status: 413, code: 'MessageSizeTooBig' });
    const { card, number } = await site.ticket();
    expect(site.words(card)).toContain(`R-${number}`);
    expect(site.offered(card)).toContain('Take it');
    await site.bo.press(card, 'Take it');
    await site.settled();
    expect(site.words(card)).toContain('Bo Lind has it');
  });

  test('what is said goes where Teams takes it now, as the last press told (T10)', async () => {
    const { card } = await site.ticket();
    const moved = { ...site.bo.pressing(card, 'Take it'), serviceUrl: `${site.teams.url}emea/` };
    expect((await site.bo.send(moved)).status).toBe(200);
    await site.settled();
    expect(site.words(card)).toContain('Bo Lind has it');
    expect(site.teams.calls.findLast(({ what }) => what === 'update')!.base).toBe('/teams/emea/');
  });
});

describe('a desk in a group chat, where there are no threads', () => {
  test('has a card for each ticket there, and what happens is told with the ticket’s number', async () => {
    const chat = '19:desk-chat@thread.v2';
    const other = await desk(':memory:', { TEAMS_DESK_CONVERSATION: chat });
    other.teams.members.set(chat, [{ id: idOf('Bo Lind'), name: 'Bo Lind' }]);
    const ada = other.person({ name: 'Ada Holm' });
    await ada.say('my laptop says no bootable device found');
    await other.settled();
    await ada.say('I want to talk to a person');
    await other.settled();
    const [shown] = other.teams.shown(chat);
    const card = { conversation: chat, id: shown!.id };
    expect(other.words(card)).toContain('Nobody has it yet');
    await other.bo.press(card, 'Take it');
    await other.settled();
    expect(other.words(card)).toContain('Bo Lind has it');
    expect(other.below(card).at(-1)).toMatch(/^R-\d+: Bo Lind took it$/);
    await other.close();
  });
});

describe('the bench', () => {
  test('a calculator as a form: what is wrong is told, the result shown, and put on the ticket as a note', async () => {
    const { card, row } = await site.ticket();
    const bench = await site.bo.sends(card, await site.bo.opens(card, 'More'), 'Bench');
    expect(wordsIn(await site.bo.sends(card, bench, 'Fill in', {}))).toContain(
      'Choose what is to be worked out',
    );
    const form = await site.bo.sends(card, bench, 'Fill in', { working: 'copy-time' });
    const wrong = await site.bo.sends(card, form, 'Work it out', {
      sets: 'name: photos',
      from: 'spinning',
      link: 'usb-2',
    });
    expect(wordsIn(wrong)).toContain('Line 1, gigabytes: give gigabytes, from 0 to 1000000');
    expect(JSON.stringify(wrong)).toContain('"value":"name: photos"');
    const sets = 'name: photos; gigabytes: 300';
    const result = await site.bo.sends(card, wrong, 'Work it out', { sets, from: 'spinning', link: 'usb-2' });
    expect(wordsIn(result)).toMatch(/hour/);
    const back = await site.bo.sends(card, result, 'Back');
    expect(JSON.stringify(back)).toContain(sets);
    const keep = `Put it on ${(await row()).ticket.reference} as a note`;
    const sent = site.bo.sending(card, result, keep);
    await Promise.all([site.bo.send(sent), site.bo.send(sent)]);
    const notes = (await row()).life.filter(({ kind }) => kind === 'note');
    expect(notes).toEqual([
      expect.objectContaining({ by: 'Bo Lind', text: expect.stringMatching(/^Worked out, copy-time:/) }),
    ]);
  });

  test('a desk flow begins in the technician’s own chat, and its record comes back to the ticket', async () => {
    const { card, row } = await site.ticket();
    const bench = await site.cy.sends(card, await site.cy.opens(card, 'More'), 'Bench');
    const begun = await site.cy.sends(card, bench, 'Begin', { topic: 'desk-bench' });
    expect(wordsIn(begun)).toContain('our own chat');
    await site.settled();
    expect(site.cy.own.shown().length).toBeGreaterThan(0);
    await site.cy.own.say('stop');
    await site.settled();
    expect((await row()).life).toContainEqual(expect.objectContaining({ kind: 'note', by: 'Cy Marsh' }));
  });

  test('a technician to whom Teams lets nobody write is told what to do', async () => {
    const { card } = await site.ticket();
    const bench = await site.cy.sends(card, await site.cy.opens(card, 'More'), 'Bench');
    site.teams.fail('create', { status: 403, code: 'ForbiddenOperationException' });
    expect(wordsIn(await site.cy.sends(card, bench, 'Begin', { topic: 'desk-bench' }))).toContain(
      'Add Reseat to your own chats',
    );
  });
});

describe('an outage', () => {
  test('is declared from the desk’s channel, shown there, told to people, and ended there', async () => {
    const lee = site.person({ name: 'Lee Park' });
    await lee.say('my network drive is gone');
    await site.settled();
    await lee.say('I want to talk to a person');
    await site.settled();
    expect((await site.bo.says('outage')).status).toBe(200);
    const thread = `${DESK};messageid=1764000000001`;
    await site.teams.until(() => site.teams.shown(thread).length > 0);
    const offer = { conversation: thread, id: site.teams.shown(thread).at(-1)!.id };
    expect(wordsIn(await site.eve.opens(offer, 'An outage'))).toContain('Only the desk');
    const form = await site.bo.opens(offer, 'An outage');
    const before = site.threads().length;
    const given = { symptom: 'share-missing', site: '-', text: 'The file server is <down>.' };
    expect(wordsIn(await site.bo.sends(offer, form, 'Declare it', { ...given, text: ' ' }))).toContain(
      'Write in a sentence',
    );
    const sent = site.bo.sending(offer, form, 'Declare it', given);
    for (let time = 0; time < 2; time++) expect((await site.bo.send(sent)).status).toBe(200);
    const open = await site.store.outages({ open: true });
    expect(open).toHaveLength(1);
    await site.teams.until(() => site.threads().length > before);
    await site.settled();
    const [shown] = site.threads().slice(before);
    expect(site.words(shown!)).toContain('The file server is <down>.');
    expect(lee.words()).toContain('The file server is');

    const sure = await site.cy.opens(shown!, 'It is over');
    expect(wordsIn(await site.eve.opens(shown!, 'It is over'))).toContain('Only the desk');
    expect(wordsIn(await site.cy.sends(shown!, sure, 'It is over'))).toContain('is over');
    expect(await site.store.outages({ open: true })).toEqual([]);
    await site.teams.until(() => site.words(shown!).includes('✓ OVER'));
    await site.settled();
    expect(lee.words()).toMatch(/over|solved/);
    expect(wordsIn(await site.bo.sends(shown!, sure, 'It is over'))).toContain('over already');
    expect(site.offered(shown!)).toEqual([]);
  });

  test('words that are no command are the person’s matter, also in the desk’s channel', async () => {
    const thread = `${DESK};messageid=1764000000001`;
    const before = site.teams.shown(thread).length;
    await site.bo.says('my usb stick does not show up');
    await site.settled();
    expect(site.teams.shown(thread)[before]!.activity.text).toContain('our own chat');
  });
});
