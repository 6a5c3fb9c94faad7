/** What people and Slack do, through the running server. Numbers such as S9 are those of the list in DEVELOPERS.md. */
import { setTimeout as sleep } from 'node:timers/promises';
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, test } from 'vitest';
import { chatOf } from '#channels/slack/inbound.ts';
import { answersIn, pressables, type SlackPerson } from '../../support/slack/person.ts';
import { type SlackSite, slackSite, until } from '../../support/slack/site.ts';

const OPENING = 'my laptop says no bootable device found';

let site: SlackSite;
let ada: SlackPerson;
let people = 0;
beforeAll(async () => {
  site = await slackSite();
});
afterAll(() => site.close());
/** Somebody new for every test. */
beforeEach(() => {
  const id = `U0ADA${String(people++).padStart(4, '0')}`;
  ada = site.as(id);
  site.slack.responses.length = 0;
  const profile = { email: 'ada@test.example' };
  site.slack.users.set(id, { id, real_name: 'Ada Holm', tz: 'Europe/Berlin', locale: 'en-GB', profile });
});
afterEach(() => {
  site.slack.untroubled();
  expect(site.slack.faults).toEqual([]);
});

const current = async (user = ada.user, team = site.slack.team) => site.store.currentOf(chatOf(team, user));
const answers = async () => (await current())!.entries.filter(({ kind }) => kind === 'answer');
const posts = () => site.slack.in(ada.direct);
/** Says something and waits for the message that comes of it. */
const awaiting = async (work: () => Promise<unknown>, more = 1) => {
  const before = posts().length;
  await work();
  return until(() => posts().length >= before + more && posts().at(-1));
};
const asked = () => awaiting(() => ada.say(OPENING));
const quiet = () => sleep(300);

describe('a direct message', () => {
  test('is answered by one question as a message with text, blocks, and whatever always works out of the way', async () => {
    const post = await asked();
    expect(answersIn(post).length).toBeGreaterThan(1);
    const always = pressables(post.blocks).filter(({ action_id }) => action_id === 'say:more');
    expect(always.map(({ label }) => label)).toEqual(
      expect.arrayContaining(['Back', 'Start again', 'A person, please', 'Stop here']),
    );
    for (const { label } of answersIn(post)) expect(post.text).toContain(label);
  });

  test('an answer may be pressed or typed, and what was answered stands where the buttons were (S12)', async () => {
    const post = await asked();
    const answer = answersIn(post).at(-1)!;
    await awaiting(() => ada.press(post, answer));
    await until(() => post.updates === 1);
    expect(answersIn(post)).toEqual([]);
    expect(JSON.stringify(post.blocks)).toContain(`You answered: ${answer.label}`);
    const second = ada.question()!;
    await awaiting(() => ada.say(answersIn(second)[0]!.label));
    await until(() => second.updates === 1);
    expect(await answers()).toHaveLength(2);
  });

  test('a message that cannot be redrawn holds nothing up (S12)', async () => {
    const post = await asked();
    site.slack.trouble('chat.update', { is: 'error', error: 'message_not_found' });
    await awaiting(() => ada.press(post, answersIn(post).at(-1)!));
    expect(ada.last().ts).not.toBe(post.ts);
  });

  test('back, start again, a person and the explanation are in the menu of every question', async () => {
    const post = await asked();
    const more = (label: string, of = ada.question()!) =>
      pressables(of.blocks).find(each => each.action_id === 'say:more' && each.label === label)!;
    const explained = await awaiting(() => ada.press(post, more('What is meant?')));
    expect(explained.blocks.length).toBeGreaterThan(post.blocks.length - 1);
    await awaiting(() => ada.press(ada.question()!, answersIn(ada.question()!).at(-1)!));
    const back = await awaiting(() => ada.press(ada.question()!, more('Back')));
    expect(back.text).toContain('Taken back');
    const handed = await awaiting(() => ada.press(ada.question()!, more('A person, please')));
    expect(handed.text).toMatch(/R-\d+|Where|where/);
  });

  test('an answer can be changed from the question that it was given to', async () => {
    const post = await asked();
    await awaiting(() => ada.press(post, answersIn(post).at(-1)!));
    await until(() => post.updates === 1);
    const change = pressables(post.blocks).find(({ action_id }) => action_id === 'say:change')!;
    const again = await awaiting(() => ada.press(post, change));
    expect(again.text).toContain('Taken back');
    expect(answersIn(again).map(({ label }) => label)).toEqual(expect.arrayContaining(['None of these']));
  });

  test('who writes in a thread is answered in that thread, in the same matter (S28)', async () => {
    const post = await asked();
    await awaiting(() => ada.say('none of these', { thread_ts: post.ts }));
    expect(ada.last().thread).toBe(post.ts);
    await awaiting(() => ada.press(ada.last(), answersIn(ada.last())[0]!));
    expect(ada.last().thread).toBe(post.ts);
    expect(await answers()).toHaveLength(2);
  });
});

describe('what happens twice, late or at once', () => {
  test('a second delivery of an event does nothing, with or without the headers of a retry (S1)', async () => {
    const event = ada.saying(OPENING);
    await awaiting(() => ada.send(event));
    await ada.send(event);
    await ada.send(event, { headers: { 'x-slack-retry-num': '1', 'x-slack-retry-reason': 'http_timeout' } });
    await quiet();
    expect(posts()).toHaveLength(1);
    expect((await current())!.entries).toHaveLength(1);
  });

  test('both deliveries at the same moment are one (S2)', async () => {
    const event = ada.saying(OPENING);
    const both = await Promise.all([ada.send(event), ada.send(event), ada.send(event)]);
    expect(both.map(({ status }) => status)).toEqual([200, 200, 200]);
    await until(() => ada.question());
    await quiet();
    expect(posts()).toHaveLength(1);
  });

  test('two clicks at once store one answer, and the second is told what was answered (S9)', async () => {
    const post = await asked();
    const [first, second] = [answersIn(post)[4]!, answersIn(post)[5]!];
    await Promise.all([ada.press(post, first), ada.press(post, second)]);
    await until(() => posts().length >= 3);
    const stored = await answers();
    expect(stored).toHaveLength(1);
    expect(
      posts()
        .map(({ text }) => text)
        .join(),
    ).toContain('You answered that already');
  });

  test('a click on a question that has passed changes nothing and is answered kindly (S10)', async () => {
    const post = await asked();
    await awaiting(() => ada.press(post, answersIn(post)[4]!));
    const before = await answers();
    const late = await awaiting(() => ada.press(post, { ...pressablesOf(post), label: 'x' }));
    expect(late.text).toContain('You answered that already');
    expect(await answers()).toEqual(before);
  });

  test('a button that nobody knows any more is answered at once, kindly (S8)', async () => {
    const post = await asked();
    for (const value of ['old-version', 'a b', 's dance']) {
      const answered = await ada.press(post, { action_id: 'say:answer:0', type: 'button', value, label: '' });
      expect(answered.status).toBe(200);
    }
    const other = await ada.press(post, { action_id: 'from-before', type: 'button', value: 'x', label: '' });
    expect(other.status).toBe(200);
    const said = await until(() => site.slack.responses.length === 4 && site.slack.responses);
    expect(said[3]).toMatchObject({
      response_type: 'ephemeral',
      text: expect.stringContaining('no longer active'),
    });
    expect(posts()).toHaveLength(1);
  });

  test("somebody else's press cannot answer for me (S11)", async () => {
    const post = await asked();
    const bo = site.as('U0BO00002');
    expect((await bo.press(post, answersIn(post)[0]!)).status).toBe(200);
    await until(() => site.slack.in(bo.direct).length > 0);
    expect(await answers()).toHaveLength(0);
    expect(site.slack.last(bo.direct).text).toContain('That question has passed');
  });

  test('messages sent in a burst before the first reply are one story', async () => {
    const [one, two] = [ada.saying('my usb stick'), ada.saying('is write protected, says windows')];
    await ada.send(one);
    await ada.send(two);
    await until(() => posts().length > 0);
    await quiet();
    expect((await current())!.symptom).toBe('write-protected');
  });
});

/** The first answer of the question as it was sent first. */
const pressablesOf = (post: { args: Record<string, unknown> }) =>
  answersIn({ blocks: post.args.blocks } as never)[0]!;

describe('what is none of our business', () => {
  test('our own words, other bots, edited and deleted messages start nothing (S16)', async () => {
    const { self, ts } = site.slack;
    const nothing: Record<string, unknown>[] = [
      { user: self },
      { bot_id: 'B0OTHER', user: 'U0OTHER' },
      { subtype: 'bot_message', bot_id: 'B0OTHER', user: undefined },
      {
        subtype: 'message_changed',
        hidden: true,
        message: { user: ada.user, text: 'edited' },
        user: undefined,
      },
      { subtype: 'message_deleted', hidden: true, deleted_ts: ts(), user: undefined },
      { subtype: 'channel_join' },
      { channel_type: 'channel', channel: 'C0GENERAL' },
      { user: 'USLACKBOT' },
    ];
    for (const more of nothing) expect((await ada.say('my pc clicks', more)).status).toBe(200);
    await quiet();
    expect(posts()).toEqual([]);
    expect(await current()).toBeNull();
  });

  test('the same ids in another workspace are another person, and nothing of theirs is sent with our token (S24)', async () => {
    await asked();
    await until(() => site.logged.some(({ event }) => event === 'slack-signed-in'));
    await ada.say('my usb stick is write protected', {}, { team: 'T0OTHER02' });
    await quiet();
    expect(await current('T0OTHER02')).toBeNull();
    expect((await current())!.symptom).toBe('boot-no-device');
    expect(site.logged.map(({ event }) => event)).toContain('slack-other-workspace');
  });
});

describe("people's words", () => {
  test('never become a mention, a link or a format in what we send (S15)', async () => {
    const hostile = `${OPENING} &lt;!channel&gt; <@U0BOSS> *bold* ~gone~ \`code\` <https://evil.example|click>`;
    await awaiting(() => ada.say(hostile));
    await awaiting(() => ada.say('purple &lt;!here&gt; ~monkey~ :smile: &lt;@U0BOSS&gt;'));
    const sent = posts()
      .map(({ text, blocks }) => `${text}${JSON.stringify(blocks)}`)
      .join();
    expect(sent).not.toMatch(/<!|<@|<#|<http/);
    const mrkdwn = JSON.stringify(
      posts()
        .flatMap(({ blocks }) => blocks)
        .filter(({ text }) => text?.type === 'mrkdwn'),
    );
    expect(mrkdwn).not.toMatch(/~monkey~|:smile:/);
  });
});

describe('elsewhere than in the direct message', () => {
  const CHANNEL = 'C0HELP001';
  beforeEach(() => void site.slack.posts.splice(0));

  test('a mention is answered in its thread, and the questions come in a direct message (S28)', async () => {
    const response = await ada.mention(CHANNEL, OPENING, { ts: '1700000000.000100' });
    expect(response.status).toBe(200);
    const post = await until(() => ada.question());
    expect(post.channel).toBe(ada.direct);
    const inThread = await until(() => site.slack.in(CHANNEL).at(-1));
    expect(inThread.thread).toBe('1700000000.000100');
    expect(inThread.text).toContain(`<@${ada.user}>`);
    expect(inThread.text).not.toContain('bootable');
  });

  test('its thread hears that the desk took over, and nothing about whose machine it is or what is wrong', async () => {
    await ada.mention(CHANNEL, OPENING, { ts: '1700000000.000200' });
    await until(() => ada.question());
    for (let turn = 0; turn < 25 && site.slack.in(CHANNEL).length < 2; turn++) {
      const post = ada.last();
      const before = posts().length;
      const person = pressables(post.blocks).find(({ value }) => value === 's person');
      if (turn === 0) await ada.press(post, person!);
      else if (answersIn(post).length > 0) await ada.press(post, answersIn(post).at(-1)!);
      else await ada.say('room 12, 555-0142');
      await until(() => posts().length > before || site.slack.in(CHANNEL).length > 1);
      await quiet();
    }
    const [, end] = site.slack.in(CHANNEL);
    expect(end).toMatchObject({
      thread: '1700000000.000200',
      text: expect.stringMatching(/ticket R-\d+\.$/),
    });
  });

  test('while a matter is open, a mention is not taken for an answer to its question (S28)', async () => {
    await asked();
    await awaiting(() => ada.mention(CHANNEL, 'my usb stick is write protected'));
    expect(ada.last().text).toContain('Is that still what this is about?');
    expect(await answers()).toHaveLength(0);
  });

  test('the command answers at once and goes on in the direct message; with words they are the opening', async () => {
    const response = await ada.command(OPENING);
    expect(await response.json()).toMatchObject({ response_type: 'ephemeral' });
    const post = await until(() => ada.question());
    expect(answersIn(post).length).toBeGreaterThan(1);
    const greeted = site.as('U0BO00002');
    await greeted.command('');
    await until(() => site.slack.in(greeted.direct).length > 0);
    expect(site.slack.last(greeted.direct).text).toContain('What is the problem?');
  });

  test('a message can be handed to us by its shortcut', async () => {
    await ada.shortcut(OPENING);
    await until(() => ada.question());
    expect((await current())!.symptom).toBe('boot-no-device');
  });

  test('the home shows how to begin, then the open matter, then the tickets', async () => {
    await ada.openHome();
    const home = () => JSON.stringify(site.slack.homes.get(ada.user));
    await until(() => home()?.includes('To begin'));
    expect(home()).toContain('You have no tickets yet');
    await awaiting(() => ada.pressHome('say:begin'));
    await awaiting(() => ada.say(OPENING));
    await ada.openHome();
    await until(() => home().includes('Going on now'));
    await awaiting(() => ada.say('I want a person'));
    for (let turn = 0; turn < 25 && (await current())!.outcome === null; turn++)
      await awaiting(() =>
        answersIn(ada.last()).length > 0
          ? ada.press(ada.last(), answersIn(ada.last()).at(-1)!)
          : ada.say('room 12, 555-0142'),
      );
    await ada.openHome();
    await until(() => /R-\d+/.test(home()) && home().includes('with the desk'));
    expect(home()).toMatch(/<!date\^\d+\^/);
  });

  test('two quick looks at the home: a conflict is tried again, and the newest view stands (S21)', async () => {
    site.slack.trouble('views.publish', { is: 'error', error: 'hash_conflict' });
    await Promise.all([ada.openHome(), ada.openHome()]);
    await until(() => site.slack.homes.has(ada.user));
    await asked();
    await ada.openHome();
    await until(() => JSON.stringify(site.slack.homes.get(ada.user)).includes('Going on now'));
  });
});

describe('the profile', () => {
  test('gives name, mail and language, and the channel speaks it', async () => {
    site.slack.users.get(ada.user)!.locale = 'de-DE';
    await asked();
    await until(() => site.slack.called('users.info').length > 0);
    await quiet();
    await awaiting(() => ada.press(ada.last(), answersIn(ada.last()).at(-1)!));
    expect(pressables(ada.last().blocks).map(({ label }) => label)).toContain('Zurück');
    expect((await current())!.address.person).toEqual({
      id: ada.user,
      name: 'Ada Holm',
      mail: 'ada@test.example',
    });
  });

  test.each([
    ['that cannot be had', { is: 'error', error: 'missing_scope', needed: 'users:read' } as const],
    ['that never comes', { is: 'hang' } as const],
  ])('%s stops nothing (S26)', async (_, trouble) => {
    site.slack.trouble('users.info', trouble, 100);
    await asked();
    await awaiting(() => ada.press(ada.last(), answersIn(ada.last()).at(-1)!));
    expect((await current())!.address.person).toMatchObject({ id: ada.user });
    site.slack.untroubled();
  });

  test('without language and time zone nothing breaks (S26)', async () => {
    site.slack.users.set(ada.user, { id: ada.user, name: 'ada' });
    await asked();
    await quiet();
    await awaiting(() => ada.say('none of these'));
    expect((await current())!.address.person).toMatchObject({ name: 'ada' });
  });
});
