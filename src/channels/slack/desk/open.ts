/** Opens forms. Slack gives three seconds for it, so it is the first thing done behind the acknowledgement. */
import type { BlockAction } from '@slack/bolt';
import type { Button, ModalView } from '@slack/types';
import { sections } from '../blocks.ts';
import type { Desking } from './desking.ts';
import { modal } from './forms.ts';
import type { Actor, Gate } from './gate.ts';
import { whisper } from './whisper.ts';

/** As much of a press or a shortcut as is needed to answer it with a form. */
export interface Trigger {
  trigger_id: string;
  response_url?: string;
  user: { id: string; name?: string };
  team?: { id: string } | null;
  /** Pressed in a form: the next one lies on top of it. */
  view?: { id?: string };
}

export const actorOf = ({ user, team }: Trigger): Actor => ({
  team: team?.id ?? '',
  user: user.id,
  short: user.name ?? null,
});

export const triggerOf = (body: BlockAction): Trigger => body as unknown as Trigger;

export interface Opener {
  /**
   * Shows the view that `make` gives, or tells what `make` says instead. `again`: a fresh button for when Slack says that the
   * press is too old.
   */
  open(trigger: Trigger, make: () => Promise<ModalView | string>, again?: Button): Promise<void>;
  /** Told in a form where there is no message to answer. */
  tell(trigger: Trigger, text: string): Promise<void>;
}

const TOO_OLD = /^(expired_trigger_id|exchanged_trigger_id|invalid_trigger_id|trigger_expired)/;

export function opener(on: Pick<Desking, 'slack' | 'log'>, { refusal }: Pick<Gate, 'refusal'>): Opener {
  const show = (trigger: Trigger, view: ModalView) =>
    on.slack.call(trigger.view === undefined ? 'views.open' : 'views.push', {
      trigger_id: trigger.trigger_id,
      view,
    });
  const tell = async (trigger: Trigger, text: string) => {
    if (trigger.response_url !== undefined) return whisper(on, trigger.response_url, text);
    await show(trigger, told('The desk', text));
  };
  return {
    tell,
    async open(trigger, make, again) {
      const refused = await refusal(actorOf(trigger));
      if (refused !== null) return tell(trigger, refused);
      const view = await make();
      if (typeof view === 'string') return tell(trigger, view);
      const called = await show(trigger, view);
      if (called.ok) return;
      on.log('slack-form-not-opened', { error: called.error });
      const old = TOO_OLD.test(called.error);
      // A form that is open can be changed at any time.
      if (trigger.view !== undefined)
        return void (await on.slack.call('views.update', { view_id: trigger.view.id, view }));
      const text = old
        ? 'That took too long for Slack. Please press once more:'
        : 'Slack did not show the form. Please try again.';
      const fresh = old && again !== undefined ? [{ type: 'actions' as const, elements: [again] }] : [];
      if (trigger.response_url !== undefined) return whisper(on, trigger.response_url, text, fresh);
      const blocks = [...sections(text), ...fresh];
      await on.slack.call('chat.postMessage', { channel: trigger.user.id, text, blocks });
    },
  };
}

/** A form with nothing to fill in. */
export const told = (title: string, text: string): ModalView => modal(title, sections(text));
