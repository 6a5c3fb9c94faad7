/** The desk at work in its channel of Teams, through the running server with signed activities. T and B numbers: see DEVELOPERS.md. */
import { afterAll, beforeAll, beforeEach, describe, expect, test } from 'vitest';
import { cardOf as knownOf } from '#tickets/card.ts';
import { reseat } from '../support/reseat.ts';
import { afresh, type Begun, begun, pagesOf, soon, wordsIn } from '../support/teams/at-desk.ts';
import { DESK, type Desk, idOf, type Standing, type Technician } from '../support/teams/desk.ts';
import { actionsOf, textsOf } from '../support/teams/teams.ts';

let site: Desk;
let database: string;
let ended: Begun['ended'];
beforeAll(async () => {
  ({ site, database, ended } = await begun());
});
afterAll(() => ended());
beforeEach(() => afresh(site));

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
