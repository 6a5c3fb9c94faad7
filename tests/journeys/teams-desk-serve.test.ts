/** The desk's cards in Teams outlive the process: killed in the middle and started again, it goes on with the same ones. */
import { afterAll, beforeAll, expect, test } from 'vitest';
import { DESK, idOf, technician } from '../support/teams/desk.ts';
import { type Served, served } from '../support/teams/served.ts';
import { cardOf, textsOf } from '../support/teams/teams.ts';

let site: Served;
beforeAll(async () => {
  site = await served({ TEAMS_DESK_CONVERSATION: DESK });
  await site.process.start();
});
afterAll(() => site.remove());

test('killed while it redraws a card, it redraws the same one when it is started again, and asks anew who belongs to the desk (T10)', async () => {
  const { teams } = site;
  teams.members.set(DESK, [{ id: idOf('Bo Lind'), name: 'Bo Lind' }]);
  const bo = technician({ teams, person: site.person }, 'Bo Lind');
  const ada = site.person({ name: 'Ada Holm' });
  await ada.say('my laptop says no bootable device found');
  await teams.until(() => ada.words().includes('A person'));
  await ada.press('person');
  const created = () =>
    teams.calls.filter(({ what, body, id }) => what === 'create' && body.isGroup && id !== null);
  await teams.until(() => created().length > 0);
  const { conversation, id } = created()[0]!;
  const card = { conversation, id: id! };
  const words = () => {
    const shown = teams.shown(conversation).find(each => each.id === id);
    return shown === undefined ? '' : textsOf(cardOf(shown)).join('\n');
  };

  teams.always(({ what }) => (what === 'update' ? { hang: true } : null));
  const press = bo.pressing(card, 'Take it');
  expect((await bo.send(press)).body.statusCode).toBe(200);
  await teams.until(() => teams.calls.some(each => each.what === 'update' && each.id === id));
  await site.process.stop('SIGKILL');
  teams.always(null);
  await site.process.start();

  // Teams brings the press again, because it cannot know.
  expect((await bo.send({ ...press, id: 'f:again' })).body.statusCode).toBe(200);
  await teams.until(() => words().includes('Bo Lind has it'));
  await teams.until(() =>
    teams.shown(conversation).some(({ activity }) => /took it/.test(activity.text ?? '')),
  );
  expect(created()).toHaveLength(1);
  expect(
    teams.shown(conversation).filter(({ activity }) => /took it/.test(activity.text ?? '')),
  ).toHaveLength(1);
  expect(teams.calls.filter(({ what }) => what === 'member').length).toBeGreaterThan(1);
});
