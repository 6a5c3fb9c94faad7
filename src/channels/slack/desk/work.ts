/** The bench: a technician's own questions in their own messages, and the calculators as forms. */
import type { BlockAction, SlackViewAction } from '@slack/bolt';
import type { ModalView } from '@slack/types';
import { isDeskTopic } from '#engine/schema.ts';
import { reference } from '#tickets/schema.ts';
import { workingNamed } from '#workings/all.ts';
import { workForm } from '#workings/form.ts';
import type { Part, Reply } from '../app.ts';
import { button } from '../blocks.ts';
import { addressOf } from '../inbound.ts';
import type { Acting } from './actions.ts';
import { filledIn } from './forms.ts';
import { actorOf, type Trigger, told, triggerOf } from './open.ts';
import { type Bench, benchView, type Filling, fillView, type Result, resultView } from './work-form.ts';

export function workPart(on: Acting): Part {
  const { opener, gate, store, knowledge, slack, profiles } = on;

  const bench = (trigger: Trigger, number: number | null) =>
    opener.open(
      trigger,
      async () => benchView(number, knowledge().flows),
      button('work:bench', 'Once more', String(number ?? ''), 'primary'),
    );

  async function action(body: BlockAction): Promise<Reply> {
    const [pressed] = body.actions;
    if (pressed === undefined) return {};
    const trigger = triggerOf(body);
    const [what = '', given = ''] = ('value' in pressed ? String(pressed.value) : '').split(' ');
    switch (pressed.action_id) {
      case 'work:bench':
        return { after: () => bench(trigger, numberOf(what)) };
      case 'work:fill': {
        const working = workingNamed(what);
        if (working === undefined) return {};
        return { after: () => opener.open(trigger, async () => fillView(working, numberOf(given))) };
      }
      case 'work:begin':
        return begin(body, trigger, what, numberOf(given));
      case 'work:note':
        return note(body, trigger);
      default:
        return {};
    }
  }

  /** In a form: what it shows from now on. */
  const becomes = (body: BlockAction, view: ModalView): Reply => ({
    after: () => slack.call('views.update', { view_id: body.view?.id, view }),
  });

  async function begin(
    body: BlockAction,
    trigger: Trigger,
    topic: string,
    number: number | null,
  ): Promise<Reply> {
    const actor = actorOf(trigger);
    const [refused, name, row] = await Promise.all([
      gate.refusal(actor),
      gate.nameOf(actor),
      number === null ? null : store.ticket(number),
    ]);
    if (refused !== null) return becomes(body, told('The desk', refused));
    if (!isDeskTopic(topic) || !(topic in knowledge().flows) || (number !== null && row === null)) return {};
    const { team, user } = actor;
    await on.take({
      kind: 'begin',
      identity: `slack:${team}:view:${body.view?.id}:${body.actions[0]!.action_ts}`,
      at: on.now(),
      address: addressOf({ ...profiles.of(team, user), name }),
      topic,
      work: row === null ? null : { ticket: row.number, conversation: row.conversation },
    });
    return becomes(
      body,
      told(
        'At the bench',
        'I have written to you in a direct message. Go on there; close this when you like.',
      ),
    );
  }

  async function note(body: BlockAction, trigger: Trigger): Promise<Reply> {
    const { number, note: text } = JSON.parse(body.view?.private_metadata ?? '{}') as Result;
    const actor = actorOf(trigger);
    const [refused, by, row] = await Promise.all([
      gate.refusal(actor),
      gate.nameOf(actor),
      number === null ? null : store.ticket(number),
    ]);
    if (refused !== null) return becomes(body, told('The desk', refused));
    if (row === null) return {};
    const took = await on.take({
      kind: 'desk',
      identity: `slack:${actor.team}:view:${body.view?.id}:note`,
      at: on.now(),
      conversation: row.conversation,
      by,
      action: { do: 'note', text },
    });
    const said = took.kind === 'refused' ? took.why : `It is on ${reference(row.number)} now, as a note.`;
    return becomes(body, told(reference(row.number), said));
  }

  /** Nothing is stored: figures in, figures out, on top of the form, so that *Back* leads to it as it was filled in. */
  async function view(body: SlackViewAction): Promise<Reply> {
    if (body.type !== 'view_submission' || body.view.callback_id !== 'work:form') return {};
    const { number, working: id } = JSON.parse(body.view.private_metadata) as Filling & Bench;
    const working = workingNamed(id);
    const refused = await gate.refusal(actorOf(body as unknown as Trigger));
    if (refused !== null || working === undefined)
      return answer({ response_action: 'update', view: told('The desk', refused ?? GONE) });
    const state = body.view.state.values;
    const values = Object.fromEntries(Object.keys(state).map(name => [name, filledIn(state, name)]));
    const filled = workForm(working, values);
    if (!filled.ok) return answer({ response_action: 'errors', errors: filled.wrong });
    return answer({ response_action: 'push', view: resultView(working, filled, values, number) });
  }

  return {
    prefix: 'work',
    action,
    view,
    shortcut: async body => ({ after: () => bench(body as unknown as Trigger, null) }),
  };
}

const GONE = 'That calculator is no longer there.';

const numberOf = (given: string): number | null => (/^\d{1,9}$/.test(given) ? Number(given) : null);

const answer = (ack: object): Reply => ({ ack: ack as Record<string, unknown> });
