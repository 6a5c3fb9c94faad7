/** The desk's buttons and forms: everything that a technician does to a ticket from its message. */
import type { BlockAction, SlackViewAction } from '@slack/bolt';
import type { TicketRow } from '#store/store.ts';
import type { DeskAction } from '#talk/inbound.ts';
import { actionOf, type FormAct, fieldOf, isFormAct } from '#tickets/forms.ts';
import { reference } from '#tickets/schema.ts';
import type { Part, Reply } from '../app.ts';
import { button, sections } from '../blocks.ts';
import { detailBlocks } from './card.ts';
import type { Desking } from './desking.ts';
import { type About, actForm, filledIn, modal, type State } from './forms.ts';
import type { Actor, Gate } from './gate.ts';
import { actorOf, type Opener, type Trigger, told, triggerOf } from './open.ts';
import { whisper } from './whisper.ts';

export type Acting = Desking & { gate: Gate; opener: Opener };

export interface DeskActions {
  action: Required<Part>['action'];
  view: Required<Part>['view'];
}

export function deskActions(on: Acting): DeskActions {
  const { store, gate, opener, knowledge, slack } = on;

  async function action(body: BlockAction): Promise<Reply> {
    const [pressed] = body.actions;
    if (pressed === undefined) return {};
    const [act = '', given = ''] =
      'selected_option' in pressed && pressed.selected_option != null
        ? (pressed.selected_option.value ?? '').split(' ')
        : [pressed.action_id.slice('desk:'.length), 'value' in pressed ? String(pressed.value) : ''];
    const number = Number(given);
    const trigger = triggerOf(body);
    if (act === 'take') return take(body, trigger, number);
    if (act !== 'details' && !isFormAct(act)) return { after: () => opener.tell(trigger, NO_MORE) };
    const view = async () => {
      const row = await store.ticket(number);
      if (row === null) return missing(number);
      return act === 'details' ? details(row) : actForm(act, row, knowledge().catalogue.faults);
    };
    const again = button(`desk:${act}`, AGAIN, given, 'primary');
    return {
      after: async () => {
        await opener.open(trigger, view, again);
        await tidy(body, number);
      },
    };
  }

  async function take(body: BlockAction, trigger: Trigger, number: number): Promise<Reply> {
    const actor = actorOf(trigger);
    const [refused, row, by] = await Promise.all([
      gate.refusal(actor),
      store.ticket(number),
      gate.nameOf(actor),
    ]);
    const why = refused ?? (row === null ? missing(number) : null);
    const tell = (text: string) => ({ after: () => whisper(on, trigger.response_url, text) });
    if (why !== null || row === null) return tell(why ?? missing(number));
    const place = `${body.container.channel_id ?? ''}:${body.container.message_ts ?? ''}`;
    const identity = `slack:${actor.team}:${place}:${body.actions[0]!.action_ts}`;
    const took = await on.take({ ...happening(row, identity, by), action: { do: 'take' } });
    return took.kind === 'refused' ? tell(took.why) : { after: () => tidy(body, number) };
  }

  const happening = ({ conversation }: TicketRow, identity: string, by: string) =>
    ({ kind: 'desk', identity, at: on.now(), conversation, by }) as const;

  async function view(body: SlackViewAction): Promise<Reply> {
    const act = body.view.callback_id.slice('desk:'.length);
    if (body.type !== 'view_submission' || !isFormAct(act)) return {};
    const { number } = JSON.parse(body.view.private_metadata) as About;
    const actor = actorOf(body as unknown as Trigger);
    const [refused, row, by] = await Promise.all([
      gate.refusal(actor),
      store.ticket(number),
      gate.nameOf(actor),
    ]);
    if (refused !== null) return instead(reference(number), refused);
    if (row === null) return instead(reference(number), missing(number));
    const doing = await meant(act, body.view.state.values, actor);
    const took = await on.take({
      ...happening(row, `slack:${actor.team}:view:${body.view.id}`, by),
      action: doing,
    });
    if (took.kind !== 'refused') return {};
    return { ack: { response_action: 'errors', errors: { [fieldOf(doing)]: took.why } } };
  }

  async function meant(act: FormAct, values: State, { team }: Actor): Promise<DeskAction> {
    const [to, until] = [filledIn(values, 'to'), filledIn(values, 'until')];
    const told: Record<string, string> = {
      to: to === '' ? '' : await gate.nameOf({ team, user: to, short: null }),
      // Slack's are seconds.
      until: String(Number(until) * 1000),
    };
    return actionOf(act, id => told[id] ?? filledIn(values, id));
  }

  /** A message that no longer is the one that shows the ticket says so, after a doubled sending. */
  async function tidy({ container, message }: BlockAction, number: number): Promise<void> {
    const { channel_id: channel, message_ts: ts } = container as { channel_id?: string; message_ts?: string };
    const row =
      channel === on.channel && message?.thread_ts === undefined ? await store.ticket(number) : null;
    if (row === null || ts === undefined) return;
    const ref = await store.cardRef(`slack:desk:${channel}`, row.conversation);
    const [, shown] = ref?.split(':') ?? [];
    if (shown === undefined || shown === ts) return;
    const text = `${reference(number)} is shown in another message of this channel.`;
    await slack.call('chat.update', { channel, ts, text, blocks: sections(text) });
  }

  return { action, view };
}

const AGAIN = 'Once more';
const NO_MORE = 'That button is no longer in use. The message shows what can be done now.';
const missing = (number: number) =>
  Number.isSafeInteger(number) ? `There is no ticket ${reference(number)} any more.` : NO_MORE;

const instead = (title: string, text: string): Reply => ({
  ack: { response_action: 'update', view: told(title, text) as unknown as Record<string, unknown> },
});

const details = (row: TicketRow) => modal(reference(row.number), detailBlocks(row));
