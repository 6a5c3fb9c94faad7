/** What becomes of an activity whose sender has been authenticated: an inbound, a press, a dialog, or nothing. */
import type { Store } from '#store/store.ts';
import type { FromPerson, Inbound } from '#talk/inbound.ts';
import type { Adapter, Answer } from './adapter.ts';
import { answeredCard } from './answered.ts';
import { cardAnswer, dialogAnswer } from './answers.ts';
import type { Acted, CardAnswer, DeskSide } from './desk-side.ts';
import { filesOf } from './files.ts';
import { carriedOf, digest, personOf, pressOf, textOf, welcomeOf } from './inbound.ts';
import { type Incoming, incomingOf } from './incoming.ts';
import type { OwnChats } from './own-chat.ts';
import { message } from './render.ts';
import type { TeamsSettings } from './settings.ts';
import { wordsFor } from './words.ts';

export interface Turns {
  store: Pick<Store, 'conversation' | 'history'>;
  take(inbound: Inbound): Promise<{ kind: string }>;
  adapter: Adapter;
  own: OwnChats;
  settings: TeamsSettings;
  /** Null: no place for the desk in Teams. */
  desk: DeskSide | null;
  now(): number;
  log(event: string, details: Record<string, unknown>): void;
  /** Milliseconds that a press may wait for its answer. */
  patience: number;
}

const NOTHING: Answer = { status: 200 };

export async function turned(on: Turns, activity: unknown): Promise<Answer> {
  const incoming = incomingOf(activity, on.now());
  if (incoming === null) return { status: 400 };
  switch (incoming.type) {
    case 'message':
      await said(on, incoming);
      return NOTHING;
    case 'invoke':
      return invoked(on, incoming);
    case 'conversationUpdate':
    case 'installationUpdate':
      if (incoming.welcomed && incoming.reference.kind === 'personal') await on.take(welcomeOf(incoming));
      return NOTHING;
    default:
      return NOTHING;
  }
}

async function said(on: Turns, incoming: Incoming): Promise<void> {
  const acted = actedOf(incoming, incoming.value, null);
  if (acted !== null) return submitted(on, incoming, acted);
  if (on.desk !== null && (await on.desk.heard(incoming))) return;
  const own = await on.own(incoming);
  const text = textOf(own ?? incoming, own !== null);
  const turned = text === null ? null : await on.take(text);
  const files = filesOf(own ?? incoming);
  if (files !== null) await on.take(files);
  if (own !== null && turned?.kind === 'done') await tellMoved(on, incoming);
}

/** A line in the thread. If it is lost, they have been written to all the same. */
async function tellMoved(on: Turns, { reference, locale }: Incoming): Promise<void> {
  const text = wordsFor(locale).moved;
  const activity = { type: 'message', textFormat: 'plain', text, summary: text } as const;
  try {
    await on.adapter.post(reference, activity, AbortSignal.timeout(on.patience));
  } catch (error) {
    on.log('teams-answer-lost', { error: String(error) });
  }
}

/** A press from a client that knows Action.Submit only: the same, but its answer has to be sent. */
async function submitted(on: Turns, incoming: Incoming, acted: Acted): Promise<void> {
  const answer = await pressed(on, incoming, acted);
  const signal = AbortSignal.timeout(on.patience);
  try {
    if ('card' in answer) {
      // A card of the person's own is redrawn by the delivery of what comes next.
      if (incoming.replyTo !== null && !acted.verb.startsWith('say:'))
        await on.adapter.update(
          incoming.reference,
          incoming.replyTo,
          message(answer.card, summaryOf(answer.card)),
          signal,
        );
      return;
    }
    const text = 'words' in answer ? answer.words : answer.wrong;
    const activity = { type: 'message', textFormat: 'plain', text, summary: text } as const;
    await on.adapter.post(incoming.reference, activity, signal);
  } catch (error) {
    on.log('teams-answer-lost', { error: String(error) });
  }
}

/** The first line of what clients without cards show. */
const summaryOf = (card: unknown): string => String(fieldOf(card, 'fallbackText') ?? '').split('\n')[0]!;

async function invoked(on: Turns, incoming: Incoming): Promise<Answer> {
  const { name, value } = incoming;
  if (name === 'adaptiveCard/action') {
    const action = fieldOf(value, 'action');
    const acted = actedOf(incoming, fieldOf(action, 'data'), fieldOf(action, 'verb'));
    if (acted === null) return cardAnswer({ wrong: 'This card is not known here.' });
    return cardAnswer(await soon(on, pressed(on, incoming, acted), incoming));
  }
  if (name === 'task/fetch' || name === 'task/submit') {
    const acted = actedOf(incoming, fieldOf(value, 'data'), null);
    if (acted === null || !acted.verb.startsWith('desk:') || on.desk === null)
      return dialogAnswer({ words: 'This is not known here.' });
    return dialogAnswer(await (name === 'task/fetch' ? on.desk.open(acted) : on.desk.submit(acted)));
  }
  return { status: 400, body: { error: { code: 'NotSupported', message: 'Not supported.' } } };
}

/** The answer, or word that it is coming: the press is not lost, and what comes of it is sent like anything else. */
function soon(on: Turns, work: Promise<CardAnswer>, { locale }: Incoming): Promise<CardAnswer> {
  return new Promise((resolve, reject) => {
    let late = false;
    const timer = setTimeout(() => {
      late = true;
      resolve({ words: wordsFor(locale).wait });
    }, on.patience);
    work
      .then(resolve, error => {
        if (late) on.log('teams-press-failed', { error: String(error) });
        reject(error);
      })
      .finally(() => clearTimeout(timer));
  });
}

async function pressed(on: Turns, incoming: Incoming, acted: Acted): Promise<CardAnswer> {
  if (acted.verb.startsWith('desk:'))
    return on.desk === null ? { wrong: 'There is no desk here.' } : on.desk.act(acted);
  const carried = carriedOf(acted.data);
  if (carried === null) return { wrong: 'This card is not known here.' };
  const words = wordsFor(incoming.locale);
  const conversation = await on.store.conversation(carried.c);
  if (carried.u !== undefined && carried.u !== personOf(incoming.reference))
    return { words: words.notYours(conversation?.address.person.name ?? words.somebody) };
  const stale = conversation !== null && (!conversation.current || conversation.askedNumber > carried.q);
  const inbound: FromPerson | null = pressOf(acted.verb, carried, incoming, stale);
  if (inbound === null) return { words: words.choose };
  await on.take(inbound);
  const card = await answeredCard(on.store, carried, incoming, on.settings.appId, on.now());
  return card === null ? { words: words.passed } : { card };
}

/** Null: no press or form of ours. The verb also stands in the data, where Action.Submit and dialogs carry it. */
function actedOf(incoming: Incoming, given: unknown, verb: unknown): Acted | null {
  if (typeof given !== 'object' || given === null || Array.isArray(given)) return null;
  const data = given as Record<string, unknown>;
  const named = typeof verb === 'string' ? verb : data.v;
  if (typeof named !== 'string' || !/^(say|desk):/.test(named)) return null;
  const { reference, at, replyTo, locale, zone } = incoming;
  const identity = `teams:act:${reference.conversation}:${replyTo ?? ''}:${personOf(reference)}:${digest(`${named}\n${JSON.stringify(data)}`)}`;
  return { verb: named, data, reference, identity, at, card: replyTo, locale, zone };
}

const fieldOf = (value: unknown, name: string): unknown =>
  typeof value === 'object' && value !== null ? (value as Record<string, unknown>)[name] : undefined;
