/** The bench: a technician's own questions in their own chat, and the calculators as forms. */
import { isDeskTopic } from '#engine/schema.ts';
import { LONGEST } from '#tickets/act.ts';
import { reference } from '#tickets/schema.ts';
import { workingNamed } from '#workings/all.ts';
import { formOf, type Values, workForm } from '#workings/form.ts';
import { noteOf } from '#workings/told.ts';
import { Refused } from '../adapter.ts';
import type { Acted, DialogAnswer } from '../desk-side.ts';
import { addressOf } from '../inbound.ts';
import type { Reference } from '../incoming.ts';
import { type Dialog, NO_MORE } from './acts.ts';
import { type About, benchCard, fillCard, resultCard } from './bench-cards.ts';
import type { Desking } from './desking.ts';
import { filledIn } from './draw.ts';

/** Milliseconds: the dialog has to be answered. */
const PATIENCE = 3000;

export function benchDialogs(on: Desking): Record<string, Dialog> {
  const { store, knowledge, adapter } = on;

  const aboutOf = ({ data: { n, f }, identity }: Acted): About => ({
    number: Number.isSafeInteger(n) ? (n as number) : null,
    key: typeof f === 'string' ? f : `${identity}:${on.now()}`,
  });

  const bench = (about: About, wrong: string | null): DialogAnswer => ({
    title: about.number === null ? 'At the bench' : `${reference(about.number)}: at the bench`,
    card: benchCard(about, knowledge().flows, wrong),
  });

  async function begin(acted: Acted, by: string): Promise<DialogAnswer> {
    const { data, identity, at, locale, zone, reference: from } = acted;
    const about = aboutOf(acted);
    const topic = filledIn(data, 'topic');
    if (topic === '') return bench(about, 'Choose which work it is first.');
    const row = about.number === null ? null : await store.ticket(about.number);
    if (!isDeskTopic(topic) || !(topic in knowledge().flows) || (about.number !== null && row === null))
      return { words: NO_MORE };
    const chat = await ownChat(from);
    if (chat === null) return { words: UNREACHED };
    await on.take({
      kind: 'begin',
      identity,
      at,
      address: addressOf({ reference: { ...chat, user: { ...chat.user, name: by } }, locale, zone }),
      topic,
      work: row === null ? null : { ticket: row.number, conversation: row.conversation },
    });
    return { words: 'I have written to you in our own chat. Go on there; close this when you like.' };
  }

  /** Null: Teams does not let us write to them. */
  async function ownChat(from: Reference): Promise<Reference | null> {
    try {
      const conversation = await adapter.own(from, AbortSignal.timeout(PATIENCE));
      return { ...from, conversation, kind: 'personal', channel: null };
    } catch (error) {
      on.log('teams-own-chat-not-opened', { error: String(error) });
      if (error instanceof Refused) return null;
      throw error;
    }
  }

  const fill: Dialog = async acted => {
    const about = aboutOf(acted);
    const id = typeof acted.data.w === 'string' ? acted.data.w : filledIn(acted.data, 'working');
    if (id === '') return bench(about, 'Choose what is to be worked out first.');
    const working = workingNamed(id);
    if (working === undefined) return { words: NO_MORE };
    return { title: id, card: fillCard(working, about, carriedIn(acted), {}) };
  };

  /** Nothing is stored: figures in, figures out. */
  const work: Dialog = async acted => {
    const working = workingNamed(String(acted.data.w));
    if (working === undefined) return { words: NO_MORE };
    const values = Object.fromEntries(formOf(working).map(({ name }) => [name, filledIn(acted.data, name)]));
    const about = aboutOf(acted);
    const filled = workForm(working, values);
    if (!filled.ok) return { title: working.id, card: fillCard(working, about, values, filled.wrong) };
    return {
      title: `${working.id}: ${filled.verdict.replaceAll('-', ' ')}`,
      card: resultCard(working, filled, values, about),
      width: 'large',
    };
  };

  /** Worked out anew from what was filled in, so that a note says what the calculator says. */
  const note: Dialog = async (acted, by) => {
    const { number } = aboutOf(acted);
    const working = workingNamed(String(acted.data.w));
    const row = number === null ? null : await store.ticket(number);
    const values = carriedIn(acted);
    const filled = working === undefined ? null : workForm(working, values);
    if (working === undefined || row === null || filled === null || !filled.ok) return { words: NO_MORE };
    const { identity, at } = acted;
    const text = noteOf(working, filled.told, values, LONGEST);
    const { conversation } = row;
    const took = await on.take({
      kind: 'desk',
      identity,
      at,
      conversation,
      by,
      action: { do: 'note', text },
    });
    const done = `It is on ${reference(row.number)} now, as a note.`;
    return { words: took.kind === 'refused' ? took.why : done };
  };

  return {
    'desk:bench': async acted => bench(aboutOf(acted), null),
    'desk:begin': begin,
    'desk:fill': fill,
    'desk:work': work,
    'desk:work-note': note,
  };
}

const UNREACHED =
  'Teams does not let me write to you. Add Reseat to your own chats in Teams, then begin here once more.';

function carriedIn({ data: { values } }: Acted): Values {
  if (typeof values !== 'object' || values === null) return {};
  return Object.fromEntries(Object.entries(values).filter(([, value]) => typeof value === 'string'));
}
