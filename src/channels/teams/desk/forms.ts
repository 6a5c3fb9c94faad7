/** What a technician fills in to act on a ticket, as a dialog. Pure. */
import { LONGEST } from '#tickets/act.ts';
import type { ActField, ActForm, FormAct } from '#tickets/forms.ts';
import { small } from '../question.ts';
import type { Element } from '../rich.ts';
import { alarm, cardWith, cut, filledIn, inputId, sends } from './draw.ts';
import { knownZone, momentOf } from './moment.ts';

export interface Filling {
  act: FormAct;
  number: number;
  /** Different for every form that is opened, so that the same form sent twice acts once. */
  key: string;
  /** Of the desk; empty: their name is typed. */
  colleagues: string[];
  zone: string | null;
  /** As it was filled in before, with what was wrong with it. */
  before: { data: Record<string, unknown>; wrong: string } | null;
}

export function formCard({ submit, fields, title }: ActForm, filling: Filling): Element {
  const { act, number, key, before } = filling;
  return cardWith(
    [...(before === null ? [] : [alarm(before.wrong)]), ...fields.flatMap(field => input(field, filling))],
    [sends(submit, { v: 'desk:do', a: act, n: number, f: key })],
    title,
  );
}

function input(field: ActField, filling: Filling): Element[] {
  const { id, label, required, hint } = field;
  const value = filledIn(filling.before?.data ?? {}, id);
  const common = {
    id: inputId(id),
    label,
    isRequired: required,
    ...(required ? { errorMessage: 'This is needed.' } : {}),
    ...(value === '' ? {} : { value }),
  };
  const told = hint === null ? [] : [small(hint)];
  switch (field.kind) {
    case 'words':
      return [wordsInput(common), ...told];
    case 'choice': {
      const choices = field.groups.flatMap(({ heading, options }) =>
        options.map(option => ({
          title: heading === 'Suspected' ? `Suspected: ${option.label}` : option.label,
          value: option.value,
        })),
      );
      return [choiceInput({ value: field.initial ?? undefined, ...common }, choices), ...told];
    }
    case 'colleague':
      return filling.colleagues.length === 0
        ? [{ type: 'Input.Text', ...common, maxLength: 100, placeholder: 'Their name, as it is in Teams' }]
        : [
            choiceInput(
              common,
              filling.colleagues.map(name => ({ title: name, value: name })),
            ),
          ];
    case 'moment':
      return moment(common, filling);
  }
}

/** Teams makes a list of some length one that can be searched. */
const SEARCHED = 12;

export const choiceInput = (
  common: Record<string, unknown>,
  choices: { title: string; value: string }[],
): Element => ({
  type: 'Input.ChoiceSet',
  ...(choices.length > SEARCHED
    ? { style: 'filtered', placeholder: 'Choose, or write a part of it' }
    : { style: 'compact' }),
  wrap: true,
  ...common,
  choices: choices.map(({ title, value }) => ({ title: cut(title, 120), value })),
});

export const wordsInput = (common: Record<string, unknown>): Element => ({
  type: 'Input.Text',
  ...common,
  isMultiline: true,
  maxLength: LONGEST,
});

function moment(common: Record<string, unknown>, { before, zone }: Filling): Element[] {
  const data = before?.data ?? {};
  const part = (id: string) => {
    const value = filledIn(data, id);
    return { ...common, id: inputId(id), ...(value === '' ? {} : { value }) };
  };
  return [
    { type: 'Input.Date', ...part('until-date') },
    { type: 'Input.Time', ...part('until-time'), label: `At, by the clock of ${knownZone(zone)}` },
  ];
}

/** A field as the action understands it. */
export const meantBy = (data: Record<string, unknown>, zone: string | null) => (id: string) =>
  id === 'until'
    ? String(momentOf(filledIn(data, 'until-date'), filledIn(data, 'until-time'), zone))
    : filledIn(data, id);
