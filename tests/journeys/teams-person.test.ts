/** People in Teams, through the running server, with signed activities and the SDK's own authentication. */
import sharp from 'sharp';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { type Running, running } from '../support/teams/running.ts';
import { actionsOf, cardOf, type Json, textsOf, type Where } from '../support/teams/teams.ts';

let reseat: Running;
beforeAll(async () => {
  reseat = await running();
});
afterAll(async () => {
  // Whatever was sent in all of these: valid to an independent schema, and nothing set that is the service's.
  expect(reseat.teams.wrong).toEqual([]);
  await reseat.close();
});

let people = 0;
const somebody = (where: Where = {}) => reseat.person({ name: `Person ${people++}`, ...where });
const thread = () => `19:team@thread.tacv2;messageid=${1764000000000 + people}`;
const entriesOf = async (chat: string) => (await reseat.store.currentOf(chat))?.entries ?? [];
const chatOf = (activity: Json) => `teams:${activity.conversation.tenantId}:${activity.conversation.id}`;

describe('a person in a chat of their own', () => {
  test('is greeted once, however often Teams says that the bot was added', async () => {
    const ada = somebody();
    for (let time = 0; time < 3; time++) expect((await ada.installed()).status).toBe(200);
    await ada.send(ada.activity({ type: 'installationUpdate', action: 'add' }));
    await reseat.settled();
    expect(ada.words().match(/Hello, this is Reseat/g)).toHaveLength(1);
    await ada.send(ada.activity({ type: 'conversationUpdate', membersAdded: [{ id: '29:somebody-else' }] }));
    await reseat.settled();
    expect(ada.shown()).toHaveLength(1);
  });

  test('who adds the bot again does not wake what was put aside', async () => {
    const ada = somebody();
    await ada.installed();
    await ada.say('my usb stick does not show up');
    await reseat.settled();
    const before = ada.shown().length;
    await ada.installed();
    await reseat.settled();
    expect(ada.shown()).toHaveLength(before);
  });

  test('sees the answered question in its place at once, and still after the next one came', async () => {
    const ada = somebody();
    await ada.say('my usb stick does not show up');
    await reseat.settled();
    const press = await ada.press('say:answer', { answer: 'none' });
    expect(press.body).toMatchObject({ statusCode: 200, type: 'application/vnd.microsoft.card.adaptive' });
    expect(textsOf(press.body.value)).toContain('✓ You: None of these');
    expect(actionsOf(press.body.value)).toEqual([]);
    await reseat.settled();
    expect(textsOf(cardOf(ada.shown()[0]!))).toContain('✓ You: None of these');
    expect(ada.shown()).toHaveLength(2);
    expect(actionsOf(cardOf(ada.shown()[1]!)).length).toBeGreaterThan(1);
  });

  test('answers as well by typing: the card is redrawn with what was typed', async () => {
    const ada = somebody();
    await ada.say('my usb stick does not show up');
    await reseat.settled();
    await ada.say('none of these');
    await reseat.settled();
    expect(textsOf(cardOf(ada.shown()[0]!))).toContain('✓ You: none of these');
  });

  test('with a client that knows no Action.Execute gets the same by Action.Submit', async () => {
    const [ada, ben] = [somebody(), somebody()];
    for (const each of [ada, ben]) await each.say('my usb stick does not show up');
    await reseat.settled();
    await ada.press('say:answer', { answer: 'none' });
    expect((await ben.send(ben.submitting('say:answer', { answer: 'none' }))).status).toBe(200);
    await reseat.settled();
    const words = (each: typeof ada) => each.shown().map(shown => textsOf(cardOf(shown)));
    expect(words(ben)).toEqual(words(ada));
  });

  test('answers once, also when Teams brings the press again under a new id, or both at the same time', async () => {
    const ada = somebody();
    await ada.say('my usb stick does not show up');
    await reseat.settled();
    const press = ada.pressing('say:answer', { answer: 'none' });
    const again = { ...press, id: 'f:another', timestamp: new Date(Date.now() + 20_000).toISOString() };
    const answers = await Promise.all([press, press, again].map(ada.send));
    expect(answers.map(({ body }) => body.statusCode)).toEqual([200, 200, 200]);
    await ada.send({ ...again, id: 'f:a-third' });
    await reseat.settled();
    expect(ada.shown()).toHaveLength(2);
    const entries = await entriesOf(chatOf(press));
    expect(entries.filter(({ kind }) => kind === 'answer')).toHaveLength(1);
  });

  test('whose message comes twice said it once', async () => {
    const ada = somebody();
    const said = ada.activity({ text: 'my usb stick does not show up' });
    await Promise.all([ada.send(said), ada.send(said)]);
    await ada.send(said);
    await reseat.settled();
    expect(ada.shown()).toHaveLength(1);
    const entries = await entriesOf(chatOf(said));
    expect(entries.filter(({ kind }) => kind === 'opened')).toHaveLength(1);
  });

  test('who presses on an old card gets it back as it stands, and is told kindly', async () => {
    const ada = somebody();
    await ada.say('my usb stick does not show up');
    await reseat.settled();
    const late = ada.pressing('say:answer', { answer: 'bent' });
    await ada.press('say:answer', { answer: 'none' });
    await reseat.settled();
    const { body } = await ada.send(late);
    expect(textsOf(body.value)).toContain('✓ You: None of these');
    await reseat.settled();
    expect(ada.words()).toContain('You answered that already: “None of these”');
    const entries = await entriesOf(chatOf(late));
    expect(entries.filter(({ kind }) => kind === 'answer')).toHaveLength(1);
  });

  test('goes back, starts again, asks for a person, by button', async () => {
    const ada = somebody();
    await ada.say('my usb stick does not show up');
    await reseat.settled();
    await ada.press('say:answer', { answer: 'none' });
    await reseat.settled();
    await ada.press('back');
    await reseat.settled();
    expect(ada.words()).toContain('Taken back: “None of these”');
    await ada.press('again');
    await reseat.settled();
    expect(ada.words()).toContain('What is the problem?');
    await ada.say('the drive in my pc is clicking');
    await reseat.settled();
    await ada.press('person');
    await reseat.settled();
    expect(ada.words()).toMatch(/R-\d+/);
  });

  test('sends six messages at once, and none is lost', async () => {
    const ada = somebody();
    const said = Array.from({ length: 6 }, (_, index) =>
      ada.activity({
        text: index === 0 ? 'my usb stick does not show up' : `part ${index} of it`,
        timestamp: new Date(Date.now() + index).toISOString(),
      }),
    );
    const answers = await Promise.all(said.map(ada.send));
    expect(answers.map(({ status }) => status)).toEqual([200, 200, 200, 200, 200, 200]);
    await reseat.settled();
    const kept = JSON.stringify(await entriesOf(chatOf(said[0])));
    for (const { text } of said) expect(kept).toContain(text);
  });

  test('is spoken to in their language, and a strange one is no error', async () => {
    const title = async (locale: string | undefined) => {
      const each = somebody();
      await each.say('my usb stick does not show up', { locale });
      await reseat.settled();
      return actionsOf(cardOf(each.shown()[0]!)).map(action => action.title);
    };
    expect(await title('de-AT')).toContain('Ein Mensch');
    expect(await title('fr')).toContain('Une personne');
    expect(await title('es_MX')).toContain('Una persona');
    for (const locale of ['tlh-Piqd', '', undefined, '../../etc', 'constructor'])
      expect(await title(locale)).toContain('A person');
  });

  test('sees when the desk got it by their own clock', async () => {
    const ada = somebody({ locale: 'en-GB', zone: 'Asia/Tokyo' });
    await ada.say('the drive in my pc is clicking');
    await reseat.settled();
    await ada.press('person');
    await reseat.settled();
    const hour = new Intl.DateTimeFormat('en-GB', { timeStyle: 'short', timeZone: 'Asia/Tokyo' }).format(
      Date.now(),
    );
    expect(ada.words()).toContain(hour.slice(0, 2));
    expect(ada.words()).not.toContain('UTC');
  });

  test('whose words Teams has written as references is heard as they wrote, once', async () => {
    const ada = somebody();
    const said = ada.activity({ text: 'my&nbsp;drive says &lt;disk read error&gt; &amp;amp; stops' });
    await ada.send(said);
    await reseat.settled();
    expect(JSON.stringify(await entriesOf(chatOf(said)))).toContain(
      'my drive says <disk read error> &amp; stops',
    );
  });
});

describe('a press that is not ours', () => {
  test('is answered in good form, and never with a failure', async () => {
    const ada = somebody();
    const invoke = (more: Json) =>
      ada.send(ada.activity({ type: 'invoke', name: 'adaptiveCard/action', ...more }));
    const action = (verb: unknown, data: unknown) => ({
      value: { action: { type: 'Action.Execute', verb, data } },
    });
    for (const more of [
      action('made-up', {}),
      action('say:made-up', { c: 'x', q: 1 }),
      action('say:answer', { c: 'x', q: 'one' }),
      action('say:answer', { c: 'x', q: 1 }),
      action('say:always', { c: 'x', q: 1, w: 'everything' }),
      action(7, []),
      action('desk:take', {}),
      { value: null },
      {},
    ]) {
      const { status, body } = await invoke(more);
      expect(status).toBe(200);
      expect([200, 400]).toContain(body.statusCode);
      expect(body.type).toMatch(/^application\/vnd\.microsoft\./);
    }
    expect((await ada.send(ada.activity({ type: 'invoke', name: 'made/up' }))).status).toBe(400);
    const dialog = await ada.send(ada.activity({ type: 'invoke', name: 'task/fetch', value: { data: {} } }));
    expect(dialog.body.task.type).toBe('message');
  });
});

const mention = (text: string, activity: Json) => ({
  text,
  entities: [
    { type: 'mention', text: '<at>Reseat</at>', mentioned: { id: activity.recipient.id, name: 'Reseat' } },
  ],
});

describe('who turns to us in a team’s channel', () => {
  test('gets a line there, and is asked in their own chat, once', async () => {
    const ada = somebody({ kind: 'channel', conversation: thread() });
    const sent = ada.activity(mention('<at>Reseat</at> my usb stick does not show up', ada.activity({})));
    await ada.send(sent);
    await ada.send(sent);
    await reseat.settled();
    expect(ada.shown().map(({ activity }) => activity.text)).toEqual([
      expect.stringContaining('our own chat'),
    ]);
    const asked = reseat.teams.shown(`a:${sent.from.id}`);
    expect(asked).toHaveLength(1);
    expect(JSON.stringify(asked[0]!.activity)).toContain('USB stick');
  });

  test('with a matter open in their own chat, answers nothing of it by what is said elsewhere', async () => {
    const ada = somebody({ kind: 'channel', conversation: thread() });
    await ada.say('', mention('<at>Reseat</at> my usb stick does not show up', ada.activity({})));
    await reseat.settled();
    await ada.say('', mention('<at>Reseat</at> no', ada.activity({})));
    await reseat.settled();
    const newest = reseat.teams.shown(`a:${ada.activity({}).from.id}`).at(-1)!;
    expect(JSON.stringify(newest.activity)).toContain('Is that still');
  });
});

describe('in a team’s channel, where people can have no chat of their own with us', () => {
  beforeAll(() =>
    reseat.teams.always(({ what }) =>
      what === 'create' ? { status: 403, code: 'BotNotInConversationRoster' } : null,
    ),
  );
  afterAll(() => reseat.teams.always(() => null));

  test('who mentions the bot is answered in the thread, and threads are apart', async () => {
    const name = `Person ${people++}`;
    const [one, two] = [thread(), `${thread()}9`].map(conversation =>
      somebody({ name, kind: 'channel', conversation }),
    );
    await one!.say('', mention('<at>Reseat</at> my usb stick does not show up', one!.activity({})));
    await two!.say('', mention('my network drive S: is gone <at>Reseat</at>', two!.activity({})));
    await reseat.settled();
    expect(one!.words()).toContain('USB stick');
    expect(two!.words()).not.toContain('USB stick');
    expect([one!.shown().length, two!.shown().length]).toEqual([1, 1]);
    await one!.press('say:answer', { answer: 'none' });
    await reseat.settled();
    expect([one!.shown().length, two!.shown().length]).toEqual([2, 1]);
  });

  test('"no" with a mention is no', async () => {
    const ada = somebody({ kind: 'channel', conversation: thread() });
    await ada.say('', mention('<at>Reseat</at>, is it burning?', ada.activity({})));
    await reseat.settled();
    expect(ada.words()).toContain('Yes, or I am not sure');
    await ada.say('', mention('no, <at>Reseat</at>&nbsp;', ada.activity({})));
    await reseat.settled();
    expect(ada.words()).toContain('✓ You: no');
  });

  test('nobody answers for somebody else', async () => {
    const conversation = thread();
    const ada = somebody({ kind: 'channel', conversation });
    const ben = somebody({ kind: 'channel', conversation });
    await ada.say('', mention('<at>Reseat</at> my usb stick does not show up', ada.activity({})));
    await reseat.settled();
    const hers = ada.pressing('say:answer', { answer: 'none' });
    const { body } = await ben.press('say:answer', { answer: 'none' });
    expect(body).toMatchObject({ statusCode: 200, type: 'application/vnd.microsoft.activity.message' });
    expect(body.value).toContain('Mention me');
    await ben.send(ben.submitting('say:answer', { answer: 'none' }));
    await reseat.settled();
    expect(ada.words()).not.toContain('✓');
    // Whoever mentions the bot there has a matter of their own.
    await ben.say('', mention('<at>Reseat</at> the drive in my pc is clicking', ben.activity({})));
    await reseat.settled();
    await ada.send(hers);
    await reseat.settled();
    expect(ada.words()).toContain('✓ You: None of these');
  });

  test('the bot is quiet when it is added to a team', async () => {
    const team = somebody({ kind: 'channel', conversation: thread() });
    await team.installed();
    await reseat.settled();
    expect(team.shown()).toEqual([]);
  });
});

describe('a picture', () => {
  const photo = () =>
    sharp({ create: { width: 40, height: 30, channels: 3, background: 'navy' } })
      .withExif({ IFD0: { Artist: 'somebody' } })
      .jpeg()
      .toBuffer();
  const fileOf = async (activity: Json) => {
    const entries = await entriesOf(chatOf(activity));
    const attached = entries.find(({ kind }) => kind === 'attached');
    return attached?.kind === 'attached' ? reseat.store.file(attached.id) : null;
  };
  const download = (name: string, url: string) => ({
    contentType: 'application/vnd.microsoft.teams.file.download.info',
    name,
    content: { downloadUrl: url, fileType: 'jpg' },
  });

  test('that is attached or pasted is fetched and kept without its metadata', async () => {
    reseat.teams.files.set('one', { content: await photo(), type: 'image/jpeg' });
    const origin = new URL(reseat.teams.url).origin;
    const ways = [
      download('screen.png', `${origin}/teams/files/one`),
      { contentType: 'image/*', contentUrl: `${reseat.teams.url}v3/attachments/one` },
    ];
    for (const attachment of ways) {
      const ada = somebody();
      await ada.say('my usb stick does not show up');
      await reseat.settled();
      const sent = ada.activity({
        text: '',
        attachments: [attachment, { contentType: 'text/html', content: '<p></p>' }],
      });
      expect((await ada.send(sent)).status).toBe(200);
      await reseat.settled();
      const file = await fileOf(sent);
      expect(file?.type).toBe('image/jpeg');
      expect(Buffer.from(file!.content).includes('somebody')).toBe(false);
      expect(ada.words()).toContain('I have kept the picture');
    }
    // Our token goes to the message service alone.
    const fetched = reseat.teams.calls.filter(({ what }) => what === 'file');
    expect(fetched.at(-1)!.authorization).toBe('Bearer a-token');
  });

  test('that is none, or lies elsewhere, is refused in words that say what to do', async () => {
    const origin = new URL(reseat.teams.url).origin;
    reseat.teams.files.set('text', { content: Buffer.from('MZ\0no picture'), type: 'image/png' });
    for (const [url, words] of [
      [`${origin}/teams/files/text`, 'that file is neither'],
      ['https://evil.example/x.png', 'could not get your file'],
      ['http://169.254.169.254/latest/', 'could not get your file'],
      ['', 'could not get your file'],
    ] as const) {
      const ada = somebody();
      await ada.say('my usb stick does not show up');
      const sent = ada.activity({ text: undefined, attachments: [download('x.png', url)] });
      await ada.send(sent);
      await reseat.settled();
      expect(ada.words()).toContain(words);
      expect(await fileOf(sent)).toBeNull();
    }
  });
});
