/** Outages from the desk's channel: declared by a form, shown by a message that also ends it. */
import { createHash } from 'node:crypto';
import type { BlockAction, SlackViewAction } from '@slack/bolt';
import type { Button, KnownBlock, ModalView } from '@slack/types';
import type { Outage } from '#store/store.ts';
import type { Reply } from '../app.ts';
import { button, header, option } from '../blocks.ts';
import { dateOf } from '../home.ts';
import { cut, marked, unformatted } from '../text.ts';
import type { Acting } from './actions.ts';
import type { Desking } from './desking.ts';
import { filledIn, menu, modal, words } from './forms.ts';
import { lineBlocks, literally } from './lines.ts';
import { actorOf, type Trigger, told, triggerOf } from './open.ts';
import { whisper } from './whisper.ts';

/** For an outage that every site has. */
const EVERYWHERE = '-';

export function outageForm(
  { catalogue, site }: Pick<ReturnType<Desking['knowledge']>, 'catalogue' | 'site'>,
  open: Outage[],
): ModalView {
  const symptoms = Object.entries(catalogue.symptoms).map(([id, { title }]) => option(title, id));
  const sites = [
    option('Every site', EVERYWHERE),
    ...Object.entries(site.sites).map(([id, { name }]) => option(name, id)),
  ];
  return modal(
    'An outage',
    [
      menu('symptom', 'What people report', symptoms),
      menu('site', 'Where', sites, sites[0]),
      words('text', 'What people are told', {
        hint: 'In a sentence or two: what is known, what to do meanwhile. Everybody who reports it is told this.',
      }),
      ...(open.length === 0
        ? []
        : [header('Open now'), ...open.slice(0, 20).flatMap(each => openBlocks(each))]),
    ],
    {
      callback_id: 'desk:outage',
      submit: unformatted('Declare it'),
      close: unformatted('Cancel'),
    },
  );
}

const over = (id: string): Button => ({
  ...button('desk:outage-over', 'It is over', id),
  confirm: {
    title: unformatted('Is it over?'),
    text: unformatted('Everybody who was told of it is told that it is over.'),
    confirm: unformatted('It is over'),
    deny: unformatted('Not yet'),
  },
});

const openBlocks = ({ id, text }: Outage): KnownBlock[] => [
  { type: 'section', text: marked(`*${id}* ${literally(text, 2500)}`), accessory: over(id) },
];

export function outageMessage(outage: Outage, about: string, where: string, told: number) {
  const { id, text, declaredBy, declaredAt, endedAt } = outage;
  const head = `${endedAt === null ? '▲ OUTAGE' : '✓ OVER'} · ${id} · ${about}, ${where}`;
  const counted = told === 1 ? '1 conversation was told' : `${told} conversations were told`;
  const blocks: KnownBlock[] = [
    header(head),
    ...lineBlocks([{ head: '', text: cut(text, 1500) }]),
    {
      type: 'context',
      elements: [
        marked(
          `Declared by ${literally(declaredBy, 500)}, ${dateOf(declaredAt)} · ${counted}${endedAt === null ? '' : ` · over since ${dateOf(endedAt)}`}`,
        ),
      ],
    },
    ...(endedAt === null ? [{ type: 'actions' as const, elements: [over(id)] }] : []),
  ];
  return { text: literally(`${head}\n${text}`, 3500), blocks };
}

export function outageDesk(on: Acting) {
  const { opener, gate, knowledge, store, slack, channel } = on;

  const form = (trigger: Trigger) =>
    opener.open(
      trigger,
      async () => outageForm(knowledge(), await store.outages({ open: true })),
      button('desk:outage', 'Once more', 'outage', 'primary'),
    );

  const shown = (outage: Outage, count: number) => {
    const { catalogue, site } = knowledge();
    const where = outage.site === null ? 'every site' : (site.sites[outage.site]?.name ?? outage.site);
    return outageMessage(outage, catalogue.symptoms[outage.symptom]?.title ?? outage.symptom, where, count);
  };

  async function declare(body: SlackViewAction): Promise<Reply> {
    const actor = actorOf(body as unknown as Trigger);
    const [refused, by] = await Promise.all([gate.refusal(actor), gate.nameOf(actor)]);
    if (refused !== null) return answer({ response_action: 'update', view: told('The desk', refused) });
    const values = body.view.state.values;
    const [symptom, text] = [filledIn(values, 'symptom'), filledIn(values, 'text').trim()];
    if (!(symptom in knowledge().catalogue.symptoms))
      return answer({ response_action: 'errors', errors: { symptom: 'Choose what people report.' } });
    if (text === '')
      return answer({
        response_action: 'errors',
        errors: { text: 'Write in a sentence what people should be told.' },
      });
    const where = filledIn(values, 'site');
    const outage: Outage = {
      // The same form sent twice declares it once.
      id: `O-${createHash('sha256').update(`${actor.team}:${body.view.id}`).digest('hex').slice(0, 6)}`,
      symptom,
      site: where === EVERYWHERE || where === '' ? null : where,
      text,
      declaredBy: by,
      declaredAt: on.now(),
      endedAt: null,
    };
    const known = (await store.outages({ open: true })).some(({ id }) => id === outage.id);
    if (known) return {};
    const count = await on.outages.declare(outage);
    return { after: () => slack.call('chat.postMessage', { channel, ...shown(outage, count) }) };
  }

  async function end(body: BlockAction): Promise<Reply> {
    const trigger = triggerOf(body);
    const actor = actorOf(trigger);
    const [pressed] = body.actions;
    const id = pressed !== undefined && 'value' in pressed ? String(pressed.value) : '';
    const [refused, by] = await Promise.all([gate.refusal(actor), gate.nameOf(actor)]);
    const view = body.view?.id;
    const say = (text: string): Reply => ({
      after: async () => {
        if (view === undefined) return whisper(on, trigger.response_url, text);
        await slack.call('views.update', { view_id: view, view: told('An outage', text) });
      },
    });
    if (refused !== null) return say(refused);
    const outage = (await store.outages({ open: true })).find(each => each.id === id);
    const count = await on.outages.end(id, by);
    if (outage === undefined || count === null) return say(`Outage ${id} is over already.`);
    const over = { ...outage, endedAt: on.now() };
    const { channel_id, message_ts: ts } = body.container as { channel_id?: string; message_ts?: string };
    if (ts === undefined) return say(`Outage ${id} is over; conversations told: ${count}.`);
    return { after: () => slack.call('chat.update', { channel: channel_id, ts, ...shown(over, count) }) };
  }

  return { form, declare, end };
}

const answer = (ack: object): Reply => ({ ack: ack as Record<string, unknown> });
