/** A desk's channel in Teams with technicians, and people who turn to it, through the running server. */
import type { TicketRow } from '#store/store.ts';
import { type Running, running } from './running.ts';
import type { Shown } from './service.ts';
import { type Answered, actionsOf, cardOf, type Json, type Person, textsOf, type Where } from './teams.ts';

export const DESK = '19:desk@thread.tacv2';
const OPENING = 'my laptop says no bootable device found';

/** A ticket's card: where it stands. */
export interface Standing {
  conversation: string;
  id: string;
}

/** What a dialog shows: a form or page, or words. Null: it closed. */
export type Dialog = { title: string; card: Json } | { words: string } | null;

export interface Technician {
  name: string;
  /** Their own chat with Reseat. */
  own: Person;
  press(card: Standing, title: string): Promise<Answered>;
  pressing(card: Standing, title: string): Json;
  /** What a client sends that knows Action.Submit only. */
  submitting(card: Standing, title: string): Json;
  send(activity: Json): Promise<Answered>;
  opens(card: Standing, title: string): Promise<Dialog>;
  /** Presses a button of a dialog, with what was filled in. */
  sends(card: Standing, dialog: Dialog, title: string, inputs?: Record<string, string>): Promise<Dialog>;
  /** The same as an activity, not sent. */
  sending(card: Standing, dialog: Dialog, title: string, inputs?: Record<string, string>): Json;
  /** Says something to Reseat in the desk's channel. */
  says(text: string): Promise<Answered>;
}

export interface Desk extends Running {
  bo: Technician;
  cy: Technician;
  /** Not of the desk. */
  eve: Technician;
  /** Somebody new, whose matter has become a ticket; its card in the desk's channel. */
  ticket(): Promise<{ ada: Person; card: Standing; number: number; row(): Promise<TicketRow> }>;
  /** Threads of the desk's channel, oldest first. */
  threads(): Standing[];
  /** The card as it stands now. */
  drawn(card: Standing): Json;
  words(card: Standing): string;
  /** What is offered on it. */
  offered(card: Standing): string[];
  /** Replies below it, as text. */
  below(card: Standing): string[];
}

let people = 0;

export async function desk(database = ':memory:', env: Record<string, string> = {}): Promise<Desk> {
  const reseat = await running(database, { TEAMS_DESK_CONVERSATION: DESK, ...env });
  const { teams } = reseat;
  const [bo, cy, eve] = ['Bo Lind', 'Cy Marsh', 'Eve Stone'].map(name => technician(reseat, name)) as [
    Technician,
    Technician,
    Technician,
  ];
  teams.members.set(
    DESK,
    [bo, cy].map(({ name }) => ({ id: idOf(name), name })),
  );
  const threads = () =>
    teams.calls
      .filter(({ what, body, id }) => what === 'create' && body.isGroup && id !== null)
      .map(({ conversation, id }) => ({ conversation, id: id! }));
  const shown = ({ conversation, id }: Standing): Shown =>
    teams.shown(conversation).find(each => each.id === id)!;
  const words = (card: Standing) => textsOf(cardOf(shown(card))).join('\n');
  return {
    ...reseat,
    bo,
    cy,
    eve,
    threads,
    drawn: card => cardOf(shown(card)),
    words,
    offered: card => actionsOf(cardOf(shown(card))).map(({ title }) => title),
    below: ({ conversation, id }) =>
      teams
        .shown(conversation)
        .filter(each => each.id !== id)
        .map(({ activity }) => activity.text ?? textsOf(activity.attachments).join('\n')),
    async ticket() {
      const ada = reseat.person({ name: `Ada Holm ${people++}` });
      await ada.say(OPENING);
      await reseat.settled();
      await ada.say('I want to talk to a person');
      await reseat.settled();
      const number = Number(/R-(\d+)/.exec(ada.words())![1]);
      const card = threads().find(each => shown(each) !== undefined && words(each).includes(`R-${number}`))!;
      return { ada, card, number, row: async () => (await reseat.store.ticket(number))! };
    },
  };
}

export const idOf = (name: string): string => `29:${name.replaceAll(' ', '-')}`;

export function technician(reseat: Pick<Running, 'teams' | 'person'>, name: string): Technician {
  const { teams } = reseat;
  const at = (conversation: string, more: Where = {}) =>
    reseat.person({ name, kind: 'channel', conversation, ...more });
  const action = ({ conversation, id }: Standing, title: string): Json => {
    const card = cardOf(teams.shown(conversation).find(each => each.id === id)!);
    return among(card, title);
  };
  const invoke = (card: Standing, what: string, value: Json) =>
    at(card.conversation).activity({ type: 'invoke', name: what, replyToId: card.id, value });
  const sending: Technician['sending'] = (card, dialog, title, inputs = {}) => {
    if (dialog === null || 'words' in dialog) throw new Error(`nothing to send: ${JSON.stringify(dialog)}`);
    const given = Object.fromEntries(Object.entries(inputs).map(([id, value]) => [`i-${id}`, value]));
    return invoke(card, 'task/submit', { data: { ...among(dialog.card, title).data, ...given } });
  };
  const pressing: Technician['pressing'] = (card, title) => {
    const { type, verb, data } = action(card, title);
    return invoke(card, 'adaptiveCard/action', { action: { type, verb, data }, trigger: 'manual' });
  };
  const send: Technician['send'] = activity => at(DESK).send(activity);
  return {
    name,
    own: reseat.person({ name }),
    pressing,
    press: (card, title) => send(pressing(card, title)),
    submitting: (card, title) =>
      at(card.conversation).activity({ replyToId: card.id, value: action(card, title).fallback.data }),
    send,
    async opens(card, title) {
      return dialogOf(await send(invoke(card, 'task/fetch', { data: action(card, title).data })));
    },
    sending,
    async sends(card, dialog, title, inputs) {
      return dialogOf(await send(sending(card, dialog, title, inputs)));
    },
    says: text => {
      const person = at(`${DESK};messageid=1764000000001`);
      const { recipient } = person.activity({});
      const mention = { type: 'mention', text: '<at>Reseat</at>', mentioned: recipient };
      return person.say(`<at>Reseat</at> ${text}`, { entities: [mention] });
    },
  };
}

function among(card: Json, title: string): Json {
  const all = actionsOf(card);
  const found = all.find(each => each.title === title);
  if (found === undefined)
    throw new Error(`"${title}" is not among ${all.map(each => each.title).join(', ')}`);
  return found;
}

export function dialogOf({ status, body }: Answered): Dialog {
  if (status !== 200) throw new Error(`answered with ${status}: ${JSON.stringify(body)}`);
  if (body === null) return null;
  const { type, value } = body.task;
  return type === 'message' ? { words: value } : { title: value.title, card: value.card.content };
}
