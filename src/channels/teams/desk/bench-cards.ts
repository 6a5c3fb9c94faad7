/** The bench as dialogs: which questions and calculators there are, any calculator as a form, and what came out. Pure. */
import { isDeskTopic } from '#engine/schema.ts';
import { reference } from '#tickets/schema.ts';
import { WORKINGS } from '#workings/all.ts';
import { type Filled, type FormField, formOf, type Values } from '#workings/form.ts';
import type { Told, Working } from '#workings/working.ts';
import { heading, small } from '../question.ts';
import { sizeOf } from '../render.ts';
import type { Element } from '../rich.ts';
import { alarm, buttons, cardWith, cut, fitted, inputId, line, run, sends } from './draw.ts';
import { choiceInput } from './forms.ts';

/** Different for every dialog that is opened, so that the same one sent twice acts once. */
export interface About {
  number: number | null;
  key: string;
}

export function benchCard(
  { number, key }: About,
  flows: Record<string, { script: { title: string } }>,
  wrong: string | null,
): Element {
  const topics = Object.entries(flows).filter(([topic]) => isDeskTopic(topic));
  const list = (id: string, label: string, choices: { title: string; value: string }[]): Element => ({
    ...choiceInput({ id: inputId(id), label }, choices),
    style: 'expanded',
  });
  const about = { n: number, f: key };
  return cardWith(
    [
      ...(wrong === null ? [] : [alarm(wrong)]),
      heading('Step by step'),
      small('The questions come in your own chat with Reseat; what you find goes to the ticket as a note.'),
      list(
        'topic',
        'Which work is it?',
        topics.map(([topic, { script }]) => ({ title: script.title, value: topic })),
      ),
      buttons([sends('Begin', { v: 'desk:begin', ...about })]),
      heading('Work something out'),
      list(
        'working',
        'What is to be worked out?',
        WORKINGS.map(({ id, title }) => ({ title: sentence(title), value: id })),
      ),
      buttons([sends('Fill in', { v: 'desk:fill', ...about })]),
    ],
    [],
    'At the bench',
  );
}

/** `wrong`: field name to what is wrong with it. */
export function fillCard(
  working: Working,
  { number, key }: About,
  values: Values,
  wrong: Readonly<Record<string, string>>,
): Element {
  const fields = formOf(working);
  return cardWith(
    [
      line([run(sentence(working.title), { weight: 'Bolder' })]),
      ...fields.flatMap(field => input(field, values[field.name] ?? '', wrong[field.name] ?? null)),
    ],
    [sends('Work it out', { v: 'desk:work', w: working.id, n: number, f: key })],
    sentence(working.title),
  );
}

/** Characters of a field's text; what is longer does not come back as it was filled in. */
const FIELD = 3000;

function input(field: FormField, given: string, wrong: string | null): Element[] {
  const { name, label, required, help, kind, options, usual, longest } = field;
  const common = {
    id: inputId(name),
    label,
    isRequired: required,
    ...(required ? { errorMessage: 'This is needed.' } : {}),
  };
  const value = given === '' ? {} : { value: given };
  const filled = (): Element => {
    switch (kind) {
      case 'choice':
      case 'yes-no':
        return choiceInput(
          { ...common, ...(given === '' && usual !== null ? { value: usual } : value) },
          options.map(option => ({ title: option.label, value: option.value })),
        );
      case 'number':
        return {
          type: 'Input.Number',
          ...common,
          ...(given !== '' && Number.isFinite(Number(given)) ? { value: Number(given) } : {}),
          ...(usual === null ? {} : { placeholder: usual }),
        };
      default:
        return {
          type: 'Input.Text',
          ...common,
          ...value,
          isMultiline: kind === 'long-text',
          maxLength: Math.min(longest, FIELD),
          ...(usual === null ? {} : { placeholder: cut(usual, 150) }),
        };
    }
  };
  return [
    ...(wrong === null ? [] : [alarm(`${label}: ${wrong}`)]),
    filled(),
    ...(help === '' ? [] : [line([run(cut(help, 600), { size: 'Small', isSubtle: true })], CLOSE)]),
  ];
}
const CLOSE = { spacing: 'Small' };

const MOST_TWICE = 5000;
/** Rows of a table, as many as fit. */
const ROWS = [40, 20, 10, 5, 1] as const;

export function resultCard(
  working: Working,
  { told }: Extract<Filled, { ok: true }>,
  values: Values,
  { number, key }: About,
): Element {
  const carried = { w: working.id, n: number, f: key, values };
  const keep =
    number === null
      ? []
      : [sends(`Put it on ${reference(number)} as a note`, { v: 'desk:work-note', ...carried })];
  // Texts of some length are carried once.
  const back =
    sizeOf(values) > MOST_TWICE && keep.length > 0 ? [] : [sends('Back', { v: 'desk:fill', ...carried })];
  return fitted(ROWS, rows => cardWith(toldElements(told, rows), [...keep, ...back], told.says.join('\n')));
}

function toldElements({ says, table, limits, cautions = [] }: Told, rows: number): Element[] {
  const [answer, ...rest] = says;
  return [
    ...cautions.map(alarm),
    ...(answer === undefined ? [] : [line([run(answer, { weight: 'Bolder' })])]),
    ...rest.map(text => line([run(text)], CLOSE)),
    ...(table === undefined ? [] : tableElements(table, rows)),
    line([run('This assumes', { weight: 'Bolder', size: 'Small' })]),
    ...limits.map(text => line([run(`• ${text}`, { size: 'Small', isSubtle: true })], CLOSE)),
  ];
}

function tableElements(table: string[][], most: number): Element[] {
  const [head = [], ...rows] = table;
  const shown = rows.slice(0, most);
  const left = rows.length - shown.length;
  return [
    {
      type: 'Table',
      gridStyle: 'default',
      columns: head.map(() => ({ width: 1 })),
      rows: [head, ...shown].map(cells => ({
        type: 'TableRow',
        cells: head.map((_, at) => ({
          type: 'TableCell',
          items: [line([run(cells[at] ?? '', { size: 'Small' })])],
        })),
      })),
    },
    ...(left === 0 ? [] : [small(`${left} more rows do not fit here.`)]),
  ];
}

const sentence = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);
