/** `reseat chat`: the whole conversation in a terminal, for people and, with --json, for programs. */
import { createInterface } from 'node:readline';
import type { Parcel } from '#channels/channel.ts';
import { plain, unmarked } from '#channels/plain.ts';
import { addressOf, inboundOf, type OnScreen, screenAfter } from '#channels/terminal/inbound.ts';
import { clean, render } from '#channels/terminal/render.ts';
import { terminal } from '#channels/terminal/send.ts';
import { isQuestion, type Message } from '#engine/messages.ts';
import { isDeskTopic } from '#engine/schema.ts';
import type { Conversation } from '#store/store.ts';
import { deliver } from '#talk/deliver.ts';
import type { Begin } from '#talk/inbound.ts';
import { tick } from '#talk/timers.ts';
import { reference } from '#tickets/schema.ts';
import { UserError } from '../errors.ts';
import { rowOf } from './tickets.ts';
import type { Shell, Wired } from './wired.ts';

export interface ChatOptions {
  json: boolean;
  /** Whose conversation this is; another name is another person. */
  as?: string;
  /** A desk flow instead, such as `bench`, until it ends. */
  desk?: string;
  /** The ticket that it is for. */
  ticket?: string;
}

const GLANCE = 400;

export async function chat(shell: Shell, options: ChatOptions): Promise<void> {
  const wired = await shell.wire(true);
  // A program's run is a new person unless it names one, so that an older run's open question is not answered by accident.
  const name = options.as ?? (options.json ? `json-${wired.id()}` : shell.user);
  try {
    const start = await startOf(wired, options);
    const talk = talkOf(wired, name, start);
    if (options.json) await jsonLines(shell, wired, talk);
    else await humanLines(shell, talk);
    await talk.close();
  } finally {
    await wired.close();
  }
}

type Start = { kind: 'arrived' } | Begin;

async function startOf(wired: Wired, { desk, ticket }: ChatOptions): Promise<Start> {
  if (desk === undefined) {
    if (ticket !== undefined)
      throw new UserError('--ticket goes with --desk TOPIC; people are not asked about tickets.');
    return { kind: 'arrived' };
  }
  const topics = Object.keys(wired.knowledge().flows).filter(isDeskTopic);
  const topic = desk.startsWith('desk-') ? desk : `desk-${desk}`;
  if (!topics.includes(topic))
    throw new UserError(
      `There is no desk flow "${desk}". There are: ${topics.map(each => each.slice('desk-'.length)).join(', ') || 'none'}.`,
    );
  if (ticket === undefined) return { kind: 'begin', topic, work: null };
  const { number, conversation } = await rowOf(wired, ticket);
  return { kind: 'begin', topic, work: { ticket: number, conversation } };
}

interface Talk {
  /** Is there nothing more to say here? Only a desk flow ends its chat. */
  over(): boolean;
  /** Takes one line, or the arrival, and returns what was said because of it. */
  line(line: string | null): Promise<Parcel[]>;
  /** What came by itself: nudges, the desk, outages. */
  glance(): Promise<Parcel[]>;
  close(): Promise<void>;
}

function talkOf(wired: Wired, name: string, start: Start): Talk {
  const place = start.kind === 'begin' ? `${name}:${start.topic}:${start.work?.ticket ?? 'no-ticket'}` : name;
  const address = addressOf(name, place);
  let over = false;
  const shown: Parcel[] = [];
  let screen: OnScreen = { conversation: '', question: null };
  let busy: Promise<unknown> = Promise.resolve();
  let count = 0;
  const channel = terminal(parcel => {
    shown.push(parcel);
    screen = screenAfter(parcel.conversation, parcel.messages, screen);
    over =
      start.kind === 'begin' && parcel.messages.some(({ kind }) => kind === 'ending' || kind === 'hand-over');
  }, wired.now);
  const delivering = wired.delivering([channel], [address.chat, 'relay:']);
  const drained = async () => {
    while ((await deliver(delivering)) > 0);
    return shown.splice(0);
  };
  /** One thing at a time: a glance never falls into the middle of a line. */
  const next = <T>(work: () => Promise<T>): Promise<T> => {
    const done = busy.then(work);
    busy = done.catch(() => undefined);
    return done;
  };
  return {
    over: () => over,
    line: line =>
      next(async () => {
        const at = wired.now();
        count += 1;
        const identity = `terminal:${name}:${at}:${count}:${wired.id()}`;
        await wired.take(
          line === null
            ? { ...start, identity, at, address }
            : inboundOf(line, screen, address, identity, at),
        );
        return drained();
      }),
    glance: () =>
      next(async () => {
        await tick(wired.store, wired.now(), wired.take);
        return drained();
      }),
    close: async () => {
      await busy;
    },
  };
}

async function humanLines(shell: Shell, talk: Talk): Promise<void> {
  const { input, output } = shell;
  const look = { width: Math.min(output.columns ?? 80, 88), colour: shell.colour };
  const live = input.isTTY === true;
  const lines = createInterface({ input, output: live ? output : undefined, prompt: '> ' });
  const show = (parcels: Parcel[]) => {
    for (const { messages } of parcels) output.write(`\n${render(messages, look)}\n\n`);
  };
  show(await talk.line(null));
  const glance = live
    ? setInterval(() => {
        void talk.glance().then(parcels => {
          if (parcels.length === 0) return;
          show(parcels);
          lines.prompt(true);
        }, fail);
      }, GLANCE)
    : undefined;
  const fail = (error: unknown) => {
    shell.errors.write(`${clean(String(error))}\n`);
    lines.close();
  };
  if (live) lines.prompt();
  for await (const line of lines) {
    show(await talk.line(line));
    if (talk.over()) break;
    if (live) lines.prompt();
  }
  clearInterval(glance);
}

async function jsonLines(shell: Shell, wired: Wired, talk: Talk): Promise<void> {
  const write = async (parcels: Parcel[]) => {
    const last = parcels.at(-1)?.conversation;
    const conversation = last === undefined ? null : await wired.store.conversation(last);
    const messages = parcels.flatMap(parcel => parcel.messages);
    shell.output.write(`${JSON.stringify(lineOf(conversation, messages))}\n`);
  };
  await write(await talk.line(null));
  for await (const line of createInterface({ input: shell.input })) {
    await write(await talk.line(line));
    if (talk.over()) break;
  }
}

/** One line of --json: what was said, what is asked now, and how it ended if it has. */
function lineOf(conversation: Conversation | null, messages: Message[]) {
  const question = messages.findLast(isQuestion);
  const ended = messages.some(({ kind }) => kind === 'ending' || kind === 'hand-over');
  const says = messages.flatMap(message => {
    if (message.kind === 'try') return [message.text];
    return message.kind === 'ask' ? [] : [plain(message)];
  });
  return {
    conversation: conversation?.id ?? null,
    says: says.map(unmarked),
    ask: question
      ? {
          kind: question.kind === 'try' ? 'try' : question.form,
          question: unmarked(question.kind === 'try' ? question.works : question.text),
          answers: question.answers,
          always: question.always,
        }
      : null,
    outcome:
      ended && conversation !== null
        ? {
            how: conversation.outcome,
            symptom: conversation.symptom,
            fault: conversation.fault,
            ticket:
              conversation.ticket && conversation.number !== null ? reference(conversation.number) : null,
          }
        : null,
  };
}
