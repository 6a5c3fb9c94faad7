/** Outages from the desk's place. */
import type { Outage } from '#store/store.ts';
import type { Acted } from '../desk-side.ts';
import { digest } from '../inbound.ts';
import { message } from '../render.ts';
import { type Dialog, NO_MORE } from './acts.ts';
import type { Desking } from './desking.ts';
import { filledIn } from './draw.ts';
import { EVERYWHERE, outageCard, outageForm, overForm } from './outage-cards.ts';

/** Milliseconds. */
const SENDING = 10_000;
const MISSING = {
  symptom: 'Choose what people report.',
  text: 'Write in a sentence what people should be told.',
};

export function outageDialogs(on: Desking): Record<string, Dialog> {
  const { store, knowledge, adapter, place } = on;

  const form = async ({ data, identity }: Acted, wrong: string | null) => ({
    title: 'An outage',
    card: outageForm(
      knowledge(),
      await store.outages({ open: true }),
      typeof data.f === 'string' ? data.f : `${identity}:${on.now()}`,
      wrong === null ? null : { data, wrong },
    ),
  });

  const declare: Dialog = async (acted, by) => {
    const { data } = acted;
    const [symptom, where, text] = [
      filledIn(data, 'symptom'),
      filledIn(data, 'site'),
      filledIn(data, 'text'),
    ];
    if (!(symptom in knowledge().catalogue.symptoms)) return form(acted, MISSING.symptom);
    if (text.trim() === '') return form(acted, MISSING.text);
    const outage: Outage = {
      // The same form sent twice declares it once.
      id: `O-${digest(String(data.f))
        .replace(/[^a-z0-9]/gi, '0')
        .slice(0, 6)
        .toLowerCase()}`,
      symptom,
      site: where === EVERYWHERE || where === '' ? null : where,
      text: text.trim(),
      declaredBy: by,
      declaredAt: on.now(),
      endedAt: null,
    };
    if ((await store.outages({ open: true })).some(({ id }) => id === outage.id)) return null;
    const count = await on.outages.declare(outage);
    const shown = message(outageCard(outage, knowledge(), count), `Outage ${outage.id}`);
    on.behind('outage-shown', () => {
      const signal = AbortSignal.timeout(SENDING);
      const to = place.reference();
      return place.threads ? adapter.thread(to, shown, signal) : adapter.post(to, shown, signal);
    });
    return null;
  };

  const end: Dialog = async ({ data }, by) => {
    const id = String(data.o);
    const outage = (await store.outages({ open: true })).find(each => each.id === id);
    const count = outage === undefined ? null : await on.outages.end(id, by);
    if (outage === undefined || count === null) return { words: `Outage ${id} is over already.` };
    const shown = message(outageCard({ ...outage, endedAt: on.now() }, knowledge(), count), `${id} is over`);
    const card = cardIn(data.m);
    if (card !== null && place.includes(card.conversation))
      on.behind('outage-over-shown', () =>
        adapter.update(
          { ...place.reference(), conversation: card.conversation },
          card.id,
          shown,
          AbortSignal.timeout(SENDING),
        ),
      );
    return { words: `Outage ${id} is over. Conversations told: ${count}.` };
  };

  return {
    'desk:outage': acted => form(acted, null),
    'desk:outage-declare': declare,
    'desk:outage-over': async ({ data, card, reference }) => {
      if (typeof data.o !== 'string') return { words: NO_MORE };
      const there = card === null ? null : { conversation: reference.conversation, id: card };
      return { title: 'An outage', card: overForm(data.o, there), height: 'small' };
    },
    'desk:outage-end': end,
  };
}

function cardIn(given: unknown): { conversation: string; id: string } | null {
  if (typeof given !== 'object' || given === null) return null;
  const { conversation, id } = given as Record<string, unknown>;
  return typeof conversation === 'string' && typeof id === 'string' ? { conversation, id } : null;
}
