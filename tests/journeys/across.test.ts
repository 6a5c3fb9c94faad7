/** A person in one platform, the desk in the other, through one running server: nobody notices. */
import { afterAll, beforeAll, expect, test } from 'vitest';
import { type DeskSite, deskSite, offered, DESK as SLACK_DESK, textOf } from '../support/slack/desk.ts';
import { until } from '../support/slack/site.ts';
import {
  idOf,
  type Standing,
  DESK as TEAMS_DESK,
  type Technician,
  technician,
} from '../support/teams/desk.ts';
import { type Keys, keys } from '../support/teams/keys.ts';
import { lead } from '../support/teams/lead.ts';
import { settingsFor } from '../support/teams/running.ts';
import { type Service, service } from '../support/teams/service.ts';
import { cardOf, person, textsOf, type Where } from '../support/teams/teams.ts';

let site: DeskSite;
let teams: Service;
let signing: Keys;
let bo: Technician;
const inTeams = (where: Where) => person(() => site.base, signing, teams, where);

beforeAll(async () => {
  signing = await keys();
  teams = await service(signing);
  lead(teams.url);
  site = await deskSite({ env: { ...settingsFor(teams), TEAMS_DESK_CONVERSATION: TEAMS_DESK } });
  teams.members.set(TEAMS_DESK, [{ id: idOf('Bo Berg'), name: 'Bo Berg' }]);
  bo = technician({ teams, person: where => inTeams(where ?? {}) }, 'Bo Berg');
});
afterAll(async () => {
  expect(teams.wrong).toEqual([]);
  expect(site.slack.faults).toEqual([]);
  await site.close();
  await teams.close();
});

/** The ticket's card in each of the desk's places. */
const slackCard = (number: number) =>
  until(() =>
    site.slack.in(SLACK_DESK).find(({ thread, text }) => thread === null && text.includes(`R-${number} `)),
  );
const wordsOn = ({ conversation, id }: Standing): string => {
  const shown = teams.shown(conversation).find(each => each.id === id);
  return shown === undefined ? '' : textsOf(cardOf(shown)).join('\n');
};
const teamsCard = (number: number): Promise<Standing> =>
  until(() =>
    teams.calls
      .filter(({ what, body, id }) => what === 'create' && body.isGroup && id !== null)
      .map(({ conversation, id }) => ({ conversation, id: id! }))
      .find(card => wordsOn(card).includes(`R-${number}`)),
  );
const below = ({ conversation }: Standing): string =>
  teams
    .shown(conversation)
    .map(({ activity }) => activity.text ?? '')
    .join('\n');
const numberIn = (words: string) => Number(/R-(\d+)/.exec(words)?.[1]);
const row = async (number: number) => (await site.store.ticket(number))!;

test('a person in Teams is helped by the desk in Slack: taken, asked, answered, closed; Teams’ own card of it goes along', async () => {
  const ada = inTeams({ name: 'Ada Holm' });
  await ada.say('my laptop says no bootable device found');
  await until(() => ada.words().includes('A person'));
  await ada.press('person');
  const number = await until(() => numberIn(ada.words()));
  const card = await slackCard(number);

  await site.bo.press(card, offered(card, 'Take it'));
  await until(() => ada.words().includes('Bo Lind'));
  await site.bo.fill(await site.opens(site.bo, card, 'Ask the person'), {
    text: 'Which colour is the light?',
  });
  await until(() => ada.words().includes('Which colour is the light?'));
  await ada.say('blue <b>& steady</b>');
  const answer = await until(() => site.below(card).find(({ text }) => text.includes('Ada Holm answered')));
  expect(answer.text).toContain('blue');

  const { ticket } = await row(number);
  expect(ticket.person.channel).toBe('teams');
  const { fault } = ticket.suspects[0]!;
  await site.bo.fill(await site.opens(site.bo, card, 'Close'), { fault, words: 'Replaced.' });
  await until(() => ada.words().includes('is closed'));
  await until(() => textOf(card).includes('Closed. It was'));
  expect(await row(number)).toMatchObject({ status: 'closed', fault, takenBy: 'Bo Lind' });

  const other = await teamsCard(number);
  await until(() => wordsOn(other).includes('Closed. It was'));
  await until(() => below(other).includes('Ada Holm answered'));
});

test('a person in Slack is helped by the desk in Teams: taken, asked, answered, closed; Slack’s own card of it goes along', async () => {
  const eli = site.as('U0ELI0001');
  site.slack.users.set(eli.user, { id: eli.user, real_name: 'Eli Ross', profile: {} });
  await eli.say('my laptop says no bootable device found');
  await until(() => eli.question());
  await eli.say('I want to talk to a person');
  const number = await until(() => numberIn(eli.last().text));
  const card = await teamsCard(number);

  expect((await bo.press(card, 'Take it')).body.statusCode).toBe(200);
  await until(() => eli.last().text.includes('Bo Berg'));
  const ask = await bo.opens(card, 'Ask the person');
  await bo.sends(card, ask, 'Ask', { text: 'Which colour is the light?' });
  await until(() => eli.last().text.includes('Which colour is the light?'));
  await eli.say('blue & steady');
  await until(() => below(card).includes('Eli Ross answered: blue'));
  expect(below(card)).toContain('<at>Bo Berg</at>');

  const { ticket } = await row(number);
  expect(ticket.person.channel).toBe('slack');
  const { fault } = ticket.suspects[0]!;
  await bo.sends(card, await bo.opens(card, 'Close'), 'Close it', { fault, words: 'Replaced.' });
  await until(() => eli.last().text.includes('is closed'));
  await until(() => wordsOn(card).includes('Closed. It was'));
  expect(await row(number)).toMatchObject({ status: 'closed', fault, takenBy: 'Bo Berg' });

  const other = await slackCard(number);
  await until(() => textOf(other).includes('Closed. It was'));
  await until(() => site.below(other).some(({ text }) => text.includes('Eli Ross answered')));
});

test('the desks of both places, claiming the same ticket at once, are told the same: one has it (B3)', async () => {
  const ada = inTeams({ name: 'Ada Both' });
  await ada.say('my laptop says no bootable device found');
  await until(() => ada.words().includes('A person'));
  await ada.press('person');
  const number = await until(() => numberIn(ada.words()));
  const [inSlack, there] = [await slackCard(number), await teamsCard(number)];
  await Promise.all([site.bo.press(inSlack, offered(inSlack, 'Take it')), bo.press(there, 'Take it')]);
  const { takenBy, life } = await row(number);
  expect(life.filter(({ kind }) => kind === 'taken')).toHaveLength(1);
  await until(() => textOf(inSlack).includes(`${takenBy} has it`));
  await until(() => wordsOn(there).includes(`${takenBy} has it`));
});
