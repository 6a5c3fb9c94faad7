/** What a technician fills in to act on a ticket, and what it means. Pure. */
import type { ViewOutput } from '@slack/bolt';
import type { InputBlock, KnownBlock, ModalView, PlainTextOption } from '@slack/types';
import type { Faults } from '#engine/catalogue.ts';
import type { TicketRow } from '#store/store.ts';
import type { DeskAction } from '#talk/inbound.ts';
import { LONGEST } from '#tickets/act.ts';
import { causesFor } from '#tickets/card.ts';
import { PRIORITIES, type Priority, reference } from '#tickets/schema.ts';
import { option } from '../blocks.ts';
import { cut, unformatted } from '../text.ts';

export const FORM_ACTS = ['ask', 'note', 'priority', 'hand', 'wait', 'close', 'reopen'] as const;
export type FormAct = (typeof FORM_ACTS)[number];
export const isFormAct = (act: string): act is FormAct => (FORM_ACTS as readonly string[]).includes(act);

/** What the form's answer is about, carried along in the view. */
export interface About {
  number: number;
}

const TITLES: Record<FormAct, string> = {
  ask: 'Ask the person',
  note: 'Add a note',
  priority: 'Set the priority',
  hand: 'Hand it over',
  wait: 'Let it wait',
  close: 'Close',
  reopen: 'Open it again',
};
const SUBMITS: Record<FormAct, string> = {
  ask: 'Ask',
  note: 'Add',
  priority: 'Set',
  hand: 'Hand over',
  wait: 'Let it wait',
  close: 'Close it',
  reopen: 'Open again',
};
/** For a cause that no fault of the catalogue is. */
const NONE = '-';
/** In a menu's group, and characters of a group's name. */
const MOST = 100;

export const modal = (title: string, blocks: KnownBlock[], rest: Partial<ModalView> = {}): ModalView => ({
  type: 'modal',
  title: unformatted(cut(title, 24)),
  close: unformatted('Close'),
  blocks,
  ...rest,
});

export function actForm(act: FormAct, row: TicketRow, faults: Faults): ModalView {
  const name = reference(row.number);
  return modal(`${name}: ${TITLES[act]}`, inputs(act, row, faults), {
    callback_id: `desk:${act}`,
    submit: unformatted(SUBMITS[act]),
    close: unformatted('Cancel'),
    private_metadata: JSON.stringify({ number: row.number } satisfies About),
  });
}

function inputs(act: FormAct, row: TicketRow, faults: Faults): InputBlock[] {
  switch (act) {
    case 'ask':
      return [
        words('text', 'Your question', {
          hint: 'It is put to the person in their own chat. The answer comes back into the thread.',
        }),
      ];
    case 'note':
      return [words('text', 'The note', { hint: 'The desk sees it, the person does not.' })];
    case 'priority': {
      const options = PRIORITIES.map(priority => option(priority, priority));
      return [
        menu(
          'priority',
          'Priority',
          options,
          options.find(({ value }) => value === row.priority),
        ),
        words('reason', 'Why', { optional: true, hint: 'Lowering it needs a reason.' }),
      ];
    }
    case 'hand':
      return [
        {
          type: 'input',
          block_id: 'to',
          label: unformatted('To'),
          element: { type: 'users_select', action_id: 'v', placeholder: unformatted('Choose somebody') },
        },
      ];
    case 'wait':
      return [
        {
          type: 'input',
          block_id: 'until',
          label: unformatted('Until'),
          element: { type: 'datetimepicker', action_id: 'v' },
        },
        words('reason', 'What for', { optional: true }),
      ];
    case 'close':
      return [causes(row, faults), words('words', 'In words', { optional: true, hint: WORDS_HINT })];
    case 'reopen':
      return [words('text', 'Why is it opened again?')];
  }
}

const WORDS_HINT =
  'What was done, or what it was where none of the catalogue fits. The person is told the cause.';

export function words(
  id: string,
  label: string,
  { optional = false, hint, initial }: { optional?: boolean; hint?: string; initial?: string } = {},
): InputBlock {
  return {
    type: 'input',
    block_id: id,
    label: unformatted(label),
    optional,
    ...(hint === undefined ? {} : { hint: unformatted(hint) }),
    element: {
      type: 'plain_text_input',
      action_id: 'v',
      multiline: true,
      max_length: LONGEST,
      ...(initial === undefined ? {} : { initial_value: initial }),
    },
  };
}

export function menu(
  id: string,
  label: string,
  options: PlainTextOption[],
  initial?: PlainTextOption,
): InputBlock {
  return {
    type: 'input',
    block_id: id,
    label: unformatted(label),
    element: {
      type: 'static_select',
      action_id: 'v',
      ...(options.length <= MOST
        ? { options }
        : {
            option_groups: groupsOf(options).map((group, at) => ({
              label: unformatted(`${at + 1}`),
              options: group,
            })),
          }),
      ...(initial === undefined ? {} : { initial_option: initial }),
    },
  };
}

const groupsOf = (options: PlainTextOption[]): PlainTextOption[][] =>
  Array.from({ length: Math.ceil(options.length / MOST) }, (_, at) =>
    options.slice(at * MOST, (at + 1) * MOST),
  );

function causes({ ticket }: TicketRow, faults: Faults): InputBlock {
  const none = {
    label: unformatted('None of these'),
    options: [option('None of these: told below in words', NONE)],
  };
  const groups = causesFor(ticket, faults).flatMap(({ heading, faults: some }) =>
    groupsOf(some.map(({ id, name }) => option(name, id))).map(options => ({
      label: unformatted(heading),
      options,
    })),
  );
  return {
    type: 'input',
    block_id: 'fault',
    label: unformatted('What was it?'),
    element: {
      type: 'static_select',
      action_id: 'v',
      placeholder: unformatted('The confirmed fault'),
      option_groups: [...groups, none],
    },
  };
}

/** Slack's own state of the fields: block id to what was filled in. */
export type State = ViewOutput['state']['values'];

export function filledIn(state: State, id: string): string {
  const field = state[id]?.v as
    | {
        value?: string | null;
        selected_option?: { value: string } | null;
        selected_user?: string | null;
        selected_date_time?: number | null;
      }
    | undefined;
  return (
    field?.value ??
    field?.selected_option?.value ??
    field?.selected_user ??
    (field?.selected_date_time == null ? '' : String(field.selected_date_time))
  );
}

/** `nameOf`: the name that a Slack user acts under. */
export function actionOf(act: FormAct, state: State, nameOf: (user: string) => string | null): DeskAction {
  const value = (id: string) => filledIn(state, id);
  switch (act) {
    case 'ask':
      return { do: 'ask', text: value('text') };
    case 'note':
      return { do: 'note', text: value('text') };
    case 'priority':
      return { do: 'priority', priority: value('priority') as Priority, reason: value('reason') };
    case 'hand':
      return { do: 'hand', to: nameOf(value('to')) ?? '' };
    case 'wait':
      return { do: 'wait', until: Number(value('until')) * 1000, reason: value('reason') };
    case 'close': {
      const fault = value('fault');
      return { do: 'close', fault: fault === NONE || fault === '' ? null : fault, words: value('words') };
    }
    case 'reopen':
      return { do: 'reopen', reason: value('text') };
  }
}

/** The field at which a refusal is shown. */
export function fieldOf(action: DeskAction): string {
  switch (action.do) {
    case 'priority':
      return action.reason.trim() === '' ? 'reason' : 'priority';
    case 'hand':
      return 'to';
    case 'wait':
      return 'until';
    case 'close':
      return action.fault === null ? 'words' : 'fault';
    default:
      return 'text';
  }
}
