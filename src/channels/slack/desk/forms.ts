/** What a technician fills in to act on a ticket, as a form of Slack's. Pure. */
import type { ViewOutput } from '@slack/bolt';
import type { InputBlock, KnownBlock, ModalView, PlainTextOption } from '@slack/types';
import type { Faults } from '#engine/catalogue.ts';
import type { TicketRow } from '#store/store.ts';
import { LONGEST } from '#tickets/act.ts';
import { type ActField, type FormAct, actForm as formOf, type Options } from '#tickets/forms.ts';
import { reference } from '#tickets/schema.ts';
import { option } from '../blocks.ts';
import { cut, unformatted } from '../text.ts';

/** What the form's answer is about, carried along in the view. */
export interface About {
  number: number;
}

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
  const { title, submit, fields } = formOf(act, row, faults);
  return modal(`${reference(row.number)}: ${title}`, fields.map(input), {
    callback_id: `desk:${act}`,
    submit: unformatted(submit),
    close: unformatted('Cancel'),
    private_metadata: JSON.stringify({ number: row.number } satisfies About),
  });
}

function input(field: ActField): InputBlock {
  const { id, label, required, hint } = field;
  const common = { type: 'input' as const, block_id: id, label: unformatted(label), optional: !required };
  switch (field.kind) {
    case 'words':
      return words(id, label, { optional: !required, ...(hint === null ? {} : { hint }) });
    case 'choice': {
      const [first, ...rest] = field.groups;
      if (first !== undefined && first.heading === null && rest.length === 0) {
        const options = optionsOf(first);
        return menu(
          id,
          label,
          options,
          options.find(({ value }) => value === field.initial),
        );
      }
      const option_groups = field.groups.flatMap(group =>
        groupsOf(optionsOf(group)).map(options => ({ label: unformatted(group.heading ?? label), options })),
      );
      const placeholder = unformatted('The confirmed fault');
      return { ...common, element: { type: 'static_select', action_id: 'v', placeholder, option_groups } };
    }
    case 'colleague':
      return {
        ...common,
        element: { type: 'users_select', action_id: 'v', placeholder: unformatted('Choose somebody') },
      };
    case 'moment':
      return { ...common, element: { type: 'datetimepicker', action_id: 'v' } };
  }
}

const optionsOf = ({ options }: Options): PlainTextOption[] =>
  options.map(({ label, value }) => option(label, value));

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
