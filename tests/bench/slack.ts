/**
 * `npm run slack:load`: 50 people in Slack at once, ten answers each, every event delivered twice and out of order, through the running
 * server with signed requests; and the same with the process killed twice in the middle. Once with the pauses of people who read, where
 * acknowledgements must take less than a second, once without any. Prints its figures; exit 1 when a promise is broken.
 */
import { availableParallelism, loadavg } from 'node:os';
import { setTimeout as sleep } from 'node:timers/promises';
import { chatOf } from '#channels/slack/inbound.ts';
import { standing } from '#engine/fold.ts';
import { openStore } from '#store/open.ts';
import { type Serving, serving } from '../support/serving.ts';
import { type FakeSlack, fakeSlack, type Post } from '../support/slack/fake.ts';
import {
  answersIn,
  type Event,
  person,
  poster,
  pressables,
  type SlackPerson,
} from '../support/slack/person.ts';

const PEOPLE = 50;
const ANSWERS = 10;
/** Milliseconds by which a second delivery may be late. */
const LATE = 3000;
const OPENINGS = [
  'my laptop says no bootable device found',
  'the drive in my pc is very slow',
  'my usb stick does not show up',
  'the network drive is not there',
  'the hard disk makes a grinding noise',
];

interface Run {
  site: Serving;
  slack: FakeSlack;
  /** Milliseconds from request to acknowledgement, of those that got one. */
  acks: number[];
  refused: number;
  retried: number;
  /** Second deliveries that are still on their way. */
  late: Promise<void>[];
  answered: number;
}

interface Given {
  user: string;
  conversation: string;
  question: number;
  answer: string;
}

const percentile = (sorted: number[], share: number) =>
  sorted[Math.min(sorted.length - 1, Math.floor(sorted.length * share))]!;

/** Delivers as Slack does: again until it was acknowledged. */
async function deliver(run: Run, who: SlackPerson, event: Event, retry: number): Promise<void> {
  for (let attempt = retry; ; attempt++) {
    const began = performance.now();
    const headers =
      attempt === 0 ? {} : { 'x-slack-retry-num': String(attempt), 'x-slack-retry-reason': 'http_timeout' };
    const status = await who.send(event, { headers: headers as Record<string, string> }).then(
      response => response.status,
      () => 0,
    );
    if (status === 200) {
      run.acks.push(performance.now() - began);
      return;
    }
    if (status !== 0) run.refused += 1;
    run.retried += 1;
    await sleep(100 + Math.random() * 200);
  }
}

async function twice(run: Run, who: SlackPerson, event: Event): Promise<void> {
  const second = sleep(Math.random() * LATE).then(() => deliver(run, who, event, 1));
  run.late.push(second);
  // Now and then the second delivery is there first.
  if (Math.random() < 0.1) await second;
  await deliver(run, who, event, 0);
}

async function oneSays(run: Run, index: number, pause: number): Promise<Given[]> {
  const user = `U0LOAD${String(index).padStart(3, '0')}`;
  const who = person(
    run.slack,
    user,
    poster(() => run.site.base, run.slack.secret),
  );
  const given: Given[] = [];
  await twice(run, who, who.saying(OPENINGS[index % OPENINGS.length]!));
  const rows = new Set<string>();
  let seen = 0;
  let typed = 0;
  while (given.length < ANSWERS) {
    const post = await next(run, who, seen);
    await sleep(pause * (0.4 + 1.2 * Math.random()));
    seen = Number(post.ts);
    // After a kill the last message may be there twice; nobody answers in words again what they have just answered.
    if (rows.has(rowOf(post))) continue;
    rows.add(rowOf(post));
    const answers = answersIn(post);
    const answer = answers[Math.floor(Math.random() * answers.length)];
    const skip = pressables(post.blocks).find(({ action_id }) => action_id === 'say:skip');
    if (answer !== undefined) {
      const [, conversation = '', question = '', id = ''] = answer.value.split(' ');
      if (given.some(each => each.conversation === conversation && each.question === Number(question)))
        continue;
      given.push({ user, conversation, question: Number(question), answer: id });
      run.answered += 1;
      await twice(run, who, who.pressing(post, answer));
    } else if (skip !== undefined) await twice(run, who, who.pressing(post, skip));
    else if (
      /What happens next|that is solved|For everything else/.test(post.text) ||
      !/\?|Write|write/.test(post.text)
    )
      await twice(run, who, who.saying(OPENINGS[(index + ++typed) % OPENINGS.length]!));
    else await twice(run, who, who.saying(typed++ % 2 === 0 ? 'Room 12, 555-0142' : '42'));
  }
  return given;
}

/** The row that a message was made of: in the ids of its blocks. */
const rowOf = ({ args }: Post): string => String(args.blocks[0].block_id).split(':')[0]!;

async function next({ slack }: Run, who: SlackPerson, seen: number): Promise<Post> {
  for (;;) {
    const post = slack.posts.findLast(({ channel }) => channel === who.direct);
    if (post !== undefined && Number(post.ts) > seen) return post;
    await sleep(50);
  }
}

/** @param pause milliseconds, on average, in which somebody reads and decides */
async function load(kills: number, pause: number): Promise<boolean> {
  const slack = await fakeSlack();
  const site = await serving({
    SLACK_BOT_TOKEN: slack.token,
    SLACK_SIGNING_SECRET: slack.secret,
    SLACK_API_URL: slack.api,
  });
  const run: Run = { site, slack, acks: [], refused: 0, retried: 0, late: [], answered: 0 };
  await site.start();
  const before = loadavg()[0]!;
  const began = performance.now();
  const people = Promise.all(Array.from({ length: PEOPLE }, (_, index) => oneSays(run, index, pause)));
  const killing = (async () => {
    for (let kill = 1; kill <= kills; kill++) {
      while (run.answered < (PEOPLE * ANSWERS * kill) / (kills + 1)) await sleep(5);
      await site.stop('SIGKILL');
      await site.start();
    }
  })();
  const given = (await people).flat();
  await killing;
  await Promise.all(run.late);
  const seconds = (performance.now() - began) / 1000;
  await sleep(1500);
  const figures = await judge(run, given);
  run.acks.sort((one, other) => one - other);
  const how = pause === 0 ? 'no pause' : `${pause / 1000} s to read and decide`;
  console.log(
    `${PEOPLE} people at once, ${ANSWERS} answers each, ${how}, every event twice, killed ${kills} times:`,
  );
  const rows = {
    ...figures,
    'requests acknowledged': run.acks.length,
    'sent again unacknowledged': run.retried,
    'refused by the server': run.refused,
    'ack p50 ms': Math.round(percentile(run.acks, 0.5)),
    'ack p99 ms': Math.round(percentile(run.acks, 0.99)),
    'ack longest ms': Math.round(run.acks.at(-1)!),
    seconds: Math.round(seconds),
    'load of the machine before': `${before.toFixed(1)} on ${availableParallelism()} cores`,
  };
  for (const [what, figure] of Object.entries(rows)) console.log(`  ${what.padEnd(28)} ${figure}`);
  await site.remove();
  await slack.close();
  const kept =
    figures['answers lost'] + figures['answered twice'] + figures['messages waiting'] + figures.faults === 0;
  const doubled = kills === 0 ? figures['messages doubled'] === 0 : true;
  return kept && doubled && (kills > 0 || pause === 0 || percentile(run.acks, 0.99) < 1000);
}

/** What people were acknowledged, held against what is kept. */
async function judge({ site, slack }: Run, given: Given[]) {
  const store = await openStore(site.database);
  const figures = {
    'answers given': given.length,
    'answers lost': 0,
    'answered twice': 0,
    messages: slack.called('chat.postMessage').length,
    'messages doubled': 0,
    'messages waiting': (await store.counts()).waiting,
    faults: slack.faults.length,
  };
  for (const user of new Set(given.map(each => each.user))) {
    const { conversations } = await store.history(chatOf(slack.team, user), 50);
    for (const { id, entries } of conversations) {
      const kept = standing(entries).flatMap(({ entry }) => (entry.kind === 'answer' ? [entry] : []));
      const questions = kept.map(({ question }) => question);
      figures['answered twice'] += questions.length - new Set(questions).size;
      for (const { question, answer } of given.filter(
        each => each.user === user && each.conversation === id,
      )) {
        const entry = kept.find(each => each.question === question);
        // Which of the symptoms offered it is opens the matter, and is kept as its opening.
        const opened = entries.some(
          each => each.kind === 'opened' && (each.symptom === answer || answer === 'other'),
        );
        if (entry === undefined ? !opened : 'id' in entry.value && entry.value.id !== answer) {
          figures['answers lost'] += 1;
          const history = entries.map(each =>
            [each.kind, 'question' in each ? each.question : '', 'words' in each ? each.words : ''].join(' '),
          );
          console.log(`  lost: ${user} ${question} ${answer}: ${history.join('; ')}`);
        }
      }
    }
    const rows = slack.in(slack.direct(user)).map(rowOf);
    figures['messages doubled'] += rows.length - new Set(rows).size;
  }
  await store.close();
  return figures;
}

const fine = [await load(0, 2500), await load(2, 2500), await load(0, 0), await load(2, 0)];
if (fine.includes(false)) {
  console.log('BROKEN');
  process.exitCode = 1;
}
