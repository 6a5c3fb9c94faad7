/** What a technician fills in to act on a ticket, whatever draws it, and what it means when it is sent. */
import type { Faults } from '#engine/catalogue.ts';
import type { TicketRow } from '#store/store.ts';
import type { DeskAction } from '#talk/inbound.ts';
import { type CardAct, causesFor } from './card.ts';
import { PRIORITIES, type Priority } from './schema.ts';

export const FORM_ACTS = ['ask', 'note', 'priority', 'hand', 'wait', 'close', 'reopen'] as const;
export type FormAct = (typeof FORM_ACTS)[number];
export const isFormAct = (act: string): act is FormAct => (FORM_ACTS as readonly string[]).includes(act);

export const ACT_LABELS: Readonly<Record<CardAct, string>> = {
  take: 'Take it',
  ask: 'Ask the person',
  note: 'Add a note',
  priority: 'Set the priority',
  hand: 'Hand it to somebody',
  wait: 'Let it wait until',
  close: 'Close',
  reopen: 'Open it again',
};

export interface ActForm {
  title: string;
  /** On the button that sends it. */
  submit: string;
  fields: ActField[];
}

export interface Options {
  /** Null: they need none. */
  heading: string | null;
  options: { value: string; label: string }[];
}

export type ActField = { id: string; label: string; required: boolean; hint: string | null } & (
  | { kind: 'words' }
  | { kind: 'choice'; groups: Options[]; initial: string | null }
  /** Somebody of the desk; filled in with the name that they act under. */
  | { kind: 'colleague' }
  /** Filled in with epoch milliseconds. */
  | { kind: 'moment' }
);

const FORMS: Readonly<Record<FormAct, Pick<ActForm, 'title' | 'submit'>>> = {
  ask: { title: 'Ask the person', submit: 'Ask' },
  note: { title: 'Add a note', submit: 'Add' },
  priority: { title: 'Set the priority', submit: 'Set' },
  hand: { title: 'Hand it over', submit: 'Hand over' },
  wait: { title: 'Let it wait', submit: 'Let it wait' },
  close: { title: 'Close', submit: 'Close it' },
  reopen: { title: 'Open it again', submit: 'Open again' },
};

/** For a cause that no fault of the catalogue is. */
const NONE = '-';

/** `faults` as they are today. */
export const actForm = (act: FormAct, row: TicketRow, faults: Faults): ActForm => ({
  ...FORMS[act],
  fields: fieldsOf(act, row, faults),
});

function fieldsOf(act: FormAct, row: TicketRow, faults: Faults): ActField[] {
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
      const options = PRIORITIES.map(priority => ({ value: priority, label: priority }));
      return [
        {
          kind: 'choice',
          id: 'priority',
          label: 'Priority',
          required: true,
          hint: null,
          groups: [{ heading: null, options }],
          initial: row.priority,
        },
        words('reason', 'Why', { required: false, hint: 'Lowering it needs a reason.' }),
      ];
    }
    case 'hand':
      return [{ kind: 'colleague', id: 'to', label: 'To', required: true, hint: null }];
    case 'wait':
      return [
        { kind: 'moment', id: 'until', label: 'Until', required: true, hint: null },
        words('reason', 'What for', { required: false }),
      ];
    case 'close':
      return [
        {
          kind: 'choice',
          id: 'fault',
          label: 'What was it?',
          required: true,
          hint: null,
          groups: causesOf(row, faults),
          initial: null,
        },
        words('words', 'In words', { required: false, hint: WORDS_HINT }),
      ];
    case 'reopen':
      return [words('text', 'Why is it opened again?')];
  }
}

const WORDS_HINT =
  'What was done, or what it was where none of the catalogue fits. The person is told the cause.';

const words = (
  id: string,
  label: string,
  { required = true, hint = null }: { required?: boolean; hint?: string | null } = {},
): ActField => ({ kind: 'words', id, label, required, hint });

const causesOf = ({ ticket }: TicketRow, faults: Faults): Options[] => [
  ...causesFor(ticket, faults).map(({ heading, faults: some }) => ({
    heading,
    options: some.map(({ id, name }) => ({ value: id, label: name })),
  })),
  { heading: 'None of these', options: [{ value: NONE, label: 'None of these: told below in words' }] },
];

/** `value`: of a field by its id, as it was filled in; empty where nothing was. */
export function actionOf(act: FormAct, value: (id: string) => string): DeskAction {
  switch (act) {
    case 'ask':
      return { do: 'ask', text: value('text') };
    case 'note':
      return { do: 'note', text: value('text') };
    case 'priority':
      return { do: 'priority', priority: value('priority') as Priority, reason: value('reason') };
    case 'hand':
      return { do: 'hand', to: value('to') };
    case 'wait':
      return { do: 'wait', until: Number(value('until')), reason: value('reason') };
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
