/** The desk in Teams when Teams is in the way, in a group chat, at the bench, and in an outage. T and B numbers: see DEVELOPERS.md. */
import { afterAll, beforeAll, beforeEach, describe, expect, test } from 'vitest';
import { afresh, type Begun, begun, wordsIn } from '../support/teams/at-desk.ts';
import { DESK, type Desk, desk, idOf } from '../support/teams/desk.ts';
import { textsOf } from '../support/teams/teams.ts';

let site: Desk;
let ended: Begun['ended'];
beforeAll(async () => {
  ({ site, ended } = await begun());
});
afterAll(() => ended());
beforeEach(() => afresh(site));

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
